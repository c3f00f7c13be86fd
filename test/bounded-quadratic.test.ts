import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { minimizeBounded } from "../src/numeric/boundedQuadratic.js";
import {
  addBandProduct,
  addSquare,
  factorBand,
  type SymmetricBand,
  solveFactored,
  symmetricBand,
} from "../src/numeric/symmetricBand.js";
import { runs } from "./rings.js";

/**
 * Symmetric band matrices against the same matrices written out in full, and least of a quadratic under bounds against
 * trying every set of bounds that may hold.
 */

type Dense = number[][];
const multiply = (A: Dense, x: ArrayLike<number>) =>
  A.map((row) => row.reduce((sum, a, j) => sum + a * x[j], 0));
const largest = (values: ArrayLike<number>) => Math.max(0, ...Array.from(values, Math.abs));

/** Gaussian elimination with the largest pivots. */
function solveDense(A: Dense, b: readonly number[]): number[] {
  const rows = A.map((row, i) => [...row, b[i]]);
  for (let k = 0; k < rows.length; k++) {
    const tail = rows.slice(k).map((row) => Math.abs(row[k]));
    const pivot = k + tail.indexOf(Math.max(...tail));
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    for (let i = k + 1; i < rows.length; i++) {
      const factor = rows[i][k] / rows[k][k];
      for (let j = k; j <= rows.length; j++) rows[i][j] -= factor * rows[k][j];
    }
  }
  const x = new Array<number>(rows.length).fill(0);
  for (let i = rows.length - 1; i >= 0; i--) {
    const known = x.reduce((sum, value, j) => (j > i ? sum + rows[i][j] * value : sum), 0);
    x[i] = (rows[i][rows.length] - known) / rows[i][i];
  }
  return x;
}

/** Tenths from −1 to 1, and from 0.1 to 2. */
const tenth = fc.integer({ min: -10, max: 10 }).map((n) => n / 10);
const positive = fc.integer({ min: 1, max: 20 }).map((n) => n / 10);

/** A sum of squares of short vectors, one from each place on, as a band and in full, and a positive diagonal. */
const matrices = fc
  .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 4 }))
  .chain(([count, width]) =>
    fc.record({
      count: fc.constant(count),
      width: fc.constant(width),
      squares: fc.array(fc.tuple(fc.array(tenth, { minLength: 1, maxLength: width + 1 }), positive), {
        minLength: count,
        maxLength: count,
      }),
      diagonal: fc.array(positive, { minLength: count, maxLength: count }),
      x: fc.array(tenth, { minLength: count, maxLength: count }),
    }),
  )
  .map(({ count, width, squares, diagonal, x }) => {
    const band = symmetricBand(count, width);
    const dense: Dense = Array.from({ length: count }, () => new Array<number>(count).fill(0));
    for (const [start, [vector, scale]] of squares.entries()) {
      const a = vector.slice(0, count - start);
      addSquare(band, start, a, scale);
      a.forEach((one, i) => {
        a.forEach((other, j) => {
          dense[start + i][start + j] += scale * one * other;
        });
      });
    }
    return { band, dense, diagonal, x };
  });

const withDiagonal = (dense: Dense, diagonal: readonly number[]) =>
  dense.map((row, i) => row.map((value, j) => value + (i === j ? diagonal[i] : 0)));

describe("a symmetric band matrix", () => {
  property.prop([matrices, tenth], runs(200))(
    "multiplies as the full one, adding to what is there",
    (m, before) => {
      const y = new Float64Array(m.x.length).fill(before);
      addBandProduct(m.band, Float64Array.from(m.x), y);
      // Nine terms of at most 5·2 each, and rounding of 1e-16.
      const apart = multiply(m.dense, m.x).map((value, i) => value + before - y[i]);
      expect(largest(apart)).toBeLessThan(1e-13);
    },
  );

  property.prop([matrices], runs(200))("with a diagonal added, factored, solves as the full one", (m) => {
    const { count, width, entries } = m.band;
    const before = [...entries];
    const factored = new Float64Array(entries.length);
    factorBand(m.band, Float64Array.from(m.diagonal), factored);
    const b = Float64Array.from(m.x);
    solveFactored(factored, count, width, b);
    expect([...entries]).toEqual(before);
    const expected = solveDense(withDiagonal(m.dense, m.diagonal), m.x);
    // Condition at most (5·2·5 + 2)/0.1 = 520, solutions at most 10·3, rounding 1e-16 of it.
    expect(largest(expected.map((value, i) => value - b[i]))).toBeLessThan(1e-11);
  });

  test("of three rows by hand: 2, −1 beside the diagonal, 4, and x = 1, 2, 3", () => {
    // Rows (2 −1 0), (−1 4 −1), (0 −1 2): 2 − 2, −1 + 8 − 3, −2 + 6.
    const band: SymmetricBand = { count: 3, width: 1, entries: Float64Array.from([2, -1, 4, -1, 2, 99]) };
    const y = new Float64Array(3);
    addBandProduct(band, Float64Array.from([1, 2, 3]), y);
    expect([...y]).toEqual([0, 4, 4]);
    // D and L by hand: 2, −½; 4 − ½ = 3.5, −1/3.5; 2 − 1/3.5. The place beyond the last row is never read.
    const factored = new Float64Array(6);
    factorBand(band, new Float64Array(3), factored);
    expect([...factored.slice(0, 5)]).toEqual([2, -0.5, 3.5, -1 / 3.5, expect.closeTo(2 - 1 / 3.5, 15)]);
    solveFactored(factored, 3, 1, y);
    for (const [i, value] of y.entries()) expect(value).toBeCloseTo(i + 1, 14);
  });
});

/** The one set of holding bounds that gives forces ≥ 0 and keeps the rest, by trying all. */
function byEnumeration(H: Dense, f: readonly number[], bounded: readonly number[], upper: readonly number[]) {
  let best: { x: number[]; value: number } | undefined;
  for (let set = 0; set < 1 << bounded.length; set++) {
    const held = new Map(bounded.flatMap((i, j) => (set & (1 << j) ? [[i, upper[j]]] : [])));
    const free = f.flatMap((_, i) => (held.has(i) ? [] : [i]));
    const right = free.map((i) => f[i] - [...held].reduce((sum, [j, u]) => sum + H[i][j] * u, 0));
    const part = solveDense(
      free.map((i) => free.map((j) => H[i][j])),
      right,
    );
    const x = f.map((_, i) => held.get(i) ?? part[free.indexOf(i)]);
    if (bounded.some((i, j) => x[i] > upper[j] + 1e-12)) continue;
    const value = multiply(H, x).reduce((sum, Hx, i) => sum + (Hx / 2 - f[i]) * x[i], 0);
    if (!best || value < best.value) best = { x, value };
  }
  return best as { x: number[]; value: number };
}

describe("the least under bounds", () => {
  const problems = matrices.chain(({ band, dense, diagonal }) => {
    const full = withDiagonal(dense, diagonal);
    for (const [i, value] of diagonal.entries()) addSquare(band, i, [1], value);
    const { count } = band;
    return fc.record({
      matrix: fc.constant(band),
      H: fc.constant(full),
      f: fc.array(tenth, { minLength: count, maxLength: count }),
      bounded: fc
        .subarray([...full.keys()], { minLength: 1, maxLength: Math.min(count, 8) })
        .map((list) => list.sort((a, b) => a - b)),
      limits: fc.array(tenth, { minLength: count, maxLength: count }),
    });
  });

  property.prop([problems], runs(150))("is the one found by trying every set of bounds", (problem) => {
    const { matrix, H, f, bounded, limits } = problem;
    const upper = bounded.map((i) => limits[i]);
    const [linear, bounds] = [Float64Array.from(f), Float64Array.from(upper)];
    const found = minimizeBounded(
      { matrix, linear, bounded: Int32Array.from(bounded), upper: bounds },
      { force: 1, slack: 1 },
    );
    expect([...linear]).toEqual(f);
    expect([...bounds]).toEqual(upper);
    const expected = byEnumeration(H, f, bounded, upper);
    // force·slack is 1e-20 in the mean, of at most eight: x is off by 3e-10 where both vanish, over the least
    // eigenvalue 0.1 of H.
    expect(largest(expected.x.map((value, i) => value - found.x[i]))).toBeLessThan(1e-8);
    const force = multiply(H, found.x).map((Hx, i) => f[i] - Hx);
    for (const [i, value] of force.entries()) {
      const j = bounded.indexOf(i);
      // Balance to rounding, or to 1e-5 of the unit at worst as the solver promises; see `residual`.
      expect(Math.abs(value - (j < 0 ? 0 : found.force[j]))).toBeLessThan(found.residual + 1e-13);
    }
    expect(found.residual).toBeLessThan(1e-5);
    for (const [j, i] of bounded.entries()) {
      expect(found.force[j]).toBeGreaterThanOrEqual(0);
      expect(found.slack[j]).toBeGreaterThanOrEqual(0);
      expect(Math.abs(upper[j] - found.x[i] - found.slack[j])).toBeLessThan(1e-12);
    }
    expect(found.complementarity).toBeLessThanOrEqual(1e-20);
    expect(found.iterations).toBeLessThan(40);
  });

  test("of ½·(x² + y²) − x − 2y, x ≤ ½, y ≤ 3 is at ½ and 2, pushed by ½ and nothing", () => {
    const matrix = symmetricBand(2, 0);
    matrix.entries.set([1, 1]);
    const { x, force, slack } = minimizeBounded(
      {
        matrix,
        linear: Float64Array.from([1, 2]),
        bounded: Int32Array.from([0, 1]),
        upper: Float64Array.from([0.5, 3]),
      },
      { force: 1, slack: 1 },
    );
    for (const [values, expected] of [
      [x, [0.5, 2]],
      [force, [0.5, 0]],
      [slack, [0, 1]],
    ] as const) {
      // Products of 1e-20 over forces and slacks of one half and one, and rounding.
      expect(largest(expected.map((value, i) => value - values[i]))).toBeLessThan(1e-14);
    }
  });

  test("of a matrix that is no number is not found, with the residuals told", () => {
    const matrix = symmetricBand(2, 0);
    matrix.entries.set([Number.NaN, 1]);
    const [linear, upper] = [new Float64Array(2), new Float64Array(2)];
    expect(() =>
      minimizeBounded({ matrix, linear, bounded: Int32Array.from([0, 1]), upper }, { force: 1, slack: 1 }),
    ).toThrow(/contact not found in 0 iterations: force left over NaN/);
  });
});
