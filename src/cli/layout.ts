/** Layout of reports: numbers with units, and rows in columns. */

export const degrees = (radians: number) => `${((radians * 180) / Math.PI).toFixed(4)}°`;
export const millimetres = (value: number, digits = 3) => `${value.toFixed(digits)} mm`;
export const inches = (value: number) => `${(value / 25.4).toFixed(4)} in`;
export const newtons = (value: number) => `${value.toFixed(2)} N`;
/** Five decimals, and no minus before a zero. */
export const signed = (value: number) => (Number(value.toFixed(5)) + 0).toFixed(5);
/** An error figure; below the floor it is rounding noise, which differs from machine to machine. */
export const small = (value: number, floor: number) =>
  Math.abs(value) < floor ? `under ${floor}` : value.toExponential(1);
export const percent = (share: number) => `${(100 * share).toFixed(2)} %`;
/** A length of the order of light gaps. */
export const inMicrometres = (value: number) => `${(1000 * value).toFixed(2)} µm`;
/** An error of a length. */
export const micrometres = (value: number) => `${small(1000 * value, 1e-6)} µm`;

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
