/**
 * Running integral of a smooth function given at equal steps, exact for polynomials up to degree seven.
 *
 * Each step is integrated under the polynomial through the eight nearest points (the Adams–Moulton idea, centred
 * where there is room), so one evaluation a station gives an error of order step⁸.
 */

/** Numerators over 120960: row m integrates from point m to point m + 1 of eight. Rows 4 to 6 mirror rows 2 to 0. */
const NUMERATORS: readonly (readonly number[])[] = [
  [36799, 139849, -121797, 123133, -88547, 41499, -11351, 1375],
  [-1375, 47799, 101349, -44797, 26883, -11547, 2999, -351],
  [351, -4183, 57627, 81693, -20227, 7227, -1719, 191],
  [-191, 1879, -9531, 68323, 68323, -9531, 1879, -191],
];
const DENOMINATOR = 120960;

/**
 * @param f values at n + 1 equally spaced points, n ≥ 7
 * @param step distance between points
 * @returns n + 1 values of the integral from the first point, in the unit of f times that of step
 */
export function runningIntegral(f: readonly number[], step: number): number[] {
  const last = f.length - 1;
  const F = new Array<number>(last + 1);
  const scale = step / DENOMINATOR;
  const [c0, c1, c2, c3] = NUMERATORS[3];
  let sum = 0;
  F[0] = 0;
  for (let i = 0; i < 3; i++) {
    sum += scale * stepIntegral(f, i, 0, 1);
    F[i + 1] = sum;
  }
  for (let i = 3; i < last - 3; i++) {
    const centred =
      c0 * (f[i - 3] + f[i + 4]) +
      c1 * (f[i - 2] + f[i + 3]) +
      c2 * (f[i - 1] + f[i + 2]) +
      c3 * (f[i] + f[i + 1]);
    sum += scale * centred;
    F[i + 1] = sum;
  }
  for (let i = last - 3; i < last; i++) {
    sum += scale * stepIntegral(f, last - 1 - i, last, -1);
    F[i + 1] = sum;
  }
  return F;
}

/** A step near an end, counted from that end inwards. */
function stepIntegral(f: readonly number[], row: number, end: number, direction: 1 | -1): number {
  const weights = NUMERATORS[row];
  let sum = 0;
  for (let k = 0; k < 8; k++) sum += weights[k] * f[end + direction * k];
  return sum;
}
