import { outlineCubics } from "../curves/beziers.js";
import type { FitOptions } from "../curves/fitRing.js";
import { gapWithMetal, turnsOf } from "../curves/gapWithMetal.js";
import { type FreeBody, NO_METAL } from "../curves/ringFaces.js";
import type { FinishedRing } from "../making/allowances.js";
import { SpecError } from "../spec/error.js";
import { circlePath, cubicPath } from "./curvePaths.js";
import { type Layout, layOut, OVERLAP, PAGE_SIZES, type Page, type PageSize, type Tile } from "./page.js";
import { extentsOf } from "./paths.js";
import { escapeText, fixed, idPrefix } from "./text.js";

/** How a template is laid out. */
export interface RenderTemplateOptions extends FitOptions {
  /** Sheet, upright or lying as fits better. Default "A4". */
  page?: PageSize;
  /** The ring that comes out, coated and lapped: its bore is drawn, its size and gap are told. Default: the ring as designed. */
  finished?: Pick<FinishedRing, "spec" | "freeGap">;
  /** Title, printed on every sheet. */
  title?: string;
  /** Prefix of the ids. Default "camround". */
  id?: string;
}

/** Finer than any printer, mm. */
const PRINTED = 0.01;

/** As many sheets as anyone would glue together. */
const MOST_SHEETS = 400;

/**
 * A template in true size to lay the free ring on: its outline with the ends as cut, the bore, the axis, and bars to check the print by, in mm
 * and inch. A ring larger than the sheet goes over several, which overlap by 10 mm and are glued at their crosses.
 *
 * @param ring a design
 * @param options sheet, title, prefix of ids, tolerance (mm, default 0.01), metal on the faces
 * @returns the sheets, row by row, each an SVG document of the sheet's size in which one user unit is 1 mm
 * @throws SpecError when an option is outside its range or the ring would need more than 400 sheets
 * @throws NotFound when no number of curves comes within the tolerance
 *
 * @example
 * renderTemplate(design, { page: "A4" }).length; // 1
 */
export function renderTemplate(ring: FreeBody, options: RenderTemplateOptions = {}): string[] {
  const { page: size = "A4" } = options;
  if (!Object.hasOwn(PAGE_SIZES, size)) {
    throw new SpecError("page", size, `must be one of ${Object.keys(PAGE_SIZES).join(", ")}`);
  }
  const layout = layOut(size, boundsOf(ring, options));
  if (layout.tiles.length > MOST_SHEETS) {
    throw new SpecError("page", size, `is too small: the ring would need ${layout.tiles.length} sheets`);
  }
  const drawing = drawingOf(ring, options);
  return layout.tiles.map((tile, k) => sheet(ring, options, layout, tile, k, drawing));
}

/**
 * All sheets in one HTML document, which a browser prints to paper or PDF, a sheet a page.
 *
 * @param sheets from {@link renderTemplate}
 * @returns an HTML document of pages of the sheets' size
 *
 * @example
 * templatePages(renderTemplate(design)).startsWith("<!doctype html>"); // true
 */
export function templatePages(sheets: readonly string[]): string {
  const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(sheets[0]) ?? [];
  return [
    "<!doctype html>",
    '<html lang="en"><head><meta charset="utf-8"><title>Template of a free ring, true size</title>',
    `<style>@page{size:${width}mm ${height}mm;margin:0}body{margin:0}svg{display:block;break-inside:avoid}svg+svg{break-before:page}</style>`,
    "</head><body>",
    ...sheets,
    "</body></html>",
    "",
  ].join("\n");
}

/** Room round the outline, mm. */
const ROOM = 3;

function boundsOf(ring: FreeBody, { added, finished }: RenderTemplateOptions) {
  const R = boreRadius(ring, finished);
  const more = ROOM + Math.max(0, added?.outer ?? 0);
  const { side, top, bottom } = extentsOf(ring);
  const reach = Math.max(R, side) + more;
  const above = Math.max(R, top) + more;
  return { x: -reach, y: -above, width: 2 * reach, height: above + Math.max(R, bottom) + more };
}

const boreRadius = ({ spec }: FreeBody, finished: RenderTemplateOptions["finished"]) =>
  (finished?.spec ?? spec).bore / 2;

function drawingOf(ring: FreeBody, options: RenderTemplateOptions): string {
  const R = boreRadius(ring, options.finished);
  const { height, y } = boundsOf(ring, options);
  const arm = Math.min(10, R / 8);
  return [
    `<path class="ring" d="${cubicPath(outlineCubics(ring, { tolerance: PRINTED, ...options }))}"/>`,
    `<path class="bore" d="${circlePath(R)}"/>`,
    `<path class="axis" d="M0,${fixed(y)}v${fixed(height)}M${fixed(-arm)},0h${fixed(2 * arm)}"/>`,
  ].join("\n");
}

const STYLE = `
.ring{fill:none;stroke:#000;stroke-width:.18}
.bore{fill:none;stroke:#000;stroke-width:.13;stroke-dasharray:2 1}
.axis{fill:none;stroke:#000;stroke-width:.1;stroke-dasharray:6 1 .8 1}
.mark{fill:none;stroke:#000;stroke-width:.13}
text{font-family:'DejaVu Sans',Helvetica,Arial,sans-serif;font-size:3px;fill:#000}`;

function sheet(
  ring: FreeBody,
  options: RenderTemplateOptions,
  { page, columns, rows, tiles }: Layout,
  { column, row, x, y }: Tile,
  index: number,
  drawing: string,
): string {
  const { spec, freeGap } = options.finished ?? { spec: ring.spec, freeGap: ring.free.gap };
  const { width, height, window } = page;
  const id = `${idPrefix(options.id)}-sheet${index + 1}`;
  const title = escapeText(
    options.title ??
      `Ring Ø${fixed(spec.bore)} × ${fixed(spec.section.radialThickness)} × ${fixed(spec.section.axialHeight)} mm, free`,
  );
  const of =
    tiles.length > 1
      ? `, sheet ${index + 1} of ${tiles.length} (row ${row + 1} of ${rows}, column ${column + 1} of ${columns})`
      : "";
  const [shiftX, shiftY] = [window.x - x, window.y - y];
  const words = (at: number, down: number, text: string) =>
    `<text x="${fixed(at)}" y="${fixed(down)}"${smaller(text, window.width)}>${text}</text>`;
  const below = window.y + window.height;
  const notes = [
    `${title}${of}`,
    `Solid: the free ring, ${gapInWords(ring, freeGap, options)}. Dashed: the bore it closes to.`,
    "Print at 100 %, not fitted to the page, and measure both bars; paper shrinks and printers stretch. Design guidance.",
  ];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${fixed(width)}mm" height="${fixed(height)}mm" viewBox="0 0 ${fixed(width)} ${fixed(height)}" role="img" aria-labelledby="${id}-title">`,
    `<title id="${id}-title">${title}${of}</title>`,
    `<style>@page{size:${fixed(width)}mm ${fixed(height)}mm;margin:0}${STYLE}</style>`,
    `<rect width="${fixed(width)}" height="${fixed(height)}" fill="#fff"/>`,
    `<clipPath id="${id}-window"><rect x="${fixed(window.x)}" y="${fixed(window.y)}" width="${fixed(window.width)}" height="${fixed(window.height)}"/></clipPath>`,
    `<g clip-path="url(#${id}-window)"><g transform="translate(${fixed(shiftX, 6)},${fixed(shiftY, 6)})">`,
    drawing,
    "</g></g>",
    ...(tiles.length > 1 ? [`<path class="mark" d="${crosses(page)}"/>`] : []),
    ...notes.map((text, k) => words(window.x, below + 5 + 4 * k, text)),
    calibrationBars(page),
    "</svg>",
    "",
  ].join("\n");
}

/** What to measure across the gap: as drawn and, where metal is still to come off or on, as finished. */
function gapInWords(ring: FreeBody, freeGap: number, { added = NO_METAL }: RenderTemplateOptions): string {
  const made = gapWithMetal(ring.free.gap, turnsOf(ring), added);
  const [drawn, finished] = [made, freeGap].map((gap) => fixed(gap, 2));
  return drawn === finished
    ? `${drawn} mm across the free gap`
    : `${drawn} mm across the free gap as made, ${finished} mm as finished`;
}

/** Width of a character over the size of the type, at most. */
const CHARACTER = 0.72;

/** A smaller type for a line that would not fit into a width. */
function smaller(text: string, width: number): string {
  const size = width / (CHARACTER * text.length);
  return size < 3 ? ` style="font-size:${fixed(size)}px"` : "";
}

/** Crosses in the middle of the overlaps at the window's corners: the same place of the drawing on neighbouring sheets. */
function crosses({ window }: Page): string {
  const inset = OVERLAP / 2;
  const [left, right] = [window.x + inset, window.x + window.width - inset];
  const [top, bottom] = [window.y + inset, window.y + window.height - inset];
  return [left, right]
    .flatMap((x) => [top, bottom].map((y) => `M${fixed(x - 3)},${fixed(y)}h6M${fixed(x)},${fixed(y - 3)}v6`))
    .join("");
}

/** Bars of 100 mm and of 4 in, with a tick each 10 mm and each inch. */
function calibrationBars({ window }: Page): string {
  const top = window.y + window.height + 19;
  const bar = (name: string, x: number, y: number, step: number, count: number, text: string) => {
    const ticks = Array.from({ length: count + 1 }, (_, k) => `M${fixed(x + k * step)},${fixed(y)}v-3`).join(
      "",
    );
    return `<path class="mark" data-bar="${name}" d="M${fixed(x)},${fixed(y)}h${fixed(count * step)}${ticks}"/><text x="${fixed(x + count * step + 3)}" y="${fixed(y)}">${text}</text>`;
  };
  return (
    bar("100mm", window.x + 1, top, 10, 10, "100 mm") + bar("4in", window.x + 1, top + 8, 25.4, 4, "4 in")
  );
}
