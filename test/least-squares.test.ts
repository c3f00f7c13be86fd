import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { backSubstitute, triangularForm } from "../src/numeric/leastSquares.js";
import { orthogonalColumns } from "../src/numeric/singularValues.js";
import nist from "./reference/nist-linear.json" with { type: "json" };
import singular from "./reference/singular-values.json" with { type: "json" };
import { relativeError, runs } from "./rings.js";

/**
 * Least squares against certified results, and singular values against other programs. Recipes and versions are in the reference files.
 */

const columnOf = (values: readonly number[]) => Float64Array.from(values);
const powersOf = (x: readonly number[], powers: readonly number[]) =>
  powers.map((power) => columnOf(x.map((value) => value ** power)));

function solve(columns: Float64Array[], y: readonly number[]) {
  const form = triangularForm(columns, columnOf(y));
  return {
    found: [...backSubstitute(form.columns, form.y)],
    deviation: Math.sqrt(form.rest / (y.length - columns.length)),
  };
}

/** Certified digits reached: the logarithm of the relative error, 15 at most, since no more are certified. */
const digits = (found: number, certified: number) =>
  Math.min(15, -Math.log10(relativeError(found, certified)));

/** The least of several coefficients. */
const fewest = (found: readonly number[], certified: readonly number[]) =>
  Math.min(...certified.map((value, i) => digits(found[i], value)));

describe("Certified data", () => {
  // A double holds 15.95 digits. Some go with the condition of the columns, scaled to one length (numpy.linalg.cond: Norris 3, Pontius 18, Longley
  // 4e4, Filip 5e9), some where a term is far smaller than y or than other terms that nearly cancel it (Norris' constant is 3e-4 of y), some
  // with the residual. What is required is what was reached (13.3, 12.0, 14.7, 15.3, 7.9, 13.1), less a digit at most for the last place of other
  // machines' square roots and powers; theory guarantees 12.2, 11.4, 15.9, 15.9, 2.2 and 7.4 but for small factors.
  const reached: Record<string, { coefficients: number; deviation: number }> = {
    Norris: { coefficients: 12.5, deviation: 13 },
    Pontius: { coefficients: 11, deviation: 11.5 },
    NoInt1: { coefficients: 14, deviation: 14 },
    NoInt2: { coefficients: 14, deviation: 14 },
    Filip: { coefficients: 7, deviation: 8.5 },
    Longley: { coefficients: 12.5, deviation: 13 },
  };

  test.each(nist.sets)("$name has the certified coefficients and residual deviation", (set) => {
    const { name, powers, x, predictors, y, certified, residualDeviation } = set;
    const columns = powers
      ? powersOf(x, powers)
      : [columnOf(y.map(() => 1)), ...(predictors ?? []).map(columnOf)];
    const { found, deviation } = solve(columns, y);
    expect(found).toHaveLength(certified.length);
    expect(fewest(found, certified)).toBeGreaterThan(reached[name].coefficients);
    expect(digits(deviation, residualDeviation)).toBeGreaterThan(reached[name].deviation);
  });
});

describe("Polynomials of degree five at 0, 1, … 20, Wampler 1 to 5", () => {
  // National Institute of Standards and Technology, Statistical Reference Datasets, from memory: y = Σ xⁿ or Σ (x/10)ⁿ, without errors or with
  // errors that are square to all such polynomials (checked below), 1, 100 and 10 000 times; so the coefficients are 1, or powers of 0.1, exactly.
  const x = Array.from({ length: 21 }, (_, i) => i);
  const half = [759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048];
  const errors = [...half, 2048, ...half.slice().reverse()];
  const powers = [0, 1, 2, 3, 4, 5];
  const polynomial = (base: number) => x.map((at) => powers.reduce((sum, n) => sum + (base * at) ** n, 0));
  const withErrors = (times: number) => polynomial(1).map((value, i) => value + times * errors[i]);
  // Square to polynomials: of whole numbers below 2⁵³, so exact.
  test("have errors that no polynomial of degree five takes away", () => {
    for (const n of powers) expect(errors.reduce((sum, error, i) => sum + error * x[i] ** n, 0)).toBe(0);
    expect(withErrors(1).slice(0, 5)).toEqual([760, -2042, 2111, -1684, 3888]);
    expect(withErrors(10000).slice(-2)).toEqual([-17866340, 10958421]);
  });

  // The columns' condition, scaled to one length, is 2e3 (numpy.linalg.cond); y is 3e6 times the smallest term. Reached: 9.4, 13.0, 9.1, 7.9 and
  // 5.9 digits; each time that the errors are 100 times as large, as errors of y itself, two go.
  test.each([
    ["1, without errors", polynomial(1), 1, 8.5, 0],
    ["2, without errors", polynomial(0.1), 0.1, 12, 0],
    ["3, with errors", withErrors(1), 1, 8, 2360.14502379268],
    ["4, with 100 times the errors", withErrors(100), 1, 7, 236014.502379268],
    ["5, with 10 000 times the errors", withErrors(10000), 1, 5, 23601450.2379268],
  ] as const)("Wampler %s has the certified coefficients", (_, y, base, least, residualDeviation) => {
    const { found, deviation } = solve(powersOf(x, powers), y);
    expect(
      fewest(
        found,
        powers.map((n) => base ** n),
      ),
    ).toBeGreaterThan(least);
    if (residualDeviation > 0) expect(digits(deviation, residualDeviation)).toBeGreaterThan(13);
    // Nothing but the rounding of sums as large as y.
    else expect(deviation).toBeLessThan(1e-15 * Math.max(...y));
  });
});

/** Matrices by columns, tall, of tenths from −2 to 2, and as many right-hand sides. */
const tall = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 9 }))
  .chain(([count, more]) => {
    const column = fc.array(
      fc.integer({ min: -20, max: 20 }).map((n) => n / 10),
      { minLength: count + more, maxLength: count + more },
    );
    return fc.tuple(fc.array(column, { minLength: count, maxLength: count }), column);
  });
const dot = (one: ArrayLike<number>, other: ArrayLike<number>) =>
  Array.from(one).reduce((sum, value, i) => sum + value * other[i], 0);

describe("triangularForm", () => {
  property.prop([tall], runs(200))(
    "keeps all products of the columns, of the right-hand side with them, and its length, whatever the rank",
    ([given, y]) => {
      const columns = given.map(columnOf);
      const right = columnOf(y);
      const form = triangularForm(columns, right);
      expect(columns.map((column) => [...column])).toEqual(given);
      expect([...right]).toEqual(y);
      // Sums of at most 15 products of at most 4 keep 60 to the rounding, through at most six mirrors of some 20 roundings each.
      const within = 60 * 6 * 20 * 2 ** -53;
      for (const [j, column] of form.columns.entries()) {
        expect(column).toHaveLength(columns.length);
        expect([...column.slice(j + 1)].every((value) => value === 0)).toBe(true);
        for (const [k, other] of form.columns.entries()) {
          expect(Math.abs(dot(column, other) - dot(given[j], given[k]))).toBeLessThan(within);
        }
        expect(Math.abs(dot(column, form.y) - dot(given[j], y))).toBeLessThan(within);
      }
      expect(Math.abs(dot(form.y, form.y) + form.rest - dot(y, y))).toBeLessThan(within);
      expect(form.rest).toBeGreaterThanOrEqual(0);
    },
  );

  test("of a column and its right-hand side in the same direction leaves no rest", () => {
    // By hand: |(3, 4)| = 5 and (6, 8) is twice it.
    const form = triangularForm([columnOf([3, 4])], columnOf([6, 8]));
    expect(Math.abs(form.columns[0][0])).toBeCloseTo(5, 14);
    expect(backSubstitute(form.columns, form.y)[0]).toBeCloseTo(2, 14);
    expect(form.rest).toBeLessThan(1e-29);
  });
});

/** Lengths of the orthogonal columns, from the largest, of a matrix that they are checked to belong to. */
function singularValues(rows: number, count: number, entry: (i: number, j: number) => number): number[] {
  const columns = Array.from({ length: count }, (_, j) =>
    Float64Array.from({ length: rows }, (_, i) => entry(i, j)),
  );
  const { w, v } = orthogonalColumns(columns);
  const largest = Math.max(...w.map((column) => Math.sqrt(dot(column, column))));
  for (const [j, one] of v.entries()) {
    for (const [k, other] of v.entries()) {
      // Some ten sweeps of as many turns as there are columns, each good to a rounding.
      expect(Math.abs(dot(one, other) - (j === k ? 1 : 0))).toBeLessThan(1e-14);
    }
    // Square to each other, but for those that are nothing; sums of at most 16 products.
    for (const other of w.slice(j + 1)) {
      const size = Math.sqrt(dot(w[j], w[j]) * dot(other, other));
      if (Math.min(dot(w[j], w[j]), dot(other, other)) > 1e-26 * largest ** 2)
        expect(Math.abs(dot(w[j], other)) / size).toBeLessThan(5e-15);
    }
    // A·V = W.
    for (let i = 0; i < rows; i++) {
      const product = columns.reduce((sum, column, k) => sum + column[i] * one[k], 0);
      expect(Math.abs(product - w[j][i])).toBeLessThan(1e-14 * largest);
    }
  }
  return w.map((column) => Math.sqrt(dot(column, column))).sort((one, other) => other - one);
}

describe("orthogonalColumns", () => {
  test("has the singular values of a graded matrix to twelve digits each, over ten orders of magnitude", () => {
    const values = singularValues(16, 12, (i, j) => 2 ** (-Math.abs(i - j) - 3 * j));
    expect(values).toHaveLength(12);
    // One-sided turns keep each value to the condition of the columns when scaled to one length, 8.2 here (numpy.linalg.cond), times roundings.
    for (const [k, value] of singular.graded.entries()) {
      expect(relativeError(values[k], value), `value ${k}`).toBeLessThan(1e-14);
    }
  });

  test("has those of a matrix of rank three, and nothing for the rest", () => {
    const left = (i: number, j: number) => ((3 * i + 7 * j) % 11) - 5;
    const right = [
      [1, 0, 0, 2, 1, 0],
      [0, 1, 0, -1, 1, 3],
      [0, 0, 1, 1, -2, 1],
    ];
    const values = singularValues(9, 6, (i, j) =>
      right.reduce((sum, row, k) => sum + left(i, k) * row[j], 0),
    );
    // Both programs are good to some roundings of the largest value.
    for (const [k, value] of singular.deficient.entries())
      expect(Math.abs(values[k] - value)).toBeLessThan(1e-14 * singular.deficient[0]);
    for (const value of values.slice(3)) expect(value).toBeLessThan(1e-14 * singular.deficient[0]);
  });

  test("leaves a column of nothing, and columns that are square to each other, as they are", () => {
    const columns = [columnOf([0, 3, 0]), columnOf([0, 0, 0]), columnOf([2, 0, 0])];
    const { w, v } = orthogonalColumns(columns);
    expect(w).toEqual(columns);
    expect(v.map((column) => [...column])).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
  });
});
