/** A·V = W with orthogonal columns in W, whose lengths are the singular values, and an orthogonal V. */
export interface OrthogonalColumns {
  readonly w: Float64Array[];
  readonly v: Float64Array[];
}

/** Columns whose cosine is below this count as square to each other. */
const SQUARE = 1e-15;

/**
 * One-sided Jacobi method: turns pairs of columns until all stand square to each other. Small singular values come out to a high
 * relative accuracy.
 *
 * @param columns of the matrix; not changed
 *
 * Source: G. H. Golub & C. F. Van Loan, Matrix Computations, 4th ed., section 8.6.3 (from memory; tested against other programs).
 */
export function orthogonalColumns(columns: readonly Float64Array[]): OrthogonalColumns {
  const count = columns.length;
  const w = columns.map((column) => column.slice());
  const v = columns.map((_, j) => Float64Array.from({ length: count }, (_, i) => (i === j ? 1 : 0)));
  const dot = (one: Float64Array, other: Float64Array) => {
    let sum = 0;
    for (let i = 0; i < one.length; i++) sum += one[i] * other[i];
    return sum;
  };
  const turn = (one: Float64Array, other: Float64Array, c: number, s: number) => {
    for (let i = 0; i < one.length; i++) {
      const [a, b] = [one[i], other[i]];
      one[i] = c * a - s * b;
      other[i] = s * a + c * b;
    }
  };
  for (let sweep = 0, turned = true; sweep < 60 && turned; sweep++) {
    turned = false;
    const squares = w.map((column) => dot(column, column));
    for (let j = 0; j < count; j++) {
      for (let k = j + 1; k < count; k++) {
        const [jj, kk, jk] = [squares[j], squares[k], dot(w[j], w[k])];
        if (!(Math.abs(jk) > SQUARE * Math.sqrt(jj * kk))) continue;
        turned = true;
        const cotangent = (kk - jj) / (2 * jk);
        const tangent = Math.sign(cotangent || 1) / (Math.abs(cotangent) + Math.hypot(1, cotangent));
        const c = 1 / Math.hypot(1, tangent);
        turn(w[j], w[k], c, c * tangent);
        turn(v[j], v[k], c, c * tangent);
        squares[j] = jj - tangent * jk;
        squares[k] = kk + tangent * jk;
      }
    }
  }
  return { w, v };
}
