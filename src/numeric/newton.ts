import { solveBanded } from "./banded.js";

/** Residuals at which the search ends, and at which it still counts as found. */
const ENOUGH = 1e-12;
const FOUND = 1e-9;

/**
 * Finds where several residuals vanish, by Newton's method with slopes by central differences, its steps halved where they
 * make things worse.
 *
 * @param miss residuals, as many as unknowns, of size about 1 where far off
 * @param trial first guess
 * @param steps of the differences, one an unknown
 * @param what is sought, for the message
 * @throws Error with the residuals when none is found
 */
export function findRoot(
  miss: (unknowns: readonly number[]) => number[],
  trial: readonly number[],
  steps: readonly number[],
  what: string,
): number[] {
  const size = (values: readonly number[]) => Math.hypot(...values);
  let unknowns = [...trial];
  let residual = miss(unknowns);
  for (let turn = 0; turn < 30 && size(residual) > ENOUGH; turn++) {
    const slopes = steps.map((step, k) => {
      const moved = (sign: 1 | -1) =>
        miss(unknowns.map((value, i) => (i === k ? value + sign * step : value)));
      const [plus, minus] = [moved(1), moved(-1)];
      return plus.map((value, i) => (value - minus[i]) / (2 * step));
    });
    const rows = residual.map((_, i) => slopes.map((slope) => slope[i]));
    const change = solveBanded({ start: steps.map(() => 0), rows }, residual);
    let next = unknowns;
    let nextResidual = residual;
    for (let share = 1; share > 1e-3; share /= 2) {
      next = unknowns.map((value, k) => value - share * change[k]);
      nextResidual = miss(next);
      if (size(nextResidual) < size(residual)) break;
    }
    if (!(size(nextResidual) < size(residual))) break;
    [unknowns, residual] = [next, nextResidual];
  }
  if (!(size(residual) < FOUND)) throw new Error(`${what} not found: residual ${residual}`);
  return unknowns;
}
