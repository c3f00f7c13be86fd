import type { Halves } from "./relativeForces.js";

/** Sign that a quantity takes on the left half, seen in the mirror: 1 for even, −1 for odd ones. */
export type Parity = 1 | -1;

/** Joins half arrays that start at the back into one array from left end to right end, times `scale`. */
export function joined({ left, right }: Halves<readonly number[]>, parity: Parity, scale = 1): number[] {
  const last = right.length - 1;
  const whole = new Array<number>(2 * last + 1);
  const mirrored = parity * scale;
  for (let i = last; i > 0; i--) whole[last - i] = mirrored * left[i];
  for (let i = 0; i <= last; i++) whole[last + i] = scale * right[i];
  return whole;
}

/** One array of each half, joined. */
export function joinedBy<T>(
  { left, right }: Halves<T>,
  pick: (half: T) => readonly number[],
  parity: Parity,
  scale = 1,
): number[] {
  return joined({ left: pick(left), right: pick(right) }, parity, scale);
}
