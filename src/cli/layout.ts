/** Layout of reports: numbers with units, and rows in columns. */

/** So many decimals, and no minus before a zero. */
export const decimals = (value: number, digits: number) =>
  (Number(value.toFixed(digits)) + 0).toFixed(digits);

export const degrees = (radians: number) => `${decimals((radians * 180) / Math.PI, 4)}°`;
export const millimetres = (value: number, digits = 3) => `${decimals(value, digits)} mm`;
export const inches = (value: number) => `${decimals(value / 25.4, 4)} in`;
export const newtons = (value: number) => `${decimals(value, 2)} N`;
export const signed = (value: number) => decimals(value, 5);
/** An error figure; below the floor it is rounding noise, which differs from machine to machine. */
export const small = (value: number, floor: number) =>
  Math.abs(value) < floor ? `under ${floor}` : value.toExponential(1);
export const percent = (share: number) => `${decimals(100 * share, 2)} %`;
/** A length of the order of light gaps. */
export const inMicrometres = (value: number) => `${decimals(1000 * value, 2)} µm`;
/** An error of a length. */
export const micrometres = (value: number) => `${small(1000 * value, 1e-6)} µm`;

/** Values that differ by less than this share of the largest are the same but for rounding. */
const SAME = 1e-9;

/** Index of the lowest of some values; of the last one where several are, so that rounding does not choose. */
export function lowestOf(values: readonly number[]): number {
  const [least, most] = [Math.min(...values), Math.max(...values.map(Math.abs))];
  const isLeast = (value: number) => value <= least + SAME * most;
  return values.reduce((last, value, i) => (isLeast(value) ? i : last), 0);
}

/** An angle as a place on the ring. */
export const place = (theta: number) => `at ${degrees(theta)} from the back`;

export type Row = [label: string, value: string, also?: string];

/** Rows in columns that fit the widest label and value. */
export function block(title: string, rows: Row[]): string {
  const widest = (column: 0 | 1) => Math.max(...rows.map((row) => row[column].length));
  const [labels, values] = [widest(0), widest(1)];
  const lines = rows.map(([label, value, also = ""]) =>
    `  ${label.padEnd(labels)}  ${value.padStart(values)}  ${also}`.trimEnd(),
  );
  return [title, ...lines].join("\n");
}

/** A part of a report for warnings, on a line each; none where there are none. */
export function warningsIn(
  messages: readonly string[],
  title = "Warnings",
  mark = "  ! ",
): [] | [part: string] {
  return messages.length === 0 ? [] : [[title, ...messages.map((message) => mark + message)].join("\n")];
}
