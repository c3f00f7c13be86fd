/** A square matrix with entries only near its diagonal: row i holds columns start[i] … start[i] + rows[i].length − 1. */
export interface BandedRows {
  readonly start: number[];
  readonly rows: number[][];
}

/**
 * Solves a banded system by Gaussian elimination without exchange of rows, for matrices whose pivots stay clear of
 * zero. The cost is linear in the number of rows.
 *
 * @param matrix not changed
 * @param right right-hand side, not changed
 * @returns the solution
 */
export function solveBanded({ start, rows }: BandedRows, right: readonly number[]): number[] {
  const count = rows.length;
  const work = rows.map((row) => [...row]);
  const b = [...right];
  for (let i = 0; i < count; i++) {
    const pivotRow = work[i];
    const pivot = pivotRow[i - start[i]];
    for (let k = i + 1; k < count && start[k] <= i; k++) {
      const row = work[k];
      const factor = row[i - start[k]] / pivot;
      if (factor === 0) continue;
      for (let j = i; j < start[i] + pivotRow.length; j++) {
        const place = j - start[k];
        row[place] = (row[place] ?? 0) - factor * pivotRow[j - start[i]];
      }
      b[k] -= factor * b[i];
    }
  }
  for (let i = count - 1; i >= 0; i--) {
    let sum = b[i];
    for (let j = i + 1; j < start[i] + work[i].length; j++) sum -= work[i][j - start[i]] * b[j];
    b[i] = sum / work[i][i - start[i]];
  }
  return b;
}
