/** Newton's form of the polynomial through the eight tabulated points nearest to an interval. */
interface NewtonForm {
  readonly nodes: readonly number[];
  readonly differences: readonly number[];
}

/** Newton's divided differences: exact at the nodes, cheap to evaluate. */
function newtonForm(t: readonly number[], f: readonly number[], index: number): NewtonForm {
  const first = Math.max(0, Math.min(index - 3, t.length - 8));
  const nodes = t.slice(first, first + 8);
  const differences = f.slice(first, first + 8);
  for (let order = 1; order < 8; order++) {
    for (let i = 7; i >= order; i--) {
      differences[i] = (differences[i] - differences[i - 1]) / (nodes[i] - nodes[i - order]);
    }
  }
  return { nodes, differences };
}

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
  const { nodes, differences } = newtonForm(t, f, index);
  return (at) => {
    let value = differences[7];
    for (let i = 6; i >= 0; i--) value = value * (at - nodes[i]) + differences[i];
    return value;
  };
}

/** Value, first and second derivative. */
export type Derivatives = [value: number, first: number, second: number];

/** The same polynomial with its derivatives; each of them costs one order. */
export function localDerivatives(
  t: readonly number[],
  f: readonly number[],
  index: number,
): (at: number) => Derivatives {
  const { nodes, differences } = newtonForm(t, f, index);
  return (at) => {
    let [value, first, halfSecond] = [differences[7], 0, 0];
    for (let i = 6; i >= 0; i--) {
      const step = at - nodes[i];
      halfSecond = halfSecond * step + first;
      first = first * step + value;
      value = value * step + differences[i];
    }
    return [value, first, 2 * halfSecond];
  };
}
