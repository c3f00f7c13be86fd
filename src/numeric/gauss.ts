/** Gauss–Legendre nodes and weights on −1 … 1, five points (NIST DLMF, table 3.5.1). */
const INNER = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3;
const OUTER = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3;
const INNER_WEIGHT = (322 + 13 * Math.sqrt(70)) / 900;
const OUTER_WEIGHT = (322 - 13 * Math.sqrt(70)) / 900;
const NODES = [-OUTER, -INNER, 0, INNER, OUTER];
const WEIGHTS = [OUTER_WEIGHT, INNER_WEIGHT, 128 / 225, INNER_WEIGHT, OUTER_WEIGHT];

/**
 * Panels for `gaussPanel`: cuts an interval at every break inside it, and further into pieces no wider than `widest`.
 *
 * @param from start
 * @param to end, > from
 * @param breaks increasing
 * @returns increasing bounds of the panels, from and to included
 */
export function panels(from: number, to: number, breaks: readonly number[], widest: number): number[] {
  const bounds = [from];
  for (const at of [...breaks.filter((b) => b > from && b < to), to]) {
    const start = bounds[bounds.length - 1];
    const count = Math.max(1, Math.ceil((at - start) / widest));
    for (let k = 1; k < count; k++) bounds.push(start + ((at - start) * k) / count);
    bounds.push(at);
  }
  return bounds;
}

/** Calls `add` with the five nodes of a panel and their weights; exact for polynomials up to degree nine. */
export function gaussPanel(from: number, to: number, add: (t: number, weight: number) => void): void {
  const half = 0.5 * (to - from);
  const middle = 0.5 * (to + from);
  for (let k = 0; k < 5; k++) add(middle + half * NODES[k], half * WEIGHTS[k]);
}
