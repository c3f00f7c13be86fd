import { hashed } from "./sobolSequence.js";

/** What a quantity owes to one of its inputs, as shares of its variance. */
export interface SobolIndex {
  /** What goes away on average when the input is held: its own share. */
  readonly first: number;
  /** What is left when all the others are held: its own share and its part in what it does together with others. */
  readonly total: number;
  /** Standard deviation of `first`. */
  readonly firstError: number;
  /** Standard deviation of `total`. */
  readonly totalError: number;
}

const RESAMPLES = 200;

/**
 * Sobol' indices from a quantity at pairs of independent samples A and B, and at A with one column taken from B.
 *
 * @param a values at A
 * @param b values at B, as many
 * @param ab for each input the values at A with that column of B
 * @param seed of the resampling that the errors come from
 *
 * Sources: A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259–270, table 2, (b) for the first order; M. J. W. Jansen, Comput. Phys.
 * Commun. 117 (1999) 35–43 for the total (both from memory; tested on functions with known indices). Errors by the bootstrap.
 */
export function sobolIndices(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  ab: readonly ArrayLike<number>[],
  seed = 1,
): SobolIndex[] {
  const count = a.length;
  // Any constant may be taken off; with the mean the estimates scatter least.
  let centre = 0;
  for (let i = 0; i < count; i++) centre += (a[i] + b[i]) / (2 * count);
  const estimate = (rowAt: (i: number) => number, values: ArrayLike<number>) => {
    let [sum, square, first, total] = [0, 0, 0, 0];
    for (let i = 0; i < count; i++) {
      const row = rowAt(i);
      const [u, v] = [a[row] - centre, b[row] - centre];
      sum += u + v;
      square += u * u + v * v;
      first += v * (values[row] - a[row]);
      total += (a[row] - values[row]) ** 2 / 2;
    }
    const variance = square / 2 - (sum * sum) / (4 * count);
    return variance > 0 ? [first / variance, total / variance] : [0, 0];
  };
  return ab.map((values) => {
    const [first, total] = estimate((i) => i, values);
    const again = Array.from({ length: RESAMPLES }, (_, k) => {
      const own = hashed(seed, k);
      return estimate((i) => Math.floor((count * hashed(own, i)) / 2 ** 32), values);
    });
    const deviation = (which: 0 | 1) => {
      const mean = again.reduce((all, one) => all + one[which], 0) / RESAMPLES;
      return Math.sqrt(again.reduce((all, one) => all + (one[which] - mean) ** 2, 0) / (RESAMPLES - 1));
    };
    return { first, total, firstError: deviation(0), totalError: deviation(1) };
  });
}
