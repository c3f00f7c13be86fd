import { gaussIntegral } from "./gauss.js";
import { localPolynomial } from "./localPolynomial.js";
import { smoothRuns } from "./smoothRuns.js";

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
      sum += gaussIntegral(start, end, (at) => value(at) * weight(at));
    }
  }
  return sum;
}
