/** A square matrix with entries only near its diagonal: row i holds columns start[i] … start[i] + rows[i].length − 1. */
export interface BandedRows {
  readonly start: number[];
  readonly rows: number[][];
}

/**
 * Solves a banded system by Gaussian elimination with exchange of rows. The cost is linear in the number of rows.
 *
 * @param matrix not changed
 * @param right right-hand side, not changed
 * @returns the solution
 */
export function solveBanded({ start, rows }: BandedRows, right: readonly number[]): number[] {
  const count = rows.length;
  const work = rows.map((row) => [...row]);
  const first = [...start];
  const b = [...right];
  const entry = (row: number, column: number) => work[row][column - first[row]] ?? 0;
  for (let i = 0; i < count; i++) {
    let best = i;
    for (let k = i + 1; k < count && first[k] <= i; k++) {
      if (Math.abs(entry(k, i)) > Math.abs(entry(best, i))) best = k;
    }
    for (const list of [work, first, b] as unknown[][]) [list[i], list[best]] = [list[best], list[i]];
    const pivotRow = work[i];
    const pivot = entry(i, i);
    for (let k = i + 1; k < count && first[k] <= i; k++) {
      const factor = entry(k, i) / pivot;
      if (factor === 0) continue;
      const row = work[k];
      for (let j = i; j < first[i] + pivotRow.length; j++) {
        const place = j - first[k];
        row[place] = (row[place] ?? 0) - factor * pivotRow[j - first[i]];
      }
      b[k] -= factor * b[i];
    }
  }
  for (let i = count - 1; i >= 0; i--) {
    let sum = b[i];
    for (let j = i + 1; j < first[i] + work[i].length; j++) sum -= entry(i, j) * b[j];
    b[i] = sum / entry(i, i);
  }
  return b;
}
