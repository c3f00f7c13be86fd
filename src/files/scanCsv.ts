import { dsvFormat } from "d3-dsv";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { UNITS } from "../spec/quantity.js";

/** Points read from a table. */
export interface ScanTable {
  /** mm. */
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
 * @throws SpecError naming the line
 *
 * @example
 * const { points, lines } = readScanCsv(readFileSync("scan.csv", "utf8"));
 */
export function readScanCsv(text: string): ScanTable {
  if (typeof text !== "string") throw new SpecError("text", text, "must be a table as text");
  const body = text.replace(/^\ufeff/, "");
  const headLine = body.split("\n", MOST_COMMENTS).findIndex((line) => isData(line.trim()));
  const head = headLine < 0 ? "" : body.split("\n", headLine + 1)[headLine];
  const delimiter = [",", ";", "\t"].find((one) => head.includes(one)) ?? ",";
  const names = head.split(delimiter);
  const wanted = columnsOf(names, headLine + 1);
  const rowCount = countLines(body);
  const every = Math.max(1, Math.ceil(rowCount / MOST_ROWS));
  const points: Point[] = [];
  const lines: number[] = [];
  dsvFormat(delimiter).parseRows(body, (row, i) => {
    if (i <= headLine || (i - headLine - 1) % every !== 0 || !isData(row[0].trim() || row.slice(1).join("")))
      return;
    const [one, other] = wanted.map(({ index, scale, name }) => {
      const given = row[index] ?? "";
      const value =
        given.trim() === "" ? Number.NaN : Number(delimiter === "," ? given : given.replace(",", "."));
      if (!Number.isFinite(value))
        throw new SpecError(`line ${i + 1}`, given, `must have a finite number in column ${name}`);
      return value * scale;
    });
    points.push(wanted[0].part === "x" ? [one, other] : [other * Math.cos(one), other * Math.sin(one)]);
    lines.push(i + 1);
  });
  return { points, lines, every };
}

const MOST_COMMENTS = 1000;
const isData = (start: string) => start !== "" && !start.startsWith("#");

/** The two columns that make a point. */
function columnsOf(names: readonly string[], line: number) {
  const found = names.flatMap((name, index) => {
    const [, part, unit] = COLUMN.exec(name.replaceAll('"', "")) ?? [];
    if (part === undefined) return [];
    const units: Record<string, number> = UNITS[part === "angle" ? "angle" : "length"];
    const known = unit.replace("μ", "µ");
    if (!Object.hasOwn(units, known)) {
      throw new SpecError(
        `line ${line}`,
        name,
        `must have a known unit after the low line: ${Object.keys(units).join(", ")}`,
      );
    }
    return [{ part: part as Part, index, scale: units[known], name: name.trim() }];
  });
  const pick = (...parts: Part[]) => {
    const columns = parts.flatMap((part) => found.find((column) => column.part === part) ?? []);
    return columns.length === parts.length ? columns : undefined;
  };
  const columns = pick("x", "y") ?? pick("angle", "radius");
  if (!columns)
    throw new SpecError(`line ${Math.max(1, line)}`, names.join(","), `must name the columns, as ${EXAMPLE}`);
  return columns;
}

function countLines(text: string): number {
  let count = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) count++;
  return count;
}
