import { solveBanded } from "./banded.js";
import { NotFound } from "./notFound.js";

/** Residuals at which the search ends, and at which it still counts as found. */
const ENOUGH = 1e-12;
const FOUND = 1e-9;

/** A step that does not shrink the residuals at least by this asks for new slopes. */
const SHRINKS = 0.3;

/**
 * Finds where several residuals vanish, by Newton's method: slopes by differences, brought up to date after each step from what
 * it showed (C. G. Broyden, Math. Comput. 19 (1965) 577–593; from memory) and taken anew where that is not enough; steps halved where they
 * make things worse.
 *
 * @param miss residuals, as many as unknowns, of size about 1 where far off
 * @param trial first guess
 * @param steps of the differences, one an unknown
 * @param what is sought, for the message
 * @throws NotFound with the residuals when none is found
 */
export function findRoot(
  miss: (unknowns: readonly number[]) => number[],
  trial: readonly number[],
  steps: readonly number[],
  what: string,
): number[] {
  const size = (values: readonly number[]) => Math.hypot(...values);
  const slopesAt = (unknowns: readonly number[], residual: readonly number[]) => {
    const columns = steps.map((step, k) => {
      const moved = miss(unknowns.map((value, i) => (i === k ? value + step : value)));
      return moved.map((value, i) => (value - residual[i]) / step);
    });
    return residual.map((_, i) => columns.map((column) => column[i]));
  };
  let unknowns = [...trial];
  let residual = miss(unknowns);
  /** Slopes of each residual, in a row; none where they must be taken anew. */
  let slopes: number[][] | undefined;
  for (let turn = 0; turn < 60 && size(residual) > ENOUGH; turn++) {
    const fresh = slopes === undefined;
    slopes ??= slopesAt(unknowns, residual);
    const rows = slopes.map((row) => [...row]);
    const change = solveBanded({ start: steps.map(() => 0), rows }, residual);
    let next = unknowns;
    let nextResidual = residual;
    for (let share = 1; share > 1e-3; share /= 2) {
      next = unknowns.map((value, k) => value - share * change[k]);
      nextResidual = miss(next);
      if (size(nextResidual) < size(residual) || !fresh) break;
    }
    if (size(nextResidual) < size(residual)) {
      const shrank = size(nextResidual) < SHRINKS * size(residual);
      slopes = shrank ? updated(slopes, steps, unknowns, next, residual, nextResidual) : undefined;
      [unknowns, residual] = [next, nextResidual];
    } else if (fresh) break;
    else slopes = undefined;
  }
  if (!(size(residual) < FOUND)) throw new NotFound(`${what} not found: residual ${residual}`);
  return unknowns;
}

/** Slopes that agree with the last step and else change as little as can be, in units of the differences' steps. */
function updated(
  slopes: readonly number[][],
  steps: readonly number[],
  from: readonly number[],
  to: readonly number[],
  before: readonly number[],
  after: readonly number[],
): number[][] {
  const move = to.map((value, k) => (value - from[k]) / steps[k]);
  const square = move.reduce((sum, value) => sum + value * value, 0);
  return slopes.map((row, i) => {
    const expected = row.reduce((sum, slope, k) => sum + slope * steps[k] * move[k], 0);
    const surplus = (after[i] - before[i] - expected) / square;
    return row.map((slope, k) => slope + (surplus * move[k]) / steps[k]);
  });
}
