import { type Conformability, conformability } from "../assess/conformability.js";
import { describePressure, type PressureDescription } from "../assess/describePressure.js";
import type { RingDesign } from "../design/ringDesign.js";
import { type PartClosed, partClosed } from "../ends/partClosed.js";
import { fibreStresses } from "../stress/fibreStress.js";

/** All that one sheet tells of a ring. Arrays as in the design; mm, N, MPa, radians. */
export interface RingOverview {
  /** The ring. */
  readonly design: RingDesign;
  /** What its pressure is like. */
  readonly pressure: PressureDescription;
  /** How far it follows a bore that is not round. */
  readonly follows: Conformability;
  /** Stress of the closed ring's outer and inner fibres. */
  readonly stress: {
    /** Tension positive, at each station. */
    readonly outer: number[];
    /** The same, of the inner fibre. */
    readonly inner: number[];
  };
  /** The ring on its way from free to closed, in a band, at two thirds and at one third of its opening. */
  readonly closing: PartClosed[];
}

/** Shares of the opening at which it is shown on its way. */
const ON_ITS_WAY = [2 / 3, 1 / 3];

/**
 * Computes what the ring sheet shows: pressure, conformability, stresses along the ring and the ring part-closed.
 *
 * @param design the ring
 * @throws NotFound when no equilibrium in the band is found
 *
 * @example
 * ringOverview(design).closing.map(({ pull }) => pull); // [5.715, 11.61], N
 */
export function ringOverview(design: RingDesign): RingOverview {
  const { spec, installed, free, wall } = design;
  const stressAt = fibreStresses(spec, wall);
  const stresses = installed.theta.map((_, i) =>
    stressAt(i, installed.moment[i], installed.normal[i], free.curvature[i]),
  );
  return {
    design,
    pressure: describePressure(design),
    follows: conformability(design),
    stress: { outer: stresses.map(({ outer }) => outer), inner: stresses.map(({ inner }) => inner) },
    closing: ON_ITS_WAY.map((share) =>
      partClosed(design, spec.closedGap + share * (free.gap - spec.closedGap)),
    ),
  };
}
