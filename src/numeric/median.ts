/** The middle one of some values, the upper of two; it puts them in order. */
export function median(values: number[]): number {
  values.sort((one, other) => one - other);
  return values[values.length >> 1];
}
