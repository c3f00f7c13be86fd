import { barsAlong } from "../curvature/lawsAlong.js";
import { freeEnds } from "../ends/ends.js";
import { closedGeometry } from "../forces/geometry.js";
import { installedRing } from "../forces/installedRing.js";
import { type Halves, internalForces } from "../forces/internalForces.js";
import { joinedBy } from "../forces/mirror.js";
import { halfStations } from "../forces/stations.js";
import { balancedPressure } from "../pressure/balanced.js";
import { proveClosure } from "../proof/proveClosure.js";
import { wallAlong } from "../section/wall.js";
import { joinHalves } from "../shape/freeRing.js";
import { freeHalfRing, type HalfRing } from "../shape/halfRing.js";
import { freeOutline, pointOnEnd } from "../shape/outline.js";
import { slotOutlines } from "../shape/slotOutlines.js";
import { readSpec } from "../spec/readSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { closingStress } from "../stress/closing.js";
import { tangentialForceOf } from "./load.js";
import { checkLowestPressure } from "./lowestPressure.js";
import type { RingDesign } from "./ringDesign.js";
import { largestBending, meanFlexibility, specOfWall, wallStations } from "./variation.js";
import { warningsFor } from "./warnings.js";

export interface DesignOptions {
  /** Also close the free ring again by an independent forward computation, as `proof`. Default false. */
  proof?: boolean;
  /** Go on with a warning where the pressure is negative, which no ring can have. Default false: that is an error. */
  allowNegativePressure?: boolean;
}

/**
 * Designs a ring: the free shape that closes to a true circle with the wanted pressure, its ends and its stress.
 *
 * The closed ring's forces are exact statics; the free curvature follows point by point from the bar's law; the
 * shape by two integrations. Exact for any opening within the bar theory; the material is linear.
 *
 * @param spec the order: numbers in mm, N, MPa, rad or strings with a unit
 * @param options `proof: true` adds the closure proof; `allowNegativePressure: true` shows an impossible pressure
 * @returns plain data; see {@link RingDesign} for order and units of every array
 * @throws SpecError when a field is wrong, fields contradict each other, the pressure is negative somewhere, or no such
 * ring exists because some place would have to be bent backwards when free (K = ½ for the uniform ring)
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
  const { bore, closedGap, section } = ordered;
  const { radialThickness: a, axialHeight: h } = section;
  const geometry = closedGeometry(bore, a, closedGap);
  const { outerRadius: R, centroidRadius: r, centroidLimit, loadLimit } = geometry;

  const wall = wallAlong(a, section.wall, section.slots, centroidLimit, r);
  const stations = halfStations(centroidLimit, ordered.stations, wall.breaks);
  const theta = joinedBy({ left: stations, right: stations }, (half) => half.theta, -1);
  const pressure = balancedPressure(ordered.pressure, loadLimit);
  const forces = internalForces(pressure, loadLimit, stations);
  const negative = checkLowestPressure(
    ordered,
    geometry,
    pressure,
    theta,
    forces,
    options.allowNegativePressure,
  );

  const bars = barsAlong(ordered, r, wall, stations);
  const alike = forces.left === forces.right && bars.left === bars.right;
  const delta = Math.asin(closedGap / (2 * r));
  const freeHalves = (force: number): Halves<HalfRing> => {
    const right = freeHalfRing(geometry, stations, forces.right, bars.right, force);
    return {
      left: alike ? right : freeHalfRing(geometry, stations, forces.left, bars.left, force),
      right,
    };
  };
  const endWalls = {
    left: bars.left.walls.at(-1) as { thickness: number },
    right: bars.right.walls.at(-1) as { thickness: number },
  };
  const gapOf = ({ left, right }: Halves<HalfRing>) => {
    const [leftX, leftY] = pointOnEnd(left, (a - endWalls.left.thickness) / 2, delta);
    const [rightX, rightY] = pointOnEnd(right, (a - endWalls.right.thickness) / 2, delta);
    return alike ? 2 * rightX : Math.hypot(leftX + rightX, leftY - rightY);
  };

  const steepest = largestBending(forces, bars, stations);
  const largestForce = 1 / (r * r * steepest.bending);
  const stiffnessParameter = (force: number) => force * r * r * meanFlexibility(bars, stations);
  const tangentialForce = tangentialForceOf(ordered, {
    faceArea: R * h,
    radius: r,
    largestForce,
    largestK: stiffnessParameter(largestForce),
    straightAt: steepest.theta,
    gapAt: (force) => gapOf(freeHalves(force)),
  });

  const contactPressure = tangentialForce / (R * h);
  const halves = freeHalves(tangentialForce);
  const tangents = {
    left: halves.left.tangent.at(-1) as number,
    right: halves.right.tangent.at(-1) as number,
  };
  const endWall = (endWalls.left.thickness + endWalls.right.thickness) / 2;
  const ends = freeEnds(tangents, geometry, endWall, closedGap);
  const installed = installedRing(geometry, forces, theta, contactPressure, tangentialForce);
  const free = joinHalves(halves, theta, gapOf(halves));
  const along = wall.plain ? undefined : wallStations(bars, section.slots);
  const closing = closingStress(ordered, installed, free.curvature, along);
  const walls = { left: bars.left.walls, right: bars.right.walls };
  const outline = freeOutline(halves, walls, stations.theta, geometry, closedGap, ends.faceToNormal);
  const checked = along && section.wall ? specOfWall(ordered, theta, along) : ordered;
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
  return options.proof ? { ...design, proof: proveClosure(design) } : design;
}
