import { describe, expect, test } from "vitest";
import { distributionOf, PERCENTS } from "../src/numeric/distribution.js";
import { sobolIndices } from "../src/numeric/sobolIndices.js";
import { sobolPoint } from "../src/numeric/sobolSequence.js";
import { reached } from "./reached.js";
import reference from "./reference/distribution.json" with { type: "json" };
import { relativeError } from "./rings.js";

/** Sobol' indices on functions whose indices can be worked out, and distributions against another program's. */

type Quantity = (u: readonly number[]) => number;
/** Of the unit cube, with the first-order and the total index of each input. */
interface Known {
  readonly f: Quantity;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);

/** sin x₁ + a·sin² x₂ + b·x₃⁴·sin x₁ for x from −π to π: T. Ishigami & T. Homma, 1990 (from memory); its variances worked again. */
function ishigami(a: number, b: number): Known {
  const f: Quantity = (u) => {
    const [x, y, z] = u.map((one) => Math.PI * (2 * one - 1));
    return Math.sin(x) + a * Math.sin(y) ** 2 + b * z ** 4 * Math.sin(x);
  };
  // The mean of z⁴ is π⁴/5, of z⁸ π⁸/9; of sin² ½, of sin⁴ ⅜.
  const alone = [(1 + (b * Math.PI ** 4) / 5) ** 2 / 2, a ** 2 / 8, 0];
  const together = (b ** 2 * Math.PI ** 8 * (1 / 9 - 1 / 25)) / 2;
  const variance = sum(alone) + together;
  const total = [alone[0] + together, alone[1], together];
  return { f, first: alone.map((V) => V / variance), total: total.map((V) => V / variance) };
}

/** Π (|4·u − 2| + aᵢ)/(1 + aᵢ): I. M. Sobol', Math. Model. Comput. Exp. 1 (1993) 407–414 (from memory); variances worked again. */
function productFunction(a: readonly number[]): Known {
  const f: Quantity = (u) => u.reduce((all, x, i) => (all * (Math.abs(4 * x - 2) + a[i])) / (1 + a[i]), 1);
  // |4·u − 2| has mean 1 and variance ⅓; means of factors are 1, so variances V of products are Π (1 + V) − 1.
  const own = a.map((one) => 1 / (3 * (1 + one) ** 2));
  const without = (i: number) => own.reduce((all, V, k) => (k === i ? all : all * (1 + V)), 1);
  const variance = without(-1) - 1;
  return { f, first: own.map((V) => V / variance), total: own.map((V, i) => (V * without(i)) / variance) };
}

/** Σ aᵢ·uᵢ: variances aᵢ²/12, and nothing together. */
function linear(a: readonly number[]): Known {
  const shares = a.map((one) => one ** 2 / sum(a.map((other) => other ** 2)));
  return { f: (u) => sum(u.map((x, i) => a[i] * x)), first: shares, total: shares };
}

const KNOWN: [name: string, known: Known][] = [
  ["Ishigami's function", ishigami(7, 0.1)],
  ["Sobol's product", productFunction([0, 1, 4.5, 9])],
  ["a linear function", linear([4, 3, 2, 1])],
];

/** At A, at B, and at A with each column of B. */
function valuesOf(f: Quantity, points: readonly number[][]): [number[], number[], number[][]] {
  const inputs = points[0].length / 2;
  const [a, b] = [points.map((x) => x.slice(0, inputs)), points.map((x) => x.slice(inputs))];
  const mixed = a[0].map((_, j) => a.map((x, i) => f(x.map((one, k) => (k === j ? b[i][k] : one)))));
  return [a.map(f), b.map(f), mixed];
}
const sequence = (known: Known, count: number, seed: number) =>
  Array.from({ length: count }, (_, i) => sobolPoint(i, 2 * known.first.length, seed));

describe("sobolIndices", () => {
  test("has the right figures to compare with", () => {
    // As printed in many places, among them A. Saltelli et al., Global Sensitivity Analysis: The Primer, 2008 (from memory).
    const { first, total } = KNOWN[0][1];
    const shown = (values: readonly number[]) => values.map((value) => value.toFixed(4));
    expect(shown(first)).toEqual(["0.3139", "0.4424", "0.0000"]);
    expect(shown(total)).toEqual(["0.5576", "0.4424", "0.2437"]);
  });

  test.each(KNOWN)("finds the first and total indices of %s", (_, known) => {
    const found = sobolIndices(...valuesOf(known.f, sequence(known, 4096, 3)), 3);
    for (const [i, { first, total }] of found.entries()) {
      // Independent samples have an error of some √(1/n) = 0.016 times 1 to 2; those of the sequence no more than half of that.
      reached("sobol", "first order", Math.abs(first - known.first[i]), 0.015);
      reached("sobol", "total", Math.abs(total - known.total[i]), 0.015);
    }
  });

  test("finds those of a linear function closer with more points, and faster than √n", () => {
    const { first: known } = KNOWN[2][1];
    const worst = (count: number) =>
      Math.max(
        ...[1, 2, 3, 4].flatMap((seed) =>
          sobolIndices(...valuesOf(KNOWN[2][1].f, sequence(KNOWN[2][1], count, seed))).map(({ total }, i) =>
            Math.abs(total - known[i]),
          ),
        ),
      );
    // 16 times as many: 4 times for independent points, 64 for a smooth function at scrambled ones.
    expect(worst(128) / worst(2048)).toBeGreaterThan(8);
  });

  test("does not care for a constant that is added, nor for a unit", () => {
    const { f } = KNOWN[0][1];
    const [a, b, ab] = valuesOf(f, sequence(KNOWN[0][1], 256, 1));
    const plain = sobolIndices(a, b, ab);
    for (const [factor, shift] of [
      [1, 1e6],
      [3, 0],
      [-1e-9, 5e-7],
    ]) {
      const changed = (values: readonly number[]) => values.map((value) => factor * value + shift);
      const found = sobolIndices(changed(a), changed(b), ab.map(changed));
      for (const [i, one] of found.entries()) {
        for (const key of ["first", "total", "firstError", "totalError"] as const) {
          // 1e6 takes six of sixteen digits from values of order 1.
          expect(Math.abs(one[key] - plain[i][key]), key).toBeLessThan(1e-8);
        }
      }
    }
  });

  test("tells errors within which the truth lies as often as normal ones say, for independent samples", () => {
    // Numbers at random by a linear congruence (Numerical Recipes' ranqd1, from memory).
    let state = 1;
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    const [inside, all] = [
      [0, 0],
      [0, 0],
    ];
    const studies = 150;
    const known = KNOWN[0][1];
    for (let seed = 0; seed < studies; seed++) {
      const points = Array.from({ length: 256 }, () => Array.from({ length: 6 }, random));
      for (const [i, one] of sobolIndices(...valuesOf(known.f, points), seed).entries()) {
        if (Math.abs(one.first - known.first[i]) < 2 * one.firstError) inside[0]++;
        if (Math.abs(one.total - known.total[i]) < 2 * one.totalError) inside[1]++;
        all[0]++;
      }
    }
    // 95.4 % if normal. 450 cases, three of a study hanging together: ± 1 to 2 %; and errors from 200 resamples are good to a twentieth.
    for (const hits of inside) {
      expect(hits / all[0]).toBeGreaterThan(0.9);
      expect(hits / all[0]).toBeLessThan(0.985);
    }
  });

  test.each(KNOWN)("tells errors that are wide enough for the sequence's points too: %s", (_, known) => {
    let [inside, all] = [0, 0];
    for (let seed = 1; seed <= 25; seed++) {
      const found = sobolIndices(...valuesOf(known.f, sequence(known, 128, seed)), seed);
      for (const [i, { first, total, firstError, totalError }] of found.entries()) {
        if (Math.abs(first - known.first[i]) < 2 * firstError) inside++;
        if (Math.abs(total - known.total[i]) < 2 * totalError) inside++;
        all += 2;
      }
    }
    // Resampling takes the points for independent ones, which makes them too wide, never too narrow.
    expect(inside / all).toBeGreaterThan(0.94);
  });

  test("owes nothing to anyone where nothing varies", () => {
    const none = { first: 0, total: 0, firstError: 0, totalError: 0 };
    const same = [0.45, 0.45, 0.45, 0.45];
    expect(sobolIndices(same, same, [same, same])).toEqual([none, none]);
    expect(sobolIndices([1, 2, 3, 4], [4, 1, 2, 3], [[1, 2, 3, 4]])[0].total).toBe(0);
    expect(sobolIndices([1, 2], [3, 4], [])).toEqual([]);
  });

  test("resamples by its seed alone", () => {
    const values = valuesOf(KNOWN[0][1].f, sequence(KNOWN[0][1], 64, 1));
    expect(sobolIndices(...values, 5)).toEqual(sobolIndices(...values, 5));
    const [one, other] = [sobolIndices(...values, 5)[0], sobolIndices(...values, 6)[0]];
    expect(one.first).toBe(other.first);
    // Each good to 1/√(2·200).
    expect(one.firstError).not.toBe(other.firstError);
    expect(relativeError(one.firstError, other.firstError)).toBeLessThan(0.25);
  });
});

describe("distributionOf", () => {
  const found = distributionOf(reference.values);

  test("tells mean, deviation and percentiles as another program does", () => {
    // Sums of 47 values of 17 to 1e-16 each.
    expect(Math.abs(found.mean - reference.mean)).toBeLessThan(1e-13);
    expect(relativeError(found.standardDeviation, reference.standardDeviation)).toBeLessThan(1e-13);
    expect(found.percentiles.map(({ percent }) => percent)).toEqual(reference.percents);
    for (const [k, { value, percent }] of found.percentiles.entries())
      expect(Math.abs(value - reference.percentiles[k]), `${percent} %`).toBeLessThan(1e-13);
    expect([found.least, found.most]).toEqual([Math.min(...reference.values), Math.max(...reference.values)]);
    expect(found.histogram).toEqual(reference.histogram);
  });

  test("counts every value once, whatever their order, and leaves them as they are", () => {
    const values = Object.freeze([...reference.values].reverse());
    expect(distributionOf(values)).toEqual(found);
    expect(sum(found.histogram)).toBe(reference.values.length);
  });

  test("takes one value, and equal ones", () => {
    for (const values of [[0.45], [0.45, 0.45, 0.45], [-0, 0]]) {
      const { mean, standardDeviation, least, most, percentiles, histogram } = distributionOf(values);
      expect([mean, least, most].map(Math.abs)).toEqual([values[0], values[0], values[0]].map(Math.abs));
      expect(standardDeviation).toBe(0);
      expect(percentiles).toHaveLength(PERCENTS.length);
      for (const { value } of percentiles) expect(Math.abs(value)).toBe(Math.abs(values[0]));
      expect(sum(histogram)).toBe(values.length);
    }
  });

  test("keeps the digits of values that differ little", () => {
    // Exact in binary: a mean of 2^20 + 2^-20 and a deviation of 2^-20.
    const [large, small] = [2 ** 20, 2 ** -20];
    const { mean, standardDeviation } = distributionOf([large, large + small, large + 2 * small]);
    expect(mean).toBe(large + small);
    expect(standardDeviation).toBe(small);
  });
});
