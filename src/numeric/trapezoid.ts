/** How much of the range each of some non-decreasing places stands for in a trapezoidal sum: half the way to either neighbour. */
export function trapezoidShares(t: readonly number[]): number[] {
  return t.map((at, i) => ((t[i + 1] ?? at) - (t[i - 1] ?? at)) / 2);
}
