import { describe, expect, test } from "vitest";
import { normalQuantile } from "../src/numeric/normalQuantile.js";
import { reached } from "./reached.js";
import quantiles from "./reference/normal-quantile.json" with { type: "json" };
import { relativeError } from "./rings.js";

/** Normal quantiles against another program, and back through the distribution written out as a series. Recipe and version are in the reference file. */

/** Probability below x: A&S 26.2.11 as a series, in the tails 26.2.14 as a continued fraction (M. Abramowitz & I. A. Stegun, from memory). */
function probabilityBelow(x: number): number {
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  if (x < -1)
    return (
      density /
      Array.from({ length: 400 }, (_, k) => k).reduceRight(
        (tail, k) => (k === 0 ? -x + tail : k / (-x + tail)),
        0,
      )
    );
  let [term, sum] = [x, x];
  for (let k = 3; Math.abs(term) > 1e-18 * Math.abs(sum); k += 2) {
    term *= (x * x) / k;
    sum += term;
  }
  return 0.5 + density * sum;
}

describe("normalQuantile", () => {
  test("is that of another program, from 1e-300 on", () => {
    for (const [i, p] of quantiles.probability.entries()) {
      // Some 1e-15 of the value is promised, and as much of the other program; at ½, of 1.
      const size = Math.max(0.25, Math.abs(quantiles.value[i]));
      reached("quantile", "value", Math.abs(normalQuantile(p) - quantiles.value[i]) / size, 4e-15);
    }
  });

  test("is what the probability of staying below leads back from", () => {
    for (const p of [1e-200, 1e-30, 1e-12, 1e-6, 0.002, 0.03, 0.075, 0.2, 0.5, 0.7, 0.93, 0.97]) {
      const x = normalQuantile(p);
      // A relative error e of x changes p by about e·x² of itself; the sum up to 3 of 16 digits; and twice that for both.
      expect(relativeError(probabilityBelow(x), p), `at ${p}`).toBeLessThan(1e-15 * (4 + 2 * x * x));
    }
  });
});
