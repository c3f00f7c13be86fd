import { lineCubics, outlineCubics } from "../curves/beziers.js";
import type { FitOptions } from "../curves/fitRing.js";
import type { FreeBody } from "../curves/ringFaces.js";
import { circlePath, cubicPath } from "./curvePaths.js";
import { extentsOf } from "./paths.js";
import { escapeText, fixed, idPrefix } from "./text.js";

/** How the curves of a ring are drawn for a machine. */
export interface RenderOutlineOptions extends FitOptions {
  /** Title, for screen readers and file lists. */
  title?: string;
  /** Prefix of the ids; give each drawing its own where several stand in one page. Default "camround". */
  id?: string;
}

/**
 * The free ring's curves alone, for a machine: closed outline with the ends as cut, line at mid wall and bore, as paths of cubic Béziers.
 * One user unit is 1 mm, and so it is printed. The ids are the prefix and "-outline", "-line", "-bore".
 *
 * @param ring a design
 * @param options tolerance (mm, default 0.001), metal on the faces, title, prefix of ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 * @throws SpecError when the tolerance is outside its range
 * @throws NotFound when no number of curves comes within the tolerance
 *
 * @example
 * renderOutline(design, { tolerance: 0.001 }).includes("camround-outline"); // true
 */
export function renderOutline(ring: FreeBody, options: RenderOutlineOptions = {}): string {
  const R = ring.installed.outerRadius;
  const margin = R / 20 + Math.max(0, options.added?.outer ?? 0);
  const extents = extentsOf(ring);
  const [reach, top, bottom] = [extents.side + margin, extents.top + margin, extents.bottom + margin];
  const [width, height] = [2 * reach, top + bottom].map((length) => fixed(length));
  const id = idPrefix(options.id);
  const title = escapeText(options.title ?? "Free ring: outline, mid wall and bore, 1 unit = 1 mm");
  const path = (name: string, d: string) => `<path id="${id}-${name}" class="${name}" d="${d}"/>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${fixed(-reach)} ${fixed(-top)} ${width} ${height}" role="img" aria-labelledby="${id}-title">`,
    `<title id="${id}-title">${title}</title>`,
    `<g fill="none" stroke="#000" stroke-width="${fixed(R / 600)}">`,
    path("outline", cubicPath(outlineCubics(ring, options))),
    path("line", cubicPath(lineCubics(ring, options))),
    path("bore", circlePath(R)),
    "</g>",
    "</svg>",
    "",
  ].join("\n");
}
