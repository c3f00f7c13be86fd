import type { RingDesign } from "../design/ringDesign.js";
import type { PenalizedFit } from "../numeric/penalizedFit.js";
import { trapezoidShares } from "../numeric/trapezoid.js";
import { curvatureTerms, pressureTerms } from "./pressureModes.js";

/** Half widths of what a scan leaves open, to first order in it. */
export interface ScanBand {
  /** At each station, 1/mm. */
  readonly curvature: number[];
  /** At each station, MPa. */
  readonly pressure: number[];
  /** N. */
  readonly tangentialForce: number;
  /** mm. */
  readonly freeGap: number;
}

/**
 * @param ring as it came out
 * @param flexibility 1/(E·I) at the stations, 1/(N·mm²)
 * @param fit with so many columns before the terms
 * @param factor standard deviations to half the band
 */
export function scanBand(
  ring: RingDesign,
  flexibility: readonly number[],
  fit: PenalizedFit,
  columns: number,
  uneven: number,
  factor: number,
): ScanBand {
  const { installed, free, spec } = ring;
  const { theta, centroidRadius: r, outerRadius: R } = installed;
  const c = theta[theta.length - 1];
  const before = new Array<number>(columns).fill(0);
  const deviationOf = (weights: readonly number[]) => factor * fit.deviationOf([...before, ...weights]);
  const curvature = theta.map((u) => curvatureTerms(u, c, uneven));
  const steps = trapezoidShares(theta);
  /** ∫ of the terms of κ·r over the ring, weighted. */
  const integral = (weight: (i: number) => number) => {
    const sums = new Array<number>(curvature[0].length).fill(0);
    for (const [i, step] of steps.entries()) {
      for (let j = 0; j < sums.length; j++) sums[j] += step * weight(i) * curvature[i][j];
    }
    return sums;
  };
  // By virtual work: a tape's moment T·r·(1 + cos θ) takes the opening away, and couples open the gap by their lever.
  const opening = theta.map((u) => 1 + Math.cos(u));
  const yielding = steps.reduce((sum, step, i) => sum + step * flexibility[i] * opening[i] ** 2, 0);
  const height = (free.y[0] + free.y[free.y.length - 1]) / 2;
  return {
    curvature: curvature.map((terms) => deviationOf(terms) / r),
    pressure: theta.map(
      (u, i) =>
        deviationOf(pressureTerms(u, c, uneven)) / (flexibility[i] * spec.section.axialHeight * R * r * r),
    ),
    tangentialForce: deviationOf(integral((i) => opening[i])) / (r * r * yielding),
    freeGap: deviationOf(integral((i) => height - free.y[i])),
  };
}
