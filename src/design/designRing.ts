import { curvedBar } from "../curvature/curved.js";
import type { BarLaw } from "../curvature/law.js";
import { thinBar } from "../curvature/thin.js";
import { freeEnds } from "../ends/ends.js";
import { closedGeometry } from "../forces/geometry.js";
import { installedRing } from "../forces/installedRing.js";
import { uniformForces } from "../forces/internalForces.js";
import { stationAngles } from "../forces/mirror.js";
import { proveClosure } from "../proof/proveClosure.js";
import { secondMoment } from "../section/rectangle.js";
import { joinHalves } from "../shape/freeRing.js";
import { freeHalfRing } from "../shape/halfRing.js";
import { freeOutline } from "../shape/outline.js";
import { stationTrig } from "../shape/stationTrig.js";
import { type RingSpec, readSpec } from "../spec/readSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { closingStress } from "../stress/closing.js";
import { stiffnessParameter } from "./load.js";
import type { RingDesign } from "./ringDesign.js";
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
  const free = joinHalves(half, theta);
  const closing = closingStress(checked, installed, free.curvature);
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
    ? thinBar(material.youngsModulus, secondMoment(a, h))
    : curvedBar(material.youngsModulus, a, h, r);
}
