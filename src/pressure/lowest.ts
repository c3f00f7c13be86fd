import type { BalancedPressure } from "./balanced.js";

/**
 * Lowest value of a pressure and where it stands: among the given points and the samples, then on parabolas
 * through the lowest point and its neighbours.
 *
 * @param pressure relative to p₀
 * @param theta angles from the back, increasing, eight or more to the shortest wave
 * @param relative its values there
 */
export function lowestPressure(
  pressure: BalancedPressure,
  theta: readonly number[],
  relative: readonly number[],
): { relative: number; theta: number } {
  const last = theta.length - 1;
  let at = 0;
  for (let i = 1; i <= last; i++) if (relative[i] < relative[at]) at = i;
  let lowest = { relative: relative[at], theta: theta[at] };
  if ("curve" in pressure.form) {
    const { curve, mean, balance } = pressure.form;
    const added = Math.abs(balance.cosine) + Math.abs(balance.sine);
    for (const knot of curve.knots) {
      if (knot < theta[0] || knot > theta[last]) continue;
      if (curve.at(knot) / mean - added > lowest.relative) continue;
      const value = pressure.at(knot);
      if (value < lowest.relative) lowest = { relative: value, theta: knot };
    }
    return lowest;
  }
  if (at === 0 || at === last) return lowest;
  let step = Math.max(theta[at + 1] - theta[at], theta[at] - theta[at - 1]);
  for (let turn = 0; turn < 3; turn++, step /= 8) {
    const before = pressure.at(lowest.theta - step);
    const after = pressure.at(lowest.theta + step);
    const bend = before - 2 * lowest.relative + after;
    if (!(bend > 0)) break;
    const place = lowest.theta + ((before - after) / (2 * bend)) * step;
    lowest = { relative: pressure.at(place), theta: place };
  }
  return lowest;
}
