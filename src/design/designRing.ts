import { curvedBar } from "../curvature/curved.js";
import type { BarLaw } from "../curvature/law.js";
import { thinBar } from "../curvature/thin.js";
import { freeEnds } from "../ends/ends.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import { type RelativeForces, uniformForces } from "../forces/internalForces.js";
import { proveClosure } from "../proof/proveClosure.js";
import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import { joinHalves, mirrored, stationAngles } from "../shape/freeRing.js";
import { freeHalfRing } from "../shape/halfRing.js";
import { freeOutline } from "../shape/outline.js";
import { stationTrig } from "../shape/stationTrig.js";
import { SpecError } from "../spec/error.js";
import { type RingSpec, readSpec } from "../spec/readSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type ClosingStress, curvedFibreStress, thinFibreStress } from "../stress/closing.js";
import { LARGEST_K, solveFreeGap } from "./load.js";
import type { InstalledRing, RingDesign } from "./ringDesign.js";
import { warningsFor } from "./warnings.js";

export interface DesignOptions {
  /** Also close the free ring again by an independent forward computation, as `proof`. Default false. */
  proof?: boolean;
}

/**
 * Designs a ring: the free shape that closes to a true circle with the wanted pressure, its ends and its stress.
 *
 * The closed ring's forces are exact statics; the free curvature follows point by point from the bar's law; the
 * shape by two integrations. Exact for any opening within the bar theory; the material is linear.
 *
 * @param spec the order: numbers in mm, N, MPa or strings with a unit
 * @param options `proof: true` adds the closure proof
 * @returns plain data; see {@link RingDesign} for order and units of every array
 * @throws SpecError when a field is wrong, fields contradict each other, or no such ring exists (K above 0.5)
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
  const checked = readSpec(spec);
  const { bore, closedGap, stations, section } = checked;
  const { radialThickness: a, axialHeight: h } = section;
  const geometry = closedGeometry(bore, a, closedGap, stations);
  const { outerRadius: R, centroidRadius: r, centroidLimit, stationStep } = geometry;
  const law = barLaw(checked, r);

  const { cosine, sine } = stationTrig(stations, stationStep);
  const forces = uniformForces(geometry, cosine, sine);
  const forcePerK = law.bendingStiffness / (r * r);
  const halfAt = (K: number) => freeHalfRing(geometry, forces, law, K * forcePerK, cosine, sine);

  const K = stiffnessParameter(checked, R * h, forcePerK, r, (trial) => 2 * halfAt(trial).x[stations]);
  const tangentialForce = K * forcePerK;
  const contactPressure = tangentialForce / (R * h);
  const half = halfAt(K);
  const ends = freeEnds(half.tangent[stations], centroidLimit, a, closedGap, r);
  const theta = stationAngles(stations, stationStep);
  const installed = installedRing(geometry, forces, theta, contactPressure, tangentialForce);
  const closing = closingStress(checked, installed, half.curvature);
  const free = joinHalves(half, theta);
  const design: RingDesign = {
    spec: checked,
    stiffnessParameter: K,
    load: { tangentialForce, contactPressure, freeGap: free.gap, balance: forces.balance },
    installed,
    free,
    outline: freeOutline(half, a, geometry, ends.faceToNormal),
    ends,
    stress: { closing },
    warnings: warningsFor(checked, r, closing),
  };
  return options.proof ? { ...design, proof: proveClosure(design) } : design;
}

function barLaw({ theory, section, material }: RingSpec, r: number): BarLaw {
  const { radialThickness: a, axialHeight: h } = section;
  return theory === "thin"
    ? thinBar(material.youngsModulus, area(a, h), secondMoment(a, h))
    : curvedBar(material.youngsModulus, a, h, r);
}

/** K from whichever load is given; Ft = K·E·I/r² = p₀·R·h. */
function stiffnessParameter(
  { load, closedGap }: RingSpec,
  faceArea: number,
  forcePerK: number,
  r: number,
  gapAt: (K: number) => number,
): number {
  if ("freeGap" in load) return solveFreeGap(gapAt, load.freeGap, closedGap, r);
  const [field, value, perK, unit] =
    "tangentialForce" in load
      ? (["load.tangentialForce", load.tangentialForce, forcePerK, "N"] as const)
      : (["load.contactPressure", load.contactPressure, forcePerK / faceArea, "MPa"] as const);
  const K = value / perK;
  if (!(K <= LARGEST_K)) {
    throw new SpecError(
      field,
      value,
      `must be at most ${(LARGEST_K * perK).toPrecision(6)} ${unit} for this ring, where K = Ft·r²/(E·I) reaches ${LARGEST_K} and its back would be straight when free`,
    );
  }
  return K;
}

function installedRing(
  { centroidRadius, outerRadius }: Geometry,
  forces: RelativeForces,
  theta: number[],
  contactPressure: number,
  tangentialForce: number,
): InstalledRing {
  return {
    centroidRadius,
    outerRadius,
    theta,
    pressure: mirrored(forces.pressure, 1, contactPressure),
    moment: mirrored(forces.moment, 1, tangentialForce * centroidRadius),
    normal: mirrored(forces.moment, 1, -tangentialForce),
    shear: mirrored(forces.shear, -1, tangentialForce),
  };
}

/** Largest fibre stress over the right half. */
function closingStress(
  { theory, section }: RingSpec,
  installed: InstalledRing,
  curvature: number[],
): ClosingStress {
  const { radialThickness: a, axialHeight: h } = section;
  const A = area(a, h);
  const I = secondMoment(a, h);
  const back = curvature.length - 1;
  let worst: ClosingStress = { max: 0, theta: 0, outer: 0, inner: 0 };
  for (let i = 0; i < curvature.length; i++) {
    const moment = installed.moment[back + i];
    const kappa0 = curvature[i];
    const stress =
      theory === "thin"
        ? thinFibreStress(moment, a, h)
        : curvedFibreStress(
            moment,
            installed.normal[back + i],
            kappa0,
            a,
            A,
            curvedSecondMoment(I, a, kappa0),
          );
    const max = Math.max(Math.abs(stress.outer), Math.abs(stress.inner));
    if (max > worst.max) worst = { max, theta: installed.theta[back + i], ...stress };
  }
  return worst;
}
