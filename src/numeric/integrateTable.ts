import { localPolynomial } from "./localPolynomial.js";
import { smoothRuns } from "./smoothRuns.js";

/** Gauss–Legendre nodes and weights on −1 … 1, five points (NIST DLMF, table 3.5.1). */
const GAUSS = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
] as const;

/**
 * ∫ f(t)·weight(t) dt for a tabulated f, by the polynomial through the eight points nearest to each interval; never
 * across a point that stands twice.
 *
 * @param t non-decreasing abscissae, at least eight between points that stand twice
 * @param f values
 * @param from, to bounds within the table
 * @param weight a smooth function
 */
export function integrateTable(
  t: readonly number[],
  f: readonly number[],
  from: number,
  to: number,
  weight: (t: number) => number = () => 1,
): number {
  let sum = 0;
  for (const [first, last] of smoothRuns(t)) {
    const [abscissae, values] = [t.slice(first, last + 1), f.slice(first, last + 1)];
    for (let k = 0; k < last - first; k++) {
      const start = Math.max(from, abscissae[k]);
      const end = Math.min(to, abscissae[k + 1]);
      if (!(end > start)) continue;
      const value = localPolynomial(abscissae, values, k);
      const half = (end - start) / 2;
      const middle = (end + start) / 2;
      for (const [node, share] of GAUSS) {
        const nodes = node === 0 ? [middle] : [middle - node * half, middle + node * half];
        for (const at of nodes) sum += half * share * value(at) * weight(at);
      }
    }
  }
  return sum;
}
