import { minimumOf } from "./goldenSection.js";
import { backSubstitute, triangularForm } from "./leastSquares.js";
import { orthogonalColumns } from "./singularValues.js";

/** Least of |y − A·b − B·d|² + λ·|d|². */
export interface PenalizedProblem {
  /** A, by columns: what is fitted freely. */
  readonly free: readonly Float64Array[];
  /** B, by columns, scaled so that the sum of squares of its coefficients is what the fit should be short of. */
  readonly penalized: readonly Float64Array[];
  /** At least as many data as columns. */
  readonly y: Float64Array;
}

/**
 * How λ is found. `likelihood` thinks of d as random, and takes the λ under which the data are likeliest; `crossValidation` the one that
 * best tells each datum from the others.
 */
export type PenaltyChoice =
  | {
      readonly by: "likelihood" | "crossValidation";
      /** Standard deviation of the data, if it is known; cross-validation needs none. */
      readonly noise?: number | undefined;
      /** The least that is believed where it is not known. */
      readonly finest?: number;
    }
  | { readonly by: "value"; readonly penalty: number; readonly noise?: number };

export interface PenalizedFit {
  /** b, then d. */
  readonly coefficients: Float64Array;
  /** λ. */
  readonly penalty: number;
  /** Trace of the matrix that takes y to what is fitted: how many coefficients the data really chose. */
  readonly freedom: number;
  /** Standard deviation of the data: as given, or √(residual sum of squares/(count − freedom)). */
  readonly noise: number;
  /**
   * Standard deviation of Σ gᵢ·cᵢ over the coefficients c, with d thought of as random: averaged along a curve, bands of that width hold
   * the truth about as often as they say.
   */
  deviationOf(weights: ArrayLike<number>): number;
  /** Coefficients as they might as well be, from independent standard normal numbers, one a coefficient. */
  drawn(normals: readonly number[]): Float64Array;
}

/** λ is looked for between these powers of ten beyond the squares of the singular values, */
const MARGIN = 4;
/** in so many steps to a power of ten, before the best is narrowed down to this power. */
const LOOKS = 3;
const NARROW = 0.01;

/**
 * Penalised least squares in singular values, so that every λ costs a sum only.
 *
 * @param problem see {@link PenalizedProblem}
 * @param choice how λ is found
 * @param least standard deviation of d at least: λ stays below noise²/least²
 *
 * Sources, from memory: P. Craven & G. Wahba, Numer. Math. 31 (1979) 377–403 (generalised cross-validation); G. Wahba, Ann. Stat. 13 (1985)
 * 1378–1402 (generalised maximum likelihood), and J. R. Stat. Soc. B 45 (1983) 133–150 (the band).
 */
export function penalizedFit(
  { free, penalized, y }: PenalizedProblem,
  choice: PenaltyChoice,
  least = 0,
): PenalizedFit {
  const { columns, y: head, rest } = triangularForm([...free, ...penalized], y);
  const fixed = free.length;
  const tail = head.slice(fixed);
  const { w, v } = orthogonalColumns(columns.slice(fixed).map((column) => column.slice(fixed)));
  const squares = w.map((column) => dot(column, column));
  const products = w.map((column) => dot(column, tail));
  const spread = spreadOf(squares, products, rest, y.length - fixed);
  const found = (known?: number) => {
    const penalty =
      choice.by === "value"
        ? choice.penalty
        : bestPenalty(squares, (at) => SCORES[choice.by](spread(at), known));
    const { residual, spent } = spread(penalty);
    return { penalty, noise: known ?? Math.sqrt(residual / (y.length - fixed - spent)) };
  };
  const first = found(choice.noise);
  const finest = choice.by === "value" ? 0 : (choice.finest ?? 0);
  const { noise, penalty: chosen } = first.noise < finest ? found(finest) : first;
  const penalty = least > 0 ? Math.min(chosen, (noise / least) ** 2) : chosen;
  const d = new Float64Array(penalized.length);
  for (const [k, product] of products.entries()) {
    for (let i = 0; i < d.length; i++) d[i] += (product / (squares[k] + penalty)) * v[k][i];
  }
  const leading = columns.slice(0, fixed);
  /** What b must do about a d. */
  const answer = (d: Float64Array, right: Float64Array) => {
    const rows = right.slice();
    for (const [k, amount] of d.entries()) {
      for (let i = 0; i < fixed; i++) rows[i] -= amount * columns[fixed + k][i];
    }
    return Float64Array.from([...backSubstitute(leading, rows), ...d]);
  };
  const none = new Float64Array(fixed);
  /** Rows of a root of the covariance: one for each free column, one for each singular value. */
  const roots = [
    ...leading.map((_, j) =>
      answer(
        new Float64Array(d.length),
        none.map((_, i) => (i === j ? noise : 0)),
      ),
    ),
    ...v.map((column, k) =>
      answer(
        column.map((value) => (value * noise) / Math.sqrt(squares[k] + penalty)),
        none,
      ),
    ),
  ];
  const coefficients = answer(d, head.slice(0, fixed));
  return {
    coefficients,
    penalty,
    freedom: fixed + spread(penalty).spent,
    noise,
    deviationOf: (weights) => Math.hypot(...roots.map((root) => dot(root, weights))),
    drawn: (normals) =>
      coefficients.map((value, i) => roots.reduce((sum, root, k) => sum + normals[k] * root[i], value)),
  };
}

function dot(one: ArrayLike<number>, other: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i] * other[i];
  return sum;
}

/** What a λ makes of the data. */
interface Spread {
  /** Sum of squares left over, and with λ·|d|². */
  readonly residual: number;
  readonly penalized: number;
  /** Freedom spent on d. */
  readonly spent: number;
  /** Logarithm of the determinant that sets likelihoods of different λ to scale. */
  readonly logDeterminant: number;
  /** Data less freely fitted columns. */
  readonly count: number;
}

function spreadOf(squares: readonly number[], products: readonly number[], rest: number, count: number) {
  return (penalty: number): Spread => {
    let [residual, penalized, spent, logDeterminant] = [rest, rest, 0, 0];
    for (const [k, square] of squares.entries()) {
      if (square === 0) continue;
      const left = penalty / (square + penalty);
      const found = products[k] ** 2 / square;
      residual += found * left ** 2;
      penalized += found * left;
      spent += 1 - left;
      logDeterminant += Math.log(left);
    }
    return { residual, penalized, spent, logDeterminant, count };
  };
}

const SCORES = {
  likelihood: ({ penalized, logDeterminant, count }: Spread, noise?: number) =>
    (noise === undefined ? count * Math.log(penalized) : penalized / noise ** 2) - logDeterminant,
  crossValidation: ({ residual, spent, count }: Spread) => residual / (count - spent) ** 2,
};

function bestPenalty(squares: readonly number[], score: (penalty: number) => number): number {
  const powers = squares.filter((square) => square > 0).map(Math.log10);
  if (powers.length === 0 || !powers.every(Number.isFinite)) return 1;
  const [low, high] = [Math.min(...powers) - MARGIN, Math.max(...powers) + MARGIN];
  const looks = Math.ceil(LOOKS * (high - low));
  const power = (k: number) => low + ((high - low) * k) / looks;
  const scoreOf = (exponent: number) => score(10 ** exponent);
  let best = 0;
  for (let k = 1; k <= looks; k++) if (scoreOf(power(k)) < scoreOf(power(best))) best = k;
  return 10 ** minimumOf(scoreOf, power(Math.max(0, best - 1)), power(Math.min(looks, best + 1)), NARROW);
}
