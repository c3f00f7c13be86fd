/**
 * Weights of the finite-difference formulas for value, first and second derivative at a point.
 *
 * @param at where the derivatives are wanted
 * @param nodes distinct abscissae
 * @returns weights[d][k] of the value at node k in derivative d = 0, 1, 2
 *
 * Source: B. Fornberg, Math. Comput. 51 (1988), 699–706, the recursion for arbitrary spacing (from memory; tested on
 * polynomials).
 */
export function differenceWeights(at: number, nodes: readonly number[]): [number[], number[], number[]] {
  const weights: [number[], number[], number[]] = [[1], [0], [0]];
  let product = 1;
  for (let n = 1; n < nodes.length; n++) {
    let nextProduct = 1;
    const distance = nodes[n] - at;
    const before = nodes[n - 1] - at;
    const last = [weights[0][n - 1], weights[1][n - 1], weights[2][n - 1]];
    for (let k = 0; k < n; k++) {
      const gap = nodes[n] - nodes[k];
      nextProduct *= gap;
      for (let d = 2; d >= 0; d--) {
        const lower = d > 0 ? d * weights[d - 1][k] : 0;
        weights[d][k] = (distance * weights[d][k] - lower) / gap;
      }
    }
    for (let d = 0; d <= 2; d++) {
      weights[d][n] = (product / nextProduct) * ((d > 0 ? d * last[d - 1] : 0) - before * last[d]);
    }
    product = nextProduct;
  }
  return weights;
}

/** First of the `width` neighbouring nodes, out of `count`, most nearly centred on node `index`. */
export function stencilStart(index: number, count: number, width: number): number {
  return Math.max(0, Math.min(index - (width >> 1), count - width));
}

const WIDTH = 9;

/** First-derivative weights at node i of `width` nodes at unit steps. */
function unitRows(width: number): number[][] {
  const nodes = Array.from({ length: width }, (_, k) => k);
  return nodes.map((at) => differenceWeights(at, nodes)[1]);
}
const ROWS = unitRows(WIDTH);

/**
 * First derivative of a function given at equal steps, from the nine nearest points, or all if there are fewer.
 *
 * @param f values
 * @param step distance between points
 */
export function derivative(f: readonly number[], step: number): number[] {
  const width = Math.min(WIDTH, f.length);
  const rows = width === WIDTH ? ROWS : unitRows(width);
  return f.map((_, i) => {
    const start = stencilStart(i, f.length, width);
    let sum = 0;
    // The weights add up to nil, so only differences count; of equal values they are exactly nil.
    for (let k = 0; k < width; k++) sum += rows[i - start][k] * (f[start + k] - f[i]);
    return sum / step;
  });
}
