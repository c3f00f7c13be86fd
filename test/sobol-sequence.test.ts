import { describe, expect, test } from "vitest";
import { MOST_DIMENSIONS, sobolBits, sobolPoint } from "../src/numeric/sobolSequence.js";
import reference from "./reference/sobol.json" with { type: "json" };

/**
 * The Sobol' sequence against another program's, and what scrambling must keep and must give. That program's order is the Gray code's: its point
 * i is the one of index i XOR i/2 in the natural order. Recipe and version are in the reference file.
 */

const TOP = 2 ** 32;
const upTo = (count: number) => Array.from({ length: count }, (_, i) => i);
const points = (count: number, dimensions: number, seed: number, from = 0) =>
  upTo(count).map((i) => sobolPoint(from + i, dimensions, seed));
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const gray = (i: number) => i ^ (i >> 1);

describe("the sequence unscrambled", () => {
  test("has the same sets of first points, a power of two of them, in 64 dimensions", () => {
    const row = (i: number) => upTo(MOST_DIMENSIONS).map((k) => (32 * sobolBits(i, k)) / TOP);
    for (const count of [1, 2, 4, 8, 16, 32]) {
      const theirs = reference.first.slice(0, count).map(String).sort();
      expect(upTo(count).map(row).map(String).sort()).toEqual(theirs);
    }
  });

  test("has the same points far on, so that all direction numbers count", () => {
    expect(MOST_DIMENSIONS).toBe(64);
    for (const [k, place] of reference.places.entries()) {
      const own = upTo(64).map((dimension) => (2 ** 20 * sobolBits(gray(place), dimension)) / TOP);
      expect(own, `point ${place}`).toEqual(reference.later[k]);
    }
  });

  test("is the radical inverse in the first dimension", () => {
    // J. G. van der Corput's: bits mirrored at the point.
    for (const i of [1, 2, 3, 5, 1023, 999999]) {
      const mirrored = Number.parseInt(i.toString(2).padStart(20, "0").split("").reverse().join(""), 2);
      expect((2 ** 20 * sobolBits(i, 0)) / TOP).toBe(mirrored);
    }
  });
});

/** Whether each of the boxes 2^-p wide and 2^-q high holds one of the 2^(p+q) points. */
function oneInEachBox(sample: readonly number[][], p: number, q: number, [one, other] = [0, 1]): boolean {
  const boxes = new Set(
    sample.map((x) => Math.floor(x[one] * 2 ** p) * 2 ** q + Math.floor(x[other] * 2 ** q)),
  );
  return boxes.size === sample.length;
}

describe("the scrambled sequence", () => {
  test("has one point in each dyadic box of the first two dimensions, whatever its shape", () => {
    // A (0,m,2)-net in base 2, which nested scrambling keeps (A. B. Owen 1995, from memory); so has every later block of 2^m.
    for (const seed of [0, 1, 77, 2 ** 31 - 1]) {
      for (const m of [0, 1, 5, 8, 10]) {
        for (const block of [0, 1, 6]) {
          const sample = points(2 ** m, 2, seed, block * 2 ** m);
          for (let p = 0; p <= m; p++) expect(oneInEachBox(sample, p, m - p), `${seed} ${m} ${p}`).toBe(true);
        }
      }
    }
  });

  test("would not have so if its points were moved about", () => {
    const sample = points(256, 2, 3);
    const shifted = sample.map(([x, y]) => [(x + 0.4999) % 1, (y * 7.3) % 1]);
    expect(oneInEachBox(shifted, 4, 4)).toBe(false);
  });

  test("has one point in each of 2^m steps of every dimension", () => {
    for (const m of [3, 9]) {
      const sample = points(2 ** m, MOST_DIMENSIONS, 12345);
      for (const k of upTo(MOST_DIMENSIONS))
        expect(oneInEachBox(sample, m, 0, [k, k]), `dimension ${k}`).toBe(true);
    }
  });

  test("gives the same point for an index whichever were asked before", () => {
    const all = points(64, 10, 5);
    for (const i of [63, 0, 17, 62]) expect(sobolPoint(i, 10, 5)).toEqual(all[i]);
    // Fewer dimensions are the first of more.
    expect(sobolPoint(17, 4, 5)).toEqual(all[17].slice(0, 4));
  });

  test("reaches neither 0 nor 1", () => {
    // Coordinates lie on odd multiples of 2^-33.
    const all = points(512, 64, 9).flat();
    expect(all.every((x) => x > 0 && x < 1 && (x * 2 ** 33) % 2 === 1)).toBe(true);
  });

  test("averages to a half in every dimension as closely as one point a step does", () => {
    const count = 256;
    // Each point is uniform in its own step: the mean has a standard deviation of 1/(n·√(12·n)); 64·8 of them stay within 5.
    const deviation = 1 / (count * Math.sqrt(12 * count));
    const found = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((seed) => {
      const sample = points(count, 64, seed);
      return upTo(64).map((k) => (mean(sample.map((x) => x[k])) - 0.5) / deviation);
    });
    for (const one of found) expect(Math.abs(one)).toBeLessThan(5);
    // Their mean square is 1 ± √(2/512) where the places in the steps are independent, and must not be more by three of those.
    expect(mean(found.map((one) => one * one))).toBeLessThan(1.19);
  });

  test("is another one for every seed", () => {
    // The hash of a seed is one-to-one for each dimension, so not even two coordinates are alike.
    for (const dimension of [0, 31, 63]) {
      const first = new Set(upTo(5000).map((seed) => sobolPoint(0, 64, seed)[dimension]));
      expect(first.size).toBe(5000);
    }
  });

  test("is independent from seed to seed and, at one point, from dimension to dimension", () => {
    const count = 4096;
    const column = (index: number, k: number, from = 0) =>
      upTo(count).map((seed) => sobolPoint(index, k + 1, from + seed)[k]);
    const correlation = (one: number[], other: number[]) =>
      12 * mean(one.map((x, i) => (x - 0.5) * (other[i] - 0.5)));
    for (const [index, k] of [
      [0, 0],
      [0, 5],
      [1, 1],
      [100, 30],
    ]) {
      const one = column(index, k);
      // Kolmogorov's distance from uniform stays below 1.95/√n in 999 of 1000 cases (A. N. Kolmogorov's limit law, from memory).
      const distance = [...one].sort((a, b) => a - b).map((x, i) => Math.abs(x - (i + 0.5) / count));
      expect(Math.max(...distance)).toBeLessThan(1.95 / Math.sqrt(count));
      // Correlations scatter by 1/√n; four of those.
      expect(Math.abs(correlation(one, column(index, k, 1)))).toBeLessThan(4 / 64);
      expect(Math.abs(correlation(one, column(index, k + 1)))).toBeLessThan(4 / 64);
    }
  });

  /** Square of the centred L₂ discrepancy: F. J. Hickernell, Math. Comp. 67 (1998) 299–322, (5.1c) (from memory; the next test). */
  function discrepancy(sample: readonly number[][]): number {
    const [n, s] = [sample.length, sample[0].length];
    let [single, double] = [0, 0];
    for (const x of sample) {
      single += x.reduce((all, t) => all * (1 + Math.abs(t - 0.5) / 2 - (t - 0.5) ** 2 / 2), 1);
      for (const y of sample) {
        let all = 1;
        for (let k = 0; k < s; k++)
          all *= 1 + (Math.abs(x[k] - 0.5) + Math.abs(y[k] - 0.5) - Math.abs(x[k] - y[k])) / 2;
        double += all;
      }
    }
    return (13 / 12) ** s - (2 * single) / n + double / (n * n);
  }

  test("the formula of discrepancy is the other program's", () => {
    const { plain } = reference;
    const sample = upTo(plain.points).map((i) => upTo(plain.dimensions).map((k) => sobolBits(i, k) / TOP));
    // Sums of 64² products of order 1 to 1e-16 each.
    expect(Math.abs(discrepancy(sample) - plain.discrepancy)).toBeLessThan(1e-12);
  });

  test.each(reference.scrambled.slice(0, 2))(
    "is spread as evenly as the other program's, and far more than at random: $points points, $dimensions dimensions",
    ({ points: n, dimensions: s, mean: theirs, standardDeviation }) => {
      const seeds = n < 100 ? 100 : 30;
      const found = upTo(seeds).map((seed) => discrepancy(points(n, s, seed)));
      // Their scrambling has the same expectation: pairs of points are spread alike. Both means are in doubt by deviation/√seeds; four times that.
      expect(Math.abs(mean(found) - theirs)).toBeLessThan(
        4 * standardDeviation * Math.sqrt(1 / seeds + 1 / 200),
      );
      // At random the expectation is ((5/4)^s − (13/12)^s)/n (worked).
      for (const one of found) expect(one).toBeLessThan(((5 / 4) ** s - (13 / 12) ** s) / n / 5);
    },
  );

  test("integrates a smooth function with an error that falls nearly as n^-3/2", () => {
    // Nested scrambling alone does that (A. B. Owen, Ann. Stat. 25 (1997) 1541–1562, from memory); points at random have n^-1/2, shifted ones n^-1.
    const error = (n: number) =>
      Math.sqrt(
        mean(
          upTo(60).map((seed) => {
            const values = points(n, 4, seed).map((x) => x.reduce((all, t) => all * (0.5 + t), 1));
            return (mean(values) - 1) ** 2;
          }),
        ),
      );
    // From 16 to 1024 points 512 without the logarithm's powers, 64 for n^-1; a root mean square of 60 is good to a tenth.
    expect(error(16) / error(1024)).toBeGreaterThan(150);
  });
});
