import { NotFound } from "./notFound.js";
import { addBandProduct, factorBand, type SymmetricBand, solveFactored } from "./symmetricBand.js";

/** Least of ½·xᵀ·H·x − fᵀ·x under xᵢ ≤ uᵢ for some of the unknowns. */
export interface BoundedQuadratic {
  /** H, positive semidefinite; definite with the bounded unknowns held. */
  readonly matrix: SymmetricBand;
  readonly linear: Float64Array;
  /** Which unknowns are bounded, increasing. */
  readonly bounded: Int32Array;
  /** Their bounds. */
  readonly upper: Float64Array;
}

export interface BoundedSolution {
  readonly x: Float64Array;
  /** Force of each bound, ≥ 0: what pushes the unknown down from it. */
  readonly force: Float64Array;
  /** uᵢ − xᵢ ≥ 0. */
  readonly slack: Float64Array;
  readonly iterations: number;
  /** Largest residual of H·x − f + force, in the unit of the force. */
  readonly residual: number;
  /** Mean of force·slack. */
  readonly complementarity: number;
}

/** Sizes that count as one, so that tolerances mean something. */
export interface Scales {
  readonly force: number;
  readonly slack: number;
}

/** Mean force·slack, over the scales, at which the search ends. */
const COMPLEMENTARY = 1e-20;
/** Residuals may be this share of the force scale, or rounding if that is more: fine meshes multiply small x by large H. */
const UNBALANCED = 1e-5;
const ROUNDING = 2 ** -50;
const MOST_ITERATIONS = 100;
/** How far a step goes towards the nearest bound. */
const NEARLY = 0.995;

/**
 * Solves the bounded quadratic programme by Mehrotra's predictor-corrector interior-point method. Each iteration factors
 * one band matrix, so the cost is linear in the number of unknowns, and the number of iterations hardly depends on
 * how hard the contact is.
 *
 * @param problem not changed
 * @param scales typical force and slack
 * @throws NotFound with the residuals when it does not converge
 *
 * Source: S. Mehrotra, SIAM J. Optim. 2 (1992), in the form for convex quadratic programmes of J. Nocedal & S. Wright,
 * Numerical Optimization, 2nd ed., algorithm 16.4 (from memory; tested against other solvers).
 */
export function minimizeBounded(problem: BoundedQuadratic, scales: Scales): BoundedSolution {
  const { matrix, linear, bounded, upper } = problem;
  const { count, width } = matrix;
  const bounds = bounded.length;
  const x = new Float64Array(count);
  const slack = new Float64Array(bounds).fill(scales.slack);
  const force = new Float64Array(bounds).fill(scales.force);
  for (let j = 0; j < bounds; j++) x[bounded[j]] = upper[j] - slack[j];

  const residual = new Float64Array(count);
  const diagonal = new Float64Array(count);
  const factored = new Float64Array(matrix.entries.length);
  const dx = new Float64Array(count);
  const dSlack = new Float64Array(bounds);
  const dForce = new Float64Array(bounds);
  const product = new Float64Array(bounds);
  const mean = (a: Float64Array, b: Float64Array) => {
    let sum = 0;
    for (let j = 0; j < bounds; j++) sum += a[j] * b[j];
    return sum / bounds;
  };

  /** The step that meets all equations, force·slack + product = 0 among them. x keeps to its bounds, so dx = −dSlack there. */
  const solveStep = () => {
    for (let i = 0; i < count; i++) dx[i] = -residual[i];
    for (let j = 0; j < bounds; j++) dx[bounded[j]] += product[j] / slack[j];
    solveFactored(factored, count, width, dx);
    for (let j = 0; j < bounds; j++) {
      dSlack[j] = -dx[bounded[j]];
      dForce[j] = (-product[j] - force[j] * dSlack[j]) / slack[j];
    }
  };
  const longestStep = () => {
    let step = 1;
    for (let j = 0; j < bounds; j++) {
      if (dSlack[j] < 0) step = Math.min(step, -slack[j] / dSlack[j]);
      if (dForce[j] < 0) step = Math.min(step, -force[j] / dForce[j]);
    }
    return step;
  };

  const stiffest = largestRowSum(matrix);
  const enough = COMPLEMENTARY * scales.force * scales.slack;
  for (let iterations = 0; ; iterations++) {
    residual.fill(0);
    addBandProduct(matrix, x, residual);
    for (let i = 0; i < count; i++) residual[i] -= linear[i];
    for (let j = 0; j < bounds; j++) residual[bounded[j]] += force[j];
    const complementarity = mean(force, slack);
    const unbalanced = residual.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const largest = x.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const allowed = Math.max(UNBALANCED * scales.force, ROUNDING * stiffest * largest);
    if (complementarity <= enough && unbalanced <= allowed) {
      return { x, force, slack, iterations, residual: unbalanced, complementarity };
    }
    if (iterations === MOST_ITERATIONS || !Number.isFinite(complementarity + unbalanced)) {
      throw new NotFound(
        `contact not found in ${iterations} iterations: force left over ${unbalanced}, force times clearance ${complementarity}`,
      );
    }
    diagonal.fill(0);
    for (let j = 0; j < bounds; j++) diagonal[bounded[j]] = force[j] / slack[j];
    factorBand(matrix, diagonal, factored);

    for (let j = 0; j < bounds; j++) product[j] = force[j] * slack[j];
    solveStep();
    const reach = longestStep();
    let predicted = 0;
    for (let j = 0; j < bounds; j++) {
      predicted += (force[j] + reach * dForce[j]) * (slack[j] + reach * dSlack[j]);
    }
    const centring = (predicted / bounds / complementarity) ** 3 * complementarity;
    for (let j = 0; j < bounds; j++) product[j] += dForce[j] * dSlack[j] - centring;
    solveStep();
    const step = Math.min(1, NEARLY * longestStep());
    for (let i = 0; i < count; i++) x[i] += step * dx[i];
    for (let j = 0; j < bounds; j++) {
      slack[j] += step * dSlack[j];
      force[j] += step * dForce[j];
    }
  }
}

function largestRowSum({ count, width, entries }: SymmetricBand): number {
  const sums = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k <= width && i + k < count; k++) {
      const size = Math.abs(entries[i * (width + 1) + k]);
      sums[i] += size;
      if (k > 0) sums[i + k] += size;
    }
  }
  return sums.reduce((most, sum) => Math.max(most, sum), 0);
}
