/** A tall least-squares problem brought to triangular form: least of |R·c − y|² + rest. */
export interface TriangularProblem {
  /** R by columns, upper triangular. */
  readonly columns: readonly Float64Array[];
  readonly y: Float64Array;
  /** Sum of squares that no coefficients take away. */
  readonly rest: number;
}

/**
 * Householder triangularisation.
 *
 * @param columns of the matrix, at least as long as they are many; not changed
 * @param y right-hand side, as long; not changed
 */
export function triangularForm(columns: readonly Float64Array[], y: Float64Array): TriangularProblem {
  const count = columns.length;
  const rows = y.length;
  const work = columns.map((column) => column.slice());
  const right = y.slice();
  for (let j = 0; j < count; j++) {
    const pivot = work[j];
    let square = 0;
    for (let i = j; i < rows; i++) square += pivot[i] * pivot[i];
    const norm = Math.sqrt(square);
    if (norm === 0) continue;
    // The mirror's normal stands in the column itself; its other end is the diagonal entry.
    const diagonal = pivot[j] > 0 ? -norm : norm;
    const scale = 1 / (square - pivot[j] * diagonal);
    pivot[j] -= diagonal;
    for (const column of [...work.slice(j + 1), right]) {
      let product = 0;
      for (let i = j; i < rows; i++) product += pivot[i] * column[i];
      product *= scale;
      for (let i = j; i < rows; i++) column[i] -= product * pivot[i];
    }
    pivot[j] = diagonal;
  }
  let rest = 0;
  for (let i = count; i < rows; i++) rest += right[i] * right[i];
  return {
    columns: work.map((column, j) =>
      Float64Array.from({ length: count }, (_, i) => (i <= j ? column[i] : 0)),
    ),
    y: right.slice(0, count),
    rest,
  };
}

/** Solves R·c = y for an upper triangular R by columns. */
export function backSubstitute(columns: readonly Float64Array[], y: ArrayLike<number>): Float64Array {
  const c = Float64Array.from(y).slice(0, columns.length);
  for (let j = columns.length - 1; j >= 0; j--) {
    c[j] /= columns[j][j];
    for (let i = 0; i < j; i++) c[i] -= c[j] * columns[j][i];
  }
  return c;
}
