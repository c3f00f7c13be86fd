const ROOT = 2 * Math.sqrt(10 / 7);
const [near, far] = [Math.sqrt(5 - ROOT) / 3, Math.sqrt(5 + ROOT) / 3];
const [heavy, light] = [(322 + 13 * Math.sqrt(70)) / 900, (322 - 13 * Math.sqrt(70)) / 900];

/** Gauss–Legendre nodes and weights on −1 … 1, five points (NIST DLMF, table 3.5.1). */
export const GAUSS: readonly (readonly [node: number, weight: number])[] = [
  [-far, light],
  [-near, heavy],
  [0, 128 / 225],
  [near, heavy],
  [far, light],
];

/** ∫ f between two bounds by that rule. */
export function gaussIntegral(from: number, to: number, f: (t: number) => number): number {
  const half = (to - from) / 2;
  const middle = (to + from) / 2;
  let sum = 0;
  for (const [node, weight] of GAUSS) sum += half * weight * f(middle + node * half);
  return sum;
}
