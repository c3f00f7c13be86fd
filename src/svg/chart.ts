import type { ScaleLinear } from "d3-scale";
import { escapeText, fitted, fixed, idPrefix } from "./text.js";
import { colour, LETTERS, stroke, styleSheet } from "./theme.js";

/** What a picture is called. */
export interface RenderOptions {
  /** Title, read out by screen readers and printed over the picture. */
  title?: string;
  /** Prefix of the ids; give each its own where several stand in one page. Default "camround". */
  id?: string;
}

export interface ChartFrame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
}

type Scale = ScaleLinear<number, number>;

export const text = (at: number, height: number, words: string, anchor = "middle") =>
  `<text x="${fixed(at)}" y="${fixed(height)}" text-anchor="${anchor}">${words}</text>`;

export const degrees = (angle: number) => (angle * 180) / Math.PI;

/** Horizontal lines at the ticks of y, with their values. */
export function levels(y: Scale, { left, right, width }: ChartFrame, count = 5): string[] {
  const label = y.tickFormat(count);
  return y
    .ticks(count)
    .flatMap((tick) => [
      `<path class="grid" d="M${left},${fixed(y(tick))}H${width - right}"/>`,
      text(left - 8, y(tick) + 4, label(tick), "end"),
    ]);
}

/** Short strokes under a chart at places of x, with words. */
export function marks(
  x: Scale,
  floor: number,
  places: readonly (readonly [value: number, words: string])[],
): string[] {
  return places.map(
    ([value, words]) =>
      `<path class="grid" d="M${fixed(x(value))},${fixed(floor)}v6"/>${text(x(value), floor + 20, words)}`,
  );
}

/** Marks at quarter turns of a ring that ends at some degrees from the back. */
export function quarterTurns(x: Scale, floor: number, end: number): string[] {
  return marks(
    x,
    floor,
    [-180, -90, 0, 90, 180].map((tick) => [Math.max(-end, Math.min(end, tick)), `${tick}°`]),
  );
}

/** Letters, and the smallest of them that can be read. */
const SIZE = 13;
const SMALLEST = 8;
/** Blank at either side of a line. */
const SIDE = 12;

/** A line across the picture. */
function line(width: number, height: number, words: string): string {
  const { shown, size } = fitted(words, SIZE, width - 2 * SIDE, SMALLEST);
  return `<text x="${width / 2}" y="${height}" text-anchor="middle" style="font-size:${fixed(size, 2)}px">${escapeText(shown)}</text>`;
}

/** The whole picture, its title above and its description below: an SVG document, the same text on every machine; no scripts, no outside references. */
export function chart(
  { width, height }: ChartFrame,
  options: RenderOptions,
  titleElse: string,
  description: string,
  style: Readonly<Record<string, string>>,
  body: readonly string[],
): string {
  const id = idPrefix(options.id);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${id}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${escapeText(options.title ?? titleElse)}</title>`,
    `<desc id="${id}-desc">${escapeText(description)}</desc>`,
    styleSheet(id, {
      ".paper": colour("fill", "paper"),
      ".grid": stroke("closed", 0.75),
      text: `${LETTERS};direction:ltr;font-size:${SIZE}px`,
      ...style,
    }),
    `<rect class="paper" width="${width}" height="${height}"/>`,
    ...body,
    line(width, 20, options.title ?? titleElse),
    line(width, height - 12, description),
    "</svg>",
    "",
  ].join("\n");
}
