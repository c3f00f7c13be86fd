/**
 * A symmetric matrix with entries only near its diagonal: `entries[i·(width + 1) + k]` is the one in row i, column i + k,
 * k = 0 … width.
 */
export interface SymmetricBand {
  readonly count: number;
  readonly width: number;
  readonly entries: Float64Array;
}

export function symmetricBand(count: number, width: number): SymmetricBand {
  return { count, width, entries: new Float64Array(count * (width + 1)) };
}

/** Adds scale·a·aᵀ for a vector a with entries `a` from place `start` on. */
export function addSquare(
  { width, entries }: SymmetricBand,
  start: number,
  a: readonly number[],
  scale: number,
): void {
  for (let i = 0; i < a.length; i++) {
    const row = (start + i) * (width + 1);
    for (let j = i; j < a.length; j++) entries[row + j - i] += scale * a[i] * a[j];
  }
}

/** Adds the product with a vector to `y`. */
export function addBandProduct(
  { count, width, entries }: SymmetricBand,
  x: Float64Array,
  y: Float64Array,
): void {
  for (let i = 0; i < count; i++) {
    const row = i * (width + 1);
    y[i] += entries[row] * x[i];
    for (let k = 1; k <= width && i + k < count; k++) {
      y[i] += entries[row + k] * x[i + k];
      y[i + k] += entries[row + k] * x[i];
    }
  }
}

/**
 * Factors a positive definite band matrix plus a diagonal as L·D·Lᵀ. The cost is linear in the number of rows.
 *
 * @param matrix not changed
 * @param diagonal added to it
 * @param into workspace of the size of the matrix's entries; holds D and, divided by it, the rows of Lᵀ
 */
export function factorBand(
  { count, width, entries }: SymmetricBand,
  diagonal: Float64Array,
  into: Float64Array,
): void {
  const stride = width + 1;
  into.set(entries);
  for (let i = 0; i < count; i++) into[i * stride] += diagonal[i];
  for (let i = 0; i < count; i++) {
    const row = i * stride;
    const inverse = 1 / into[row];
    const reach = Math.min(width, count - 1 - i);
    for (let k = 1; k <= reach; k++) {
      const factor = into[row + k] * inverse;
      const other = (i + k) * stride;
      for (let j = k; j <= reach; j++) into[other + j - k] -= factor * into[row + j];
    }
    for (let k = 1; k <= reach; k++) into[row + k] *= inverse;
  }
}

/** Solves with a factored matrix, in place. */
export function solveFactored(factored: Float64Array, count: number, width: number, b: Float64Array): void {
  const stride = width + 1;
  for (let i = 0; i < count; i++) {
    const reach = Math.min(width, count - 1 - i);
    for (let k = 1; k <= reach; k++) b[i + k] -= factored[i * stride + k] * b[i];
  }
  for (let i = count - 1; i >= 0; i--) {
    let value = b[i] / factored[i * stride];
    const reach = Math.min(width, count - 1 - i);
    for (let k = 1; k <= reach; k++) value -= factored[i * stride + k] * b[i + k];
    b[i] = value;
  }
}
