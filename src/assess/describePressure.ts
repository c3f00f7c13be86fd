import type { CutRing } from "../ends/cutRing.js";
import { closedGeometry } from "../forces/geometry.js";
import { integrateTable } from "../numeric/integrateTable.js";
import { SpecError } from "../spec/error.js";
import { tapeEstimate } from "./tapeEstimate.js";

/** One order of a pressure as a series over the whole circle, relative to the mean pressure. */
export interface PressureHarmonic {
  /** Waves to a turn, from 1. */
  readonly order: number;
  /** (1/π)·∫p·cos iθ dθ over the mean pressure, θ from the back. */
  readonly cosine: number;
  /** The same with sin iθ; 0 for a ring whose halves are alike. */
  readonly sine: number;
}

/** What a ring's contact pressure is like; `relative` values are over its mean. */
export interface PressureDescription {
  /** Mean over the outer face, MPa. */
  readonly mean: number;
  /** At the back and at the gap, over the mean. */
  readonly relative: {
    /** At θ = 0. */
    readonly atBack: number;
    /** Mean of both ends. */
    readonly atGap: number;
    /** At −θC. */
    readonly atLeftEnd: number;
    /** At θC. */
    readonly atRightEnd: number;
  };
  /** Lowest pressure of any station. */
  readonly lowest: {
    /** Over the mean. */
    readonly relative: number;
    /** Where, radians from the back. */
    readonly theta: number;
  };
  /** Highest pressure of any station. */
  readonly highest: {
    /** Over the mean. */
    readonly relative: number;
    /** Where, radians from the back. */
    readonly theta: number;
  };
  /**
   * (1/π)·∫p·cos iθ dθ and the same with sine over the mean, nothing acting in the gap; from order 1, which
   * vanishes when the pressure balances itself.
   */
  readonly harmonics: PressureHarmonic[];
  /** What a tape would show, by the theory of small openings. */
  readonly tape: {
    /** Pull that closes the ring to its closed gap, N. Ft = p₀·d1·h1/2 for a uniform pressure only. */
    readonly tangentialForce: number;
    /** Diameter through the gap minus diameter at 90° to it, mm, at that gap. Positive with more pressure at the gap. */
    readonly ovality: number;
  };
}

const MOST_ORDERS = 100;

/**
 * Mean, extremes, harmonic content and tape readings of a ring's pressure.
 *
 * The tape's readings are by the theory of small openings: off by the order of K, of a/r and of the gap over the bore. `tapeTest` is exact.
 * Source: worked; see docs/theory/02-pressure-and-balance.md.
 *
 * @param ring a designed ring
 * @param highestOrder of the harmonics given, a whole number from 0 to 100; default 12
 * @throws SpecError for another
 *
 * @example
 * describePressure(design).relative.atGap; // 1.002, of the mean
 */
export function describePressure(ring: CutRing, highestOrder = 12): PressureDescription {
  if (!(Number.isInteger(highestOrder) && highestOrder >= 0 && highestOrder <= MOST_ORDERS)) {
    throw new SpecError("highestOrder", highestOrder, `must be a whole number from 0 to ${MOST_ORDERS}`);
  }
  const { theta, pressure, outerRadius } = ring.installed;
  const last = theta.length - 1;
  const back = last / 2;
  // The outer face goes on a little past the last station, by so little that the pressure there is that of the end.
  const { section, closedGap } = ring.spec;
  const { loadLimit } = closedGeometry(2 * outerRadius, section.radialThickness, closedGap);
  const overhang = loadLimit - theta[last];
  const integral = (weight: (angle: number) => number) =>
    integrateTable(theta, pressure, theta[0], theta[last], weight) +
    overhang * (pressure[0] * weight(theta[0]) + pressure[last] * weight(theta[last]));
  const mean = integral(() => 1) / (2 * (theta[last] + overhang));
  const relative = pressure.map((p) => p / mean);
  const extreme = (better: (one: number, other: number) => boolean) => {
    let at = back;
    for (let i = last; i >= 0; i--) if (better(relative[i], relative[at])) at = i;
    return { relative: relative[at], theta: theta[at] };
  };
  return {
    mean,
    relative: {
      atBack: relative[back],
      atGap: (relative[0] + relative[last]) / 2,
      atLeftEnd: relative[0],
      atRightEnd: relative[last],
    },
    lowest: extreme((one, other) => one < other),
    highest: extreme((one, other) => one > other),
    harmonics: Array.from({ length: highestOrder }, (_, k) => ({
      order: k + 1,
      cosine: integral((angle) => Math.cos((k + 1) * angle)) / (Math.PI * mean),
      sine: integral((angle) => Math.sin((k + 1) * angle)) / (Math.PI * mean),
    })),
    tape: tapeEstimate(ring),
  };
}
