import { dsvFormat } from "d3-dsv";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { UNITS } from "../spec/quantity.js";

/** Points read from a table. */
export interface ScanTable {
  /** As [x, y], mm, those of polar columns turned into that. */
  readonly points: Point[];
  /** Line of the file that each stands on, from 1. */
  readonly lines: number[];
  /** Every how many rows one was taken: more than 1 for tables longer than `MOST_ROWS`. */
  readonly every: number;
}

/** Of longer tables every second, third … row is taken, so that no more are. */
const MOST_ROWS = 250_000;

/** Columns that make points: a name, a low line and a unit, as in `x_mm`. */
const COLUMN = /^\s*(x|y|angle|radius)_([a-zA-Zµμ"°]+)\s*$/;
type Part = "x" | "y" | "angle" | "radius";
const EXAMPLE = "x_mm,y_mm or angle_deg,radius_mm; units mm, um, in, thou …, deg, rad";

/**
 * Reads points from comma-, semicolon- or tab-separated text, whose first line names the columns with their units: `x_mm,y_mm` or
 * `angle_deg,radius_mm`. Other columns, blank lines and lines that begin with # are passed over. A decimal comma is understood where the columns
 * are not separated by commas.
 *
 * @param text the whole table
 * @throws SpecError naming the line, for columns that make no points, an unknown unit or a cell that is no number
 *
 * @example
 * readScanCsv("x_mm,y_mm\n0,-59\n59,0\n").points; // [[0, -59], [59, 0]]
 */
export function readScanCsv(text: string): ScanTable {
  if (typeof text !== "string") throw new SpecError("text", text, "must be a table as text");
  // Comments are emptied first: a quote in one would hide what follows.
  const body = text.replace(/^\ufeff/, "").replace(/^[^\S\r\n]*#.*$/gm, "");
  const start = Math.max(0, body.search(/\S/));
  const headLine = countLines(body.slice(0, start));
  const head = body.slice(body.lastIndexOf("\n", start) + 1).split(/\r?\n/, 1)[0];
  const { delimiter, names, wanted } = headOf(head, headLine + 1);
  const rowCount = countLines(body) - headLine - 1 + (body.endsWith("\n") ? 0 : 1);
  const every = Math.max(1, Math.ceil(rowCount / MOST_ROWS));
  const manyLined = body.includes('"');
  const points: Point[] = [];
  const lines: number[] = [];
  let [row, line, next] = [0, 0, 1];
  dsvFormat(delimiter).parseRows(body, (cells) => {
    line = next;
    next += 1 + (manyLined ? countLines(cells.join("")) : 0);
    if (line <= headLine + 1 || !cells.some((cell) => cell.trim() !== "") || row++ % every !== 0) return;
    if (cells.length > names.length && cells.slice(names.length).some((cell) => cell.trim() !== "")) {
      throw new SpecError(
        `line ${line}`,
        cells.join(delimiter),
        `must have ${names.length} cells, as the columns are; decimals with a full stop between commas`,
      );
    }
    const [one, other] = wanted.map(({ index, scale, name }) => {
      const given = cells[index] ?? "";
      const value =
        scale *
        (given.trim() === "" ? Number.NaN : Number(delimiter === "," ? given : given.replace(",", ".")));
      if (!Number.isFinite(value))
        throw new SpecError(`line ${line}`, given, `must have a finite number in column ${name}`);
      return value;
    });
    points.push(wanted[0].part === "x" ? [one, other] : [other * Math.cos(one), other * Math.sin(one)]);
    lines.push(line);
  });
  return { points, lines, every };
}

const DELIMITERS = [",", ";", "\t"];

/** The columns, by the delimiter that shows them. */
function headOf(head: string, line: number) {
  const ways = DELIMITERS.filter((one) => head.includes(one)).map((delimiter) => {
    const names = dsvFormat(delimiter).parseRows(head)[0];
    return { delimiter, names, ...columnsOf(names) };
  });
  const good = ways.find(({ wanted }) => wanted !== undefined);
  if (good?.wanted) return { ...good, wanted: good.wanted };
  const unknown = ways.find((way) => way.unknown !== undefined)?.unknown;
  if (unknown) {
    throw new SpecError(
      `line ${line}`,
      unknown.name,
      `must have a known unit after the low line: ${unknown.units.join(", ")}`,
    );
  }
  throw new SpecError(
    `line ${head.trim() === "" ? 1 : line}`,
    head.trim(),
    `must name the columns, as ${EXAMPLE}`,
  );
}

/** The two columns that make a point. */
function columnsOf(names: readonly string[]) {
  const columns = names.flatMap((name, index) => {
    const [, part, unit] = COLUMN.exec(name) ?? [];
    if (part === undefined) return [];
    const units: Record<string, number> = UNITS[part === "angle" ? "angle" : "length"];
    const known = unit.replace("\u03bc", "\u00b5");
    const scale = Object.hasOwn(units, known) ? units[known] : undefined;
    return [{ part: part as Part, index, name: name.trim(), scale, units: Object.keys(units) }];
  });
  const pick = (...parts: Part[]) => {
    const found = parts.flatMap(
      (part) =>
        columns.flatMap(({ scale, ...column }) =>
          scale !== undefined && column.part === part ? [{ ...column, scale }] : [],
        )[0] ?? [],
    );
    return found.length === parts.length ? found : undefined;
  };
  return {
    wanted: pick("x", "y") ?? pick("angle", "radius"),
    unknown: columns.find(({ scale }) => scale === undefined),
  };
}

function countLines(text: string): number {
  let count = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) count++;
  return count;
}
