/**
 * Polynomial through the eight tabulated points nearest to the interval from `index` to `index + 1`.
 *
 * @param t increasing abscissae, at least eight
 * @param f values
 * @returns a function good between t[index] and t[index + 1], with an error of order step⁸
 */
export function localPolynomial(
  t: readonly number[],
  f: readonly number[],
  index: number,
): (at: number) => number {
  const first = Math.max(0, Math.min(index - 3, t.length - 8));
  // Newton's divided differences: exact at the nodes, cheap to evaluate.
  const nodes = t.slice(first, first + 8);
  const differences = f.slice(first, first + 8);
  for (let order = 1; order < 8; order++) {
    for (let i = 7; i >= order; i--) {
      differences[i] = (differences[i] - differences[i - 1]) / (nodes[i] - nodes[i - order]);
    }
  }
  return (at) => {
    let value = differences[7];
    for (let i = 6; i >= 0; i--) value = value * (at - nodes[i]) + differences[i];
    return value;
  };
}
