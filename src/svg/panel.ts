import type { Point } from "../numeric/point.js";
import { degrees } from "./chart.js";
import { escapeText, fitted, fixed } from "./text.js";

/** A field of a sheet, mm from its upper left corner. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Height of letters, mm; ISO 3098 has 2.5 and 3.5 (from memory). */
export const SMALL = 2.5;
const HEADING = 3;
/** Smaller letters cannot be read, mm. */
const SMALLEST = 1.8;
/** Scales of ISO 5455 (from memory), from large to small. */
const SCALES = [50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100];

/** The largest standard scale at which a length fits, and one below all of them where none does. */
export function standardScale(length: number, room: number): number {
  return SCALES.find((scale) => scale * length <= room) ?? room / length;
}

export function scaleInWords(scale: number): string {
  return scale >= 1 ? `${fixed(scale)}:1` : `1:${fixed(1 / scale, 1)}`;
}

export interface WordOptions {
  readonly anchor?: "start" | "middle" | "end";
  readonly size?: number;
  /** The letters become smaller where the words would be longer than this. */
  readonly within?: number;
}

/** A line of words; `text` is escaped here. */
export function words(x: number, y: number, text: string, options: WordOptions = {}): string {
  const { anchor = "start", size = SMALL, within = Number.POSITIVE_INFINITY } = options;
  const fitting = fitted(text, size, within, SMALLEST);
  return `<text x="${fixed(x, 2)}" y="${fixed(y, 2)}" text-anchor="${anchor}" font-size="${fixed(fitting.size, 2)}">${escapeText(fitting.shown)}</text>`;
}

/** Digits after the point, and no minus before a zero. */
export function decimals(value: number, digits: number): string {
  return (Number(value.toFixed(digits)) + 0).toFixed(digits);
}

/** An angle in degrees. */
export const inDegrees = (angle: number, digits: number) => `${degrees(angle).toFixed(digits)}°`;

/** A field with its heading; a group to screen readers. */
export function figure(box: Box, heading: string, body: readonly string[]): string {
  return [
    `<g role="group" aria-label="${escapeText(heading)}">`,
    words(box.x, box.y + HEADING, heading, { size: HEADING, within: box.width }),
    ...body,
    "</g>",
  ].join("\n");
}

/** What of a field is left under its heading and over so many lines of words at its foot. */
export function inside(box: Box, lines = 0): Box {
  const top = 1.8 * HEADING;
  return { ...box, y: box.y + top, height: box.height - top - lines * LINE };
}

/** From one line of words to the next, mm. */
export const LINE = 3.7;

/** Lines of words at the foot of a field. */
export function foot(box: Box, lines: readonly string[]): string[] {
  return lines.map((line, k) =>
    words(box.x, box.y + box.height - (lines.length - 1 - k) * LINE - 0.6, line, { within: box.width }),
  );
}

/** Stations a half of a finer ring that are drawn. */
const DRAWN = 180;

/**
 * Of so many stations those to draw: every one, or one in so many of a fine ring and both ends.
 *
 * @param half most of them to a half
 */
export function drawnStations(count: number, half = DRAWN): number[] {
  const stride = Math.max(1, Math.ceil((count - 1) / 2 / half - 0.01));
  return Array.from({ length: count }, (_, i) => i).filter((i) => i % stride === 0 || i === count - 1);
}

/** Straight lines through points, y down. */
export function chain(points: readonly Point[], closed = false): string {
  return `M${points.map(([x, y]) => `${fixed(x, 2)},${fixed(y, 2)}`).join("L")}${closed ? "Z" : ""}`;
}

/** A dimension line between two places on a level, with arrowheads and extension lines down to the places dimensioned. */
export function dimension(from: Point, to: Point, level: number): string {
  const head = 2;
  const outside = to[0] - from[0] < 3 * head;
  const arrow = (tip: number, way: 1 | -1) => `M${fixed(tip, 2)},${fixed(level, 2)}l${way * head},.35v-.7Z`;
  const reach = outside ? 2 * head : 0;
  const extension = ([x, y]: Point) => `M${fixed(x, 2)},${fixed(y, 2)}V${fixed(level - 0.8, 2)}`;
  return (
    `<path class="thin" d="${extension(from)}${extension(to)}M${fixed(from[0] - reach, 2)},${fixed(level, 2)}H${fixed(to[0] + reach, 2)}"/>` +
    `<path class="solid" d="${arrow(from[0], outside ? -1 : 1)}${arrow(to[0], outside ? 1 : -1)}"/>`
  );
}
