import * as v from "valibot";
import { barsAlong } from "../curvature/lawsAlong.js";
import { freeEnds } from "../ends/ends.js";
import { closedGeometry } from "../forces/geometry.js";
import { installedRing } from "../forces/installedRing.js";
import { internalForces } from "../forces/internalForces.js";
import { joinedBy } from "../forces/mirror.js";
import { halfStations } from "../forces/stations.js";
import { balancedPressure } from "../pressure/balanced.js";
import { proveClosure } from "../proof/proveClosure.js";
import { wallAlong } from "../section/wall.js";
import { joinHalves } from "../shape/freeRing.js";
import { freeHalves } from "../shape/halfRing.js";
import { freeGap, freeOutline } from "../shape/outline.js";
import { slotOutlines } from "../shape/slotOutlines.js";
import { parse } from "../spec/issues.js";
import { readSpec } from "../spec/readSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { closingStress } from "../stress/closing.js";
import { largestBending, meanFlexibility } from "./flexibility.js";
import { tangentialForceOf } from "./load.js";
import { checkLowestPressure } from "./lowestPressure.js";
import type { RingDesign } from "./ringDesign.js";
import { specOfWall, wallStations } from "./wallTable.js";
import { warningsFor } from "./warnings.js";

/** How a ring is designed. */
export interface DesignOptions {
  /** Also close the free ring again by an independent forward computation, as `proof`. Default false. */
  proof?: boolean;
  /** Go on with a warning where the pressure is negative, which no ring can have. Default false: that is an error. */
  allowNegativePressure?: boolean;
}

const YES_OR_NO = "must be true or false";
const designSchema = () =>
  v.strictObject({
    proof: v.optional(v.boolean(YES_OR_NO), false),
    allowNegativePressure: v.optional(v.boolean(YES_OR_NO), false),
  });

/**
 * Designs a ring: the free shape that closes to a true circle with the wanted pressure, its ends and its stress.
 *
 * The closed ring's forces are exact statics; the free curvature follows point by point from the bar's law; the
 * shape by two integrations. Exact for any opening within the bar theory; the material is linear.
 *
 * Method: docs/theory/README.md.
 *
 * @param spec the order: numbers in mm, N, MPa, rad or strings with a unit
 * @param options `proof: true` adds the closure proof; `allowNegativePressure: true` shows an impossible pressure
 * @returns plain data; see {@link RingDesign} for order and units of every array
 * @throws SpecError when a field is wrong, fields contradict each other, the pressure is negative somewhere, or no such
 * ring exists because some place would have to be bent backwards when free (K = ½ for the uniform ring)
 * @throws NotFound, with `proof`, when the integration does not reach the other end
 *
 * @example
 * const ring = designRing({
 *   bore: "118 mm",
 *   closedGap: 0.45,
 *   section: { radialThickness: 4.4, axialHeight: 2 },
 *   material: { youngsModulus: 205000 },
 *   load: { contactPressure: 0.15 },
 * });
 * ring.free.gap.toFixed(3); // "11.114"
 */
export function designRing(spec: RingSpecInput, options: DesignOptions = {}): RingDesign {
  const ordered = readSpec(spec);
  const { proof, allowNegativePressure } = parse(designSchema, options, "options");
  const { bore, closedGap, section } = ordered;
  const { radialThickness: a, axialHeight: h } = section;
  const geometry = closedGeometry(bore, a, closedGap);
  const { outerRadius: R, centroidRadius: r, centroidLimit, loadLimit } = geometry;

  const wall = wallAlong(a, section.wall, section.slots, centroidLimit, r);
  const stations = halfStations(centroidLimit, ordered.stations, wall.breaks);
  const theta = joinedBy({ left: stations, right: stations }, (half) => half.theta, -1);
  const pressure = balancedPressure(ordered.pressure, loadLimit);
  const forces = internalForces(pressure, loadLimit, stations);
  const negative = checkLowestPressure(ordered, geometry, pressure, theta, forces, allowNegativePressure);

  const bars = barsAlong(ordered, r, wall, stations);
  const endWall = { left: lastOf(bars.left.walls).thickness, right: lastOf(bars.right.walls).thickness };
  const middles = { left: (a - endWall.left) / 2, right: (a - endWall.right) / 2 };
  const halvesAt = (force: number) => freeHalves(geometry, stations, forces, bars, force);

  const steepest = largestBending(forces, bars, stations);
  const largestForce = 1 / (r * r * steepest.bending);
  const stiffnessParameter = (force: number) => force * r * r * meanFlexibility(bars, stations);
  const tangentialForce = tangentialForceOf(ordered, {
    faceArea: R * h,
    radius: r,
    largestForce,
    largestK: stiffnessParameter(largestForce),
    straightAt: steepest.theta,
    gapAt: (force) => freeGap(halvesAt(force), middles, geometry.faceToNormal),
  });

  const contactPressure = tangentialForce / (R * h);
  const halves = halvesAt(tangentialForce);
  const tangents = { left: lastOf(halves.left.tangent), right: lastOf(halves.right.tangent) };
  const ends = freeEnds(tangents, geometry, (endWall.left + endWall.right) / 2, closedGap);
  const installed = installedRing(geometry, forces, theta, contactPressure, tangentialForce);
  const free = joinHalves(halves, theta, freeGap(halves, middles, geometry.faceToNormal));
  const along = wall.plain ? undefined : wallStations(bars, section.slots);
  const closing = closingStress(ordered, installed, free.curvature, along);
  const walls = { left: bars.left.walls, right: bars.right.walls };
  const outline = freeOutline(halves, walls, stations.theta, geometry, closedGap, ends.faceToNormal);
  const checked = along && typeof section.wall === "function" ? specOfWall(ordered, theta, along) : ordered;
  const design: RingDesign = {
    spec: checked,
    stiffnessParameter: stiffnessParameter(tangentialForce),
    load: {
      tangentialForce,
      contactPressure,
      freeGap: free.gap,
      balance: pressure.balance.cosine,
      balanceSine: pressure.balance.sine,
    },
    installed,
    free,
    outline: section.slots
      ? { ...outline, slots: slotOutlines(section.slots, free, (at) => wall.at(at, at).thickness, R - r) }
      : outline,
    ends,
    ...(along && { wall: along }),
    stress: { closing },
    warnings: warningsFor(checked, r, closing, negative),
  };
  return proof ? { ...design, proof: proveClosure(design) } : design;
}

function lastOf<T>(values: readonly T[]): T {
  return values[values.length - 1];
}
