import { localPolynomial } from "./localPolynomial.js";
import { smoothRuns } from "./smoothRuns.js";

/** Abscissae nearer than this are the same. */
const SAME = 1e-12;

/**
 * Values of a table at other abscissae, by the polynomial through the eight nearest points; never across a point that
 * stands twice, where the value before the jump is taken.
 *
 * @param t non-decreasing abscissae, at least eight between points that stand twice
 * @param f values
 * @param wanted non-decreasing, within the table
 */
export function interpolateTable(
  t: readonly number[],
  f: readonly number[],
  wanted: readonly number[],
): number[] {
  const runs = smoothRuns(t).map(([first, last]) => ({
    t: t.slice(first, last + 1),
    f: f.slice(first, last + 1),
  }));
  let run = 0;
  let index = 0;
  return wanted.map((at) => {
    while (run < runs.length - 1 && at > runs[run].t[runs[run].t.length - 1] + SAME) {
      run++;
      index = 0;
    }
    const { t: nodes, f: values } = runs[run];
    while (index < nodes.length - 2 && nodes[index + 1] < at - SAME) index++;
    // At a point of the table its own value, to the last digit.
    for (const k of [index, index + 1]) if (Math.abs(nodes[k] - at) < SAME) return values[k];
    return localPolynomial(nodes, values, index)(at);
  });
}
