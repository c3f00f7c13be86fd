import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { solveBanded } from "../src/numeric/banded.js";
import { differenceWeights, stencilStart } from "../src/numeric/finiteDifference.js";
import { integrateTable } from "../src/numeric/integrateTable.js";
import { runs } from "./rings.js";

/** Banded systems against a dense elimination with exchange of rows; integrals of tables against polynomials by hand. */

/** Gaussian elimination with the largest pivot of each column, for the comparison only. */
function solveDense(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]]);
  for (let i = 0; i < n; i++) {
    let best = i;
    for (let k = i + 1; k < n; k++) if (Math.abs(rows[k][i]) > Math.abs(rows[best][i])) best = k;
    [rows[i], rows[best]] = [rows[best], rows[i]];
    for (let k = i + 1; k < n; k++) {
      const factor = rows[k][i] / rows[i][i];
      if (factor !== 0) for (let j = i; j <= n; j++) rows[k][j] -= factor * rows[i][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i][n];
    for (let j = i + 1; j < n; j++) sum -= rows[i][j] * x[j];
    x[i] = sum / rows[i][i];
  }
  return x;
}

/** The same matrix with all its zeros. */
function dense({ start, rows }: { start: number[]; rows: number[][] }): number[][] {
  return rows.map((row, i) => {
    const full = new Array<number>(rows.length).fill(0);
    for (const [k, value] of row.entries()) full[start[i] + k] = value;
    return full;
  });
}

const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));
const apart = (one: readonly number[], other: readonly number[]) =>
  largest(one.map((value, i) => value - other[i]));

describe("solveBanded", () => {
  /** Rows of unlike widths about the diagonal, none starting before the row above, of either sign. */
  const system = fc.array(
    fc.record({
      below: fc.integer({ min: 0, max: 5 }),
      above: fc.integer({ min: 0, max: 5 }),
      entries: fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 11, maxLength: 11 }),
      positive: fc.boolean(),
      right: fc.integer({ min: -1000, max: 1000 }),
    }),
    { minLength: 1, maxLength: 40 },
  );

  property.prop([system], runs(200))("agrees with dense elimination, and changes nothing", (given) => {
    const n = given.length;
    const start: number[] = [];
    const rows = given.map(({ below, above, entries, positive }, i) => {
      start.push(Math.max(i - below, start[i - 1] ?? 0, 0));
      const end = Math.min(i + above, n - 1);
      const row = entries.slice(0, end - start[i] + 1).map((value) => value / 100);
      // The diagonal outweighs the rest by 0.1, so no unknown is over ten times the largest right-hand side.
      const others = row.reduce((sum, value, k) => sum + (k === i - start[i] ? 0 : Math.abs(value)), 0);
      row[i - start[i]] = (others + 0.1) * (positive ? 1 : -1);
      return row;
    });
    const right = given.map((row) => row.right);
    const copy = structuredClone({ start, rows, right });
    const found = solveBanded({ start, rows }, right);
    expect({ start, rows, right }).toEqual(copy);
    // Rows add up to 20 and those of the inverse to 10: a condition of 200, with ten roundings in an entry.
    const expected = solveDense(dense({ start, rows }), right);
    expect(apart(found, expected)).toBeLessThanOrEqual(200 * 1e-15 * 10 * largest(right));
    // Put in again, it gives the right-hand side.
    const again = dense({ start, rows }).map((row) =>
      row.reduce((sum, value, k) => sum + value * found[k], 0),
    );
    expect(apart(again, right)).toBeLessThanOrEqual(200 * 1e-15 * 10 * largest(right));
  });

  /** The row beside an end has 8/315/step² of its own unknown: for L² = 315/8·step² nothing is left on the diagonal. */
  const emptyDiagonal = 315 / 8;
  const squares = fc.oneof(
    fc.integer({ min: -20, max: 40 }).map((tenths) => 10 ** (tenths / 10)),
    fc.constantFrom(emptyDiagonal, emptyDiagonal * (1 + 1e-12), emptyDiagonal * (1 - 1e-8)),
  );

  property.prop([fc.integer({ min: 18, max: 120 }), squares], runs(60))(
    "solves M − L²·M″ = f with nine-point differences and M given at the ends, for any L over the step",
    (count, square) => {
      const at = Array.from({ length: count }, (_, i) => i);
      const start = at.map((i) => stencilStart(i, count, 9));
      const rows = at.map((i) => {
        const [value, , second] = differenceWeights(i, at.slice(start[i], start[i] + 9));
        const end = i === 0 || i === count - 1;
        return value.map((weight, k) => weight - (end ? 0 : square * second[k]));
      });
      // From a solution of size 1 to the right-hand side, and back.
      const solution = at.map((i) => Math.sin(0.3 * i));
      const right = rows.map((row, i) =>
        row.reduce((sum, value, k) => sum + value * solution[start[i] + k], 0),
      );
      // Rounding of a row is 1e-16·30·L²; the inverse is near that of M − L²·M″ with M given, which is at most 1, or
      // count²/8/L² where that is less.
      const tolerance = 3e-15 * (1 + Math.min(square, count ** 2 / 8)) * 10;
      expect(apart(solveBanded({ start, rows }, right), solution)).toBeLessThan(tolerance);
      expect(apart(solveDense(dense({ start, rows }), right), solution)).toBeLessThan(tolerance);
    },
  );
});

describe("integrateTable", () => {
  /** Unevenly spaced points of three runs with jumps at 0.8 and 2; the second the longest. */
  const run = (from: number, to: number, n: number) =>
    Array.from(
      { length: n },
      (_, k) => from + ((to - from) * (k + 0.3 * Math.sin(k) ** 2 * (k % (n - 1) && 1))) / (n - 1),
    );
  const pieces = [run(-1, 0.8, 8), run(0.8, 2, 14), run(2, 3, 9)];
  const t = pieces.flat();
  const scales = [1, -2, 0.5];

  test.each([0, 1, 2, 3, 4, 5, 6, 7])(
    "is exact for a polynomial of degree %d on each run, up to its jumps",
    (degree) => {
      const f = pieces.flatMap((points, k) => points.map((at) => scales[k] * at ** degree));
      const power = (from: number, to: number, n: number) => (to ** (n + 1) - from ** (n + 1)) / (n + 1);
      // Weight 1 + t²: degree 9 in all, which five Gauss points integrate exactly.
      const byHand = (from: number, to: number) =>
        [
          [-1, 0.8],
          [0.8, 2],
          [2, 3],
        ].reduce((sum, [start, end], k) => {
          const [low, high] = [Math.max(from, start), Math.min(to, end)];
          return high > low
            ? sum + scales[k] * (power(low, high, degree) + power(low, high, degree + 2))
            : sum;
        }, 0);
      for (const [from, to] of [
        [-1, 3],
        [-0.37, 2.61],
        [0.8, 2],
        [0.9, 1.05],
        [1, 1],
      ]) {
        const found = integrateTable(t, f, from, to, (at) => 1 + at * at);
        // Values up to 3⁹; differences of eight points cost some digits: 1e-13 of the largest value.
        expect(Math.abs(found - byHand(from, to))).toBeLessThan(1e-13 * 10 * 3 ** degree);
      }
      expect(Math.abs(integrateTable(t, f, -1, 0.8) - power(-1, 0.8, degree))).toBeLessThan(1e-13);
    },
  );

  test("misses a polynomial of degree eight, so the test above can fail", () => {
    const f = t.map((at) => at ** 8);
    expect(Math.abs(integrateTable(t, f, -1, 3) - (3 ** 9 + 1) / 9)).toBeGreaterThan(1e-9);
  });

  test("takes a jump that stands at one point only for a smooth curve, and so misses it", () => {
    // The same table with the doubled points of the jump left single.
    const single = t.filter((at, i) => at !== t[i - 1]);
    const f = single.map((at) => (at < 0.8 ? 1 : -2));
    expect(Math.abs(integrateTable(single, f, -1, 3) - (1.8 - 2 * 2.2))).toBeGreaterThan(1e-3);
    const both = pieces.flatMap((points, k) => points.map(() => (k === 0 ? 1 : -2)));
    expect(Math.abs(integrateTable(t, both, -1, 3) - (1.8 - 2 * 2.2))).toBeLessThan(1e-14);
  });

  test("gives nothing for bounds the wrong way round", () => {
    expect(integrateTable(t, t, 2, 1)).toBe(0);
  });
});
