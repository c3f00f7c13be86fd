/** Sign that a quantity takes on the left half, seen in the mirror: 1 for even, −1 for odd ones. */
export type Parity = 1 | -1;

/** Joins half arrays that start at the back into one array from end to end, times `scale`. */
export function mirrored(half: readonly number[], parity: Parity, scale = 1): number[] {
  const last = half.length - 1;
  const whole = new Array<number>(2 * last + 1);
  for (let i = 0; i <= last; i++) {
    const value = scale * half[i];
    whole[last - i] = parity * value;
    whole[last + i] = value;
  }
  return whole;
}

/** Station angles −θC … θC, radians, 2·stations + 1 of them. */
export function stationAngles(stations: number, stationStep: number): number[] {
  const theta = new Array<number>(2 * stations + 1);
  for (let i = -stations; i <= stations; i++) theta[i + stations] = i * stationStep;
  return theta;
}
