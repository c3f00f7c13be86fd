import type { GivenRing } from "../contact/givenRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { trapezoidShares } from "../numeric/trapezoid.js";
import { type FittedFace, PLACE } from "./fitFace.js";
import type { MomentSeries } from "./momentSeries.js";
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

/** Less than this angle is rounding. */
const NO_SLACK = 1e-6;

/**
 * @param ring as it came out
 * @param series whose coefficients were fitted
 * @param slack how far the ring may lie farther left or right than the middle of its points, as an angle: an end point that is missing
 * leaves it open by half a step
 * @param factor standard deviations to half the band
 */
export function scanBand(
  ring: RingDesign,
  series: MomentSeries,
  { fit, coefficients }: FittedFace,
  slack: number,
  factor: number,
): ScanBand {
  const { installed, free, spec, load } = ring;
  const { theta, centroidRadius: r, outerRadius: R } = installed;
  const c = theta[theta.length - 1];
  const { share, plain, uneven } = series;
  const before = new Array<number>(PLACE).fill(0);
  const deviationOf = (weights: readonly number[]) => factor * fit.deviationOf([...before, ...weights]);
  const curvature = theta.map((u, i) => curvatureTerms(u, c, uneven).map((term) => share[i] * term));
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
  const yielding = steps.reduce((sum, step, i) => sum + step * share[i] * plain * opening[i] ** 2, 0);
  const height = (free.y[0] + free.y[free.y.length - 1]) / 2;
  const byPressure = 1 / (plain * spec.section.axialHeight * R * r * r);
  const asFitted = series.pressureOf(coefficients);
  const sides = slack > NO_SLACK ? [-slack, slack] : [];
  const moved = sides.map((by) => {
    const shifted: GivenRing = series.ringOf(coefficients, by);
    return { shifted, pressure: series.pressureOf(coefficients, by), tape: tapeTest(shifted) };
  });
  /** The larger change on the ring moved to either side. */
  const shift = (of: (one: (typeof moved)[number]) => number, own: number) =>
    Math.max(0, ...moved.map((one) => Math.abs(of(one) - own)));
  return {
    curvature: curvature.map(
      (terms, i) =>
        deviationOf(terms) / r + shift(({ shifted }) => shifted.free.curvature[i], free.curvature[i]),
    ),
    pressure: theta.map(
      (u, i) =>
        byPressure *
          (deviationOf(pressureTerms(u, c, uneven)) + shift(({ pressure }) => pressure[i], asFitted[i])) +
        // What is not of first order: ends that would need a couple stand on their tips and lift beside them.
        Math.abs(installed.pressure[i] - byPressure * asFitted[i]),
    ),
    tangentialForce:
      deviationOf(integral((i) => opening[i])) / (r * r * yielding) +
      shift(({ tape }) => tape.force, load.tangentialForce),
    freeGap: deviationOf(integral((i) => height - free.y[i])) + shift(({ tape }) => tape.freeGap, free.gap),
  };
}
