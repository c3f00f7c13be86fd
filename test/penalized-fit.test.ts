import { describe, expect, test } from "vitest";
import { type PenalizedProblem, penalizedFit } from "../src/numeric/penalizedFit.js";
import { reached } from "./reached.js";
import spline from "./reference/smoothing-spline.json" with { type: "json" };
import { relativeError } from "./rings.js";

/**
 * Penalised least squares against another program's smoothing splines and against the same matrices written out in full. Recipes and versions
 * are in the reference files.
 */

type Dense = number[][];
const indices = (count: number) => Array.from({ length: count }, (_, i) => i);
const dot = (one: ArrayLike<number>, other: ArrayLike<number>) =>
  Array.from(one).reduce((sum, value, i) => sum + value * other[i], 0);
const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

/** Root of a symmetric positive matrix, lower triangular: A = L·Lᵀ. */
function root(A: Dense): Dense {
  const L: Dense = A.map((row) => row.map(() => 0));
  for (const i of indices(A.length)) {
    for (const j of indices(i + 1)) {
      const rest = A[i][j] - dot(L[i].slice(0, j), L[j].slice(0, j));
      L[i][j] = i === j ? Math.sqrt(rest) : rest / L[j][j];
    }
  }
  return L;
}
function forward(L: Dense, b: ArrayLike<number>): number[] {
  const x: number[] = [];
  for (const i of indices(L.length)) x.push((b[i] - dot(x, L[i])) / L[i][i]);
  return x;
}
const logDeterminant = (L: Dense) => 2 * L.reduce((sum, row, i) => sum + Math.log(row[i]), 0);

/** Everything that is fitted, at the data. */
const fitted = ({ free, penalized, y }: PenalizedProblem, coefficients: Float64Array) =>
  Array.from(y, (_, i) =>
    [...free, ...penalized].reduce((sum, column, j) => sum + column[i] * coefficients[j], 0),
  );

describe("A natural cubic spline", () => {
  // f = b₀ + b₁·x + Σ cᵢ·R(x, xᵢ), R the kernel of ∫f″², is natural where Σ cᵢ = Σ cᵢ·xᵢ = 0: c = Q·γ, the columns of Q second divided differences.
  // ∫f″² = γᵀ·(QᵀRQ)·γ = |Lᵀ·γ|² (G. Wahba, Spline Models for Observational Data, SIAM 1990, chapter 1; from memory, worked again).
  const { x, y } = spline;
  const kernel = (s: number, t: number) => (Math.min(s, t) ** 2 * (3 * Math.max(s, t) - Math.min(s, t))) / 6;
  const Q = indices(x.length - 2).map((k) => {
    const [left, right] = [1 / (x[k + 1] - x[k]), 1 / (x[k + 2] - x[k + 1])];
    return indices(x.length).map((i) =>
      i === k ? left : i === k + 1 ? -left - right : i === k + 2 ? right : 0,
    );
  });
  const RQ = Q.map((column) => x.map((at) => column.reduce((sum, q, i) => sum + q * kernel(at, x[i]), 0)));
  const L = root(Q.map((column) => RQ.map((other) => dot(column, other))));
  const rows = x.map((_, i) =>
    forward(
      L,
      RQ.map((column) => column[i]),
    ),
  );
  const problem: PenalizedProblem = {
    free: [Float64Array.from(x, () => 1), Float64Array.from(x)],
    penalized: indices(L.length).map((j) => Float64Array.from(rows, (row) => row[j])),
    y: Float64Array.from(y),
  };
  const apart = (found: readonly number[], expected: readonly number[]) =>
    largest(found.map((value, i) => value - expected[i]));

  test.each(spline.given)(
    "under a penalty of $penalty is that of the other program",
    ({ penalty, value }) => {
      const { coefficients } = penalizedFit(problem, { by: "value", penalty });
      // The kernel's matrix has a condition of 1e6, here and there; 1e-10 of values up to 3 is left.
      reached("spline", "values", apart(fitted(problem, coefficients), value), 1e-9);
    },
  );

  test("by cross-validation is that of the other program, and no other penalty scores better", () => {
    const { coefficients, penalty } = penalizedFit(problem, { by: "crossValidation" });
    const score = (at: number) => {
      const fit = penalizedFit(problem, { by: "value", penalty: at });
      const residual = fitted(problem, fit.coefficients).reduce(
        (sum, value, i) => sum + (value - y[i]) ** 2,
        0,
      );
      return residual / (y.length - fit.freedom) ** 2;
    };
    for (const power of indices(19).map((k) => -9 + k / 2)) {
      // Found to a hundredth of a power of ten, where the score is level.
      expect(score(10 ** power)).toBeGreaterThan(score(penalty) * (1 - 1e-6));
    }
    // A penalty 2 % off, a hundredth of a power of ten, moves this spline by 2e-4 at most (measured with two penalties).
    expect(apart(fitted(problem, coefficients), spline.crossValidation)).toBeLessThan(2e-4);
  });
});

/** Three free and six penalised columns of 24 data: waves, the shorter the smaller. */
const at = indices(24).map((i) => i / 23);
const made: PenalizedProblem = {
  free: [0, 1, 2].map((k) => Float64Array.from(at, (t) => Math.cos(Math.PI * k * t))),
  penalized: indices(6).map((k) =>
    Float64Array.from(at, (t) => Math.cos(Math.PI * (k + 3) * t + 0.3) / (k + 1)),
  ),
  y: Float64Array.from(at, (t, i) => 1 + t + Math.sin(9 * t) + 0.1 * Math.cos(37 * i * i)),
};
const rowsOf = (columns: readonly Float64Array[]) => at.map((_, i) => columns.map((column) => column[i]));
const all = rowsOf([...made.free, ...made.penalized]);
/** XᵀX + λP, its root. */
const normal = (penalty: number) =>
  root(
    indices(9).map((j) =>
      indices(9).map((k) => all.reduce((sum, row) => sum + row[j] * row[k], j === k && j >= 3 ? penalty : 0)),
    ),
  );

/** −2·log of the restricted likelihood, but for a constant, of y with covariance σ²·V, V = 1 + B·Bᵀ/λ; −(n − p)/2·log σ² left to `noise`. */
function unlikelihood(penalty: number, noise?: number): number {
  const B = rowsOf(made.penalized);
  const V = root(B.map((row, i) => B.map((other, k) => dot(row, other) / penalty + (i === k ? 1 : 0))));
  const [A, z] = [made.free.map((column) => forward(V, column)), forward(V, made.y)];
  const inner = root(A.map((one) => A.map((other) => dot(one, other))));
  const part = forward(
    inner,
    A.map((column) => dot(column, z)),
  );
  const square = dot(z, z) - dot(part, part);
  const scatter = noise === undefined ? (at.length - 3) * Math.log(square) : square / noise ** 2;
  return scatter + logDeterminant(V) + logDeterminant(inner);
}

describe("penalizedFit", () => {
  test.each([1e-3, 0.1, 1, 30])(
    "under a penalty of %d has the normal equations' coefficients, freedom, noise and deviations",
    (penalty) => {
      const fit = penalizedFit(made, { by: "value", penalty });
      expect(fit.penalty).toBe(penalty);
      const N = normal(penalty);
      // The condition of the normal equations is below 100 (checked by the sizes of its root's diagonal), and sums are below 30.
      const within = 1e-12;
      const diagonal = N.map((row, i) => row[i]);
      expect((largest(diagonal) / Math.min(...diagonal)) ** 2).toBeLessThan(100);
      const right = forward(
        N,
        indices(9).map((j) => all.reduce((sum, row, i) => sum + row[j] * made.y[i], 0)),
      );
      // Σ gᵢ·cᵢ = gᵀ·N⁻¹·Xᵀy = (L⁻¹g)·(L⁻¹Xᵀy).
      for (const [j, found] of fit.coefficients.entries()) {
        expect(
          Math.abs(
            found -
              dot(
                forward(
                  N,
                  indices(9).map((k) => Number(k === j)),
                ),
                right,
              ),
          ),
        ).toBeLessThan(within);
      }
      const trace = all.reduce((sum, row) => sum + dot(forward(N, row), forward(N, row)), 0);
      expect(Math.abs(fit.freedom - trace)).toBeLessThan(within);
      const residual = fitted(made, fit.coefficients).reduce(
        (sum, value, i) => sum + (value - made.y[i]) ** 2,
        0,
      );
      const noise = Math.sqrt(residual / (at.length - trace));
      expect(relativeError(fit.noise, noise)).toBeLessThan(within);
      for (const weights of [
        ...all.slice(0, 4),
        [0, 0, 0, 1, 0, 0, 0, 0, 0],
        [1, 2, -3, 0.5, 0, 1, -1, 2, 4],
      ]) {
        const side = forward(N, weights);
        expect(relativeError(fit.deviationOf(weights), noise * Math.sqrt(dot(side, side)))).toBeLessThan(
          within,
        );
      }
    },
  );

  test.each([undefined, 0.02, 0.1, 0.5])(
    "by likelihood with noise %d takes the penalty of the likeliest covariance",
    (noise) => {
      const fit = penalizedFit(made, { by: "likelihood", noise });
      if (noise !== undefined) expect(fit.noise).toBe(noise);
      const least = unlikelihood(fit.penalty, noise);
      // Found to a hundredth of a power of ten; beside it, a tenth of one and everywhere else it is less likely.
      for (const power of [
        ...indices(81).map((k) => -6 + k / 8),
        ...[-0.1, 0.1].map((by) => Math.log10(fit.penalty) + by),
      ])
        expect(unlikelihood(10 ** power, noise)).toBeGreaterThan(least - 1e-3);
    },
  );

  test("gives deviations in proportion to the noise that is stated", () => {
    const one = penalizedFit(made, { by: "crossValidation", noise: 0.1 });
    const ten = penalizedFit(made, { by: "crossValidation", noise: 1 });
    expect(ten.penalty).toBe(one.penalty);
    expect(relativeError(ten.deviationOf(all[5]), 10 * one.deviationOf(all[5]))).toBeLessThan(1e-14);
  });

  test.each([undefined, 0.1])(
    "with noise %d keeps room for a least deviation of the penalised coefficients",
    (noise) => {
      // Data of the free columns alone, but for some scatter: nothing asks for the others.
      const y = Float64Array.from(at, (t, i) => 2 - Math.cos(t) + 0.1 * Math.cos(37 * i * i));
      const choice = { by: "likelihood", noise } as const;
      const without = penalizedFit({ ...made, y }, choice);
      expect(without.freedom).toBeLessThan(3.2);
      const fit = penalizedFit({ ...made, y }, choice, 0.05);
      expect(fit.penalty).toBeLessThan(without.penalty);
      expect(relativeError(fit.penalty, (without.noise / 0.05) ** 2)).toBeLessThan(1e-12);
      // Where the data ask for more it changes nothing.
      expect(penalizedFit(made, choice, 1e-6).penalty).toBe(penalizedFit(made, choice).penalty);
    },
  );

  test("draws coefficients about its own, with the covariance that its deviations have", () => {
    const fit = penalizedFit(made, { by: "likelihood" });
    const unit = (k: number) => indices(9).map((i) => Number(i === k));
    expect(fit.drawn(indices(9).map(() => 0))).toEqual(fit.coefficients);
    for (const weights of all.slice(0, 4)) {
      // Nine independent numbers of variance 1.
      const parts = indices(9).map((k) => dot(weights, fit.drawn(unit(k))) - dot(weights, fit.coefficients));
      expect(relativeError(Math.sqrt(dot(parts, parts)), fit.deviationOf(weights))).toBeLessThan(1e-12);
    }
  });

  test("does not believe in less noise than the finest, and is then what it is with that stated", () => {
    const y = Float64Array.from(at, (_, i) => made.free[1][i] + 0.3 * made.penalized[1][i]);
    const fit = penalizedFit({ ...made, y }, { by: "likelihood", finest: 0.01 });
    const stated = penalizedFit({ ...made, y }, { by: "likelihood", noise: 0.01 });
    expect(fit.noise).toBe(0.01);
    expect(fit.coefficients).toEqual(stated.coefficients);
    expect(penalizedFit(made, { by: "likelihood", finest: 1e-9 })).toMatchObject({
      noise: penalizedFit(made, { by: "likelihood" }).noise,
    });
  });

  test("ends where a column is too large to be squared", () => {
    const huge = { ...made, penalized: made.penalized.map((column) => column.map((value) => 1e200 * value)) };
    for (const by of ["likelihood", "crossValidation"] as const) {
      expect(penalizedFit(huge, { by }).coefficients).toHaveLength(made.free.length + made.penalized.length);
    }
  });

  test("without penalised columns is plain least squares", () => {
    const fit = penalizedFit({ free: made.free, penalized: [], y: made.free[2] }, { by: "likelihood" });
    // cos 2t lies among the columns, whose condition is some hundred.
    expect(largest([...fit.coefficients].map((value, i) => value - [0, 0, 1][i]))).toBeLessThan(1e-12);
    expect(fit.freedom).toBe(3);
  });
});
