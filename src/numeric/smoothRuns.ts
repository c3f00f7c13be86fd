/**
 * Runs of a table along the ring between jumps of its section: a station at a jump stands twice, the first time with
 * the values before it, the second time with those beyond.
 *
 * @param abscissa angles or arc lengths, non-decreasing
 * @returns first and last index of each run
 */
export function smoothRuns(abscissa: readonly number[]): [first: number, last: number][] {
  const runs: [number, number][] = [];
  let first = 0;
  for (let i = 1; i < abscissa.length; i++) {
    if (abscissa[i] !== abscissa[i - 1]) continue;
    runs.push([first, i - 1]);
    first = i;
  }
  runs.push([first, abscissa.length - 1]);
  return runs;
}
