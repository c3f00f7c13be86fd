import { scaleLinear } from "d3-scale";
import type { RingDesign } from "../design/ringDesign.js";
import type { Point } from "../numeric/point.js";
import type { RenderOptions } from "./chart.js";
import { bodyPath, closedBodyPath, extentsOf } from "./paths.js";
import { escapeText, fixed, idPrefix } from "./text.js";
import { colour, LETTERS, styleSheet } from "./theme.js";

const STYLE = {
  ".paper": colour("fill", "paper"),
  ".line": `fill:none;${colour("stroke", "ink")}`,
  ".bore": colour("stroke", "bore"),
  ".free": `${colour("fill", "free")};fill-opacity:.85;${colour("stroke", "ink")}`,
  ".closed": `${colour("fill", "closed")};${colour("stroke", "ink")}`,
  ".fill": colour("fill", "ink"),
  text: LETTERS,
};

/**
 * Draws the free ring as cut over the same ring closed in its bore, backs together as in the design's frame.
 * One user unit is 1 mm; a reader may scale the picture, so it is not a template.
 *
 * @param design the ring
 * @param options title and id prefix
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * const picture = renderRing(design, { title: "Ferry ring" });
 * picture.startsWith("<svg "); // true
 */
export function renderRing(design: RingDesign, options: RenderOptions = {}): string {
  const { spec, installed, free, outline, load } = design;
  const { bore, closedGap, section } = spec;
  const R = installed.outerRadius;
  const type = bore / 32;
  const mm = (value: number, digits = 2) => `${value.toFixed(digits)} mm`;
  const id = idPrefix(options.id);
  const title = escapeText(
    options.title ??
      `Ring Ø${fixed(bore)} × ${fixed(section.radialThickness)} × ${fixed(section.axialHeight)} mm, free and in its bore`,
  );
  const description =
    `The free ring, with a gap of ${mm(free.gap)} between its ends, over the same ring closed to a circle in a bore of ${mm(bore)}, ` +
    `with a gap of ${mm(closedGap)}. Tangential force ${load.tangentialForce.toFixed(2)} N, contact pressure ${load.contactPressure.toFixed(4)} MPa.`;

  const extents = extentsOf(design);
  const halfWidth = extents.side + 2 * type;
  const tips: Point[] = [0, free.x.length - 1].map((end) => [free.x[end], -free.y[end]]);
  const dimensionY = -(extents.top + 1.6 * type);
  const frameTop = dimensionY - 4.6 * type;
  const bottom = extents.bottom + type;
  const frameHeight = bottom + 5 * type - frameTop;

  const text = (x: number, y: number, words: string, anchor = "middle", size = type) =>
    `<text x="${fixed(x)}" y="${fixed(y)}" text-anchor="${anchor}" font-size="${fixed(size)}">${words}</text>`;
  const path = (kind: string, d: string) => `<path class="${kind}" d="${d}"/>`;
  const gapTop = -(R - section.radialThickness);

  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${id}" viewBox="${[-halfWidth, frameTop, 2 * halfWidth, frameHeight].map((value) => fixed(value)).join(" ")}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${title}</title>`,
    `<desc id="${id}-desc">${escapeText(description)}</desc>`,
    styleSheet(id, STYLE),
    `<rect class="paper" x="${fixed(-halfWidth)}" y="${fixed(frameTop)}" width="${fixed(2 * halfWidth)}" height="${fixed(frameHeight)}"/>`,
    `<g stroke-width="${fixed(type / 24)}">`,
    path("closed", closedBodyPath(design)),
    path("free", bodyPath(outline)),
    `<circle class="line bore" r="${fixed(R)}" stroke-width="${fixed(type / 12)}"/>`,
    axes(dimensionY - 0.6 * type, bottom, R + type, type),
    freeGapDimension(tips, dimensionY, type),
    text((tips[0][0] + tips[1][0]) / 2, dimensionY - 1.1 * type, `free gap ${mm(free.gap)}`),
    path(
      "line",
      `M${fixed(closedGap / 2)},${fixed(gapTop)}L${fixed(1.2 * type)},${fixed(gapTop + 6.4 * type)}`,
    ),
    text(1.4 * type, gapTop + 7.4 * type, `closed gap ${mm(closedGap)}`, "start"),
    text(type, -type, `bore Ø ${fixed(bore)} mm`, "start"),
    text(type, 1.8 * type, `Ft = ${load.tangentialForce.toFixed(2)} N`, "start"),
    text(type, 3.3 * type, `p0 = ${load.contactPressure.toPrecision(3)} MPa`, "start"),
    text(0, frameTop + 1.6 * type, title, "middle", Math.min(1.2 * type, (3.2 * halfWidth) / title.length)),
    keyAndScale(halfWidth - type, bottom + 1.4 * type, type, bore),
    "</g>",
    "</svg>",
    "",
  ].join("\n");
}

/** Symmetry axis through the gap and the axis across it, as long-dashed dotted lines. */
function axes(top: number, bottom: number, reach: number, type: number): string {
  const dashes = [3, 0.6, 0.4, 0.6].map((part) => fixed(part * type)).join(" ");
  return `<path class="line" stroke-dasharray="${dashes}" d="M0,${fixed(top)}V${fixed(bottom)}M${fixed(-reach)},0H${fixed(reach)}"/>`;
}

/** Extension lines from the free ends, dimension line with arrowheads; outside the lines where the gap is narrow. */
function freeGapDimension([[leftX, leftY], [rightX, rightY]]: Point[], y: number, type: number): string {
  const head = 0.6 * type;
  const outside = rightX - leftX < 4 * head;
  const way = outside ? -1 : 1;
  const arrow = (tip: number, direction: number) =>
    `M${fixed(tip)},${fixed(y)}l${fixed(direction * head)},${fixed(head / 4)}v${fixed(-head / 2)}Z`;
  const reach = outside ? 3 * head : 0;
  const extension = (at: number, from: number) => `M${fixed(at)},${fixed(from)}V${fixed(y - head)}`;
  return (
    `<path class="line" d="${extension(leftX, leftY)}${extension(rightX, rightY)}M${fixed(leftX - reach)},${fixed(y)}H${fixed(rightX + reach)}"/>` +
    `<path class="fill" d="${arrow(leftX, way)}${arrow(rightX, -way)}"/>`
  );
}

/** What the two fills mean, and a scale bar of a round length. */
function keyAndScale(halfWidth: number, y: number, type: number, bore: number): string {
  const scale = scaleLinear([0, bore / 3], [0, bore / 3]);
  const ticks = scale.ticks(2);
  const length = ticks[ticks.length - 1];
  const swatch = (kind: string, row: number, words: string) =>
    `<rect class="${kind}" x="${fixed(-halfWidth)}" y="${fixed(y + row * 1.5 * type - 0.8 * type)}" width="${fixed(1.6 * type)}" height="${fixed(0.9 * type)}"/>` +
    `<text x="${fixed(2.1 * type - halfWidth)}" y="${fixed(y + row * 1.5 * type)}" font-size="${fixed(0.9 * type)}">${words}</text>`;
  const [from, to] = [halfWidth - length, halfWidth];
  const bar = `M${fixed(from)},${fixed(y - 0.4 * type)}V${fixed(y)}H${fixed(to)}V${fixed(y - 0.4 * type)}`;
  return [
    swatch("free", 0, "free, as cut"),
    swatch("closed", 1, "closed in the bore"),
    `<path class="line" d="${bar}"/>`,
    `<text x="${fixed(halfWidth - length / 2)}" y="${fixed(y + 1.4 * type)}" text-anchor="middle" font-size="${fixed(0.9 * type)}">${scale.tickFormat()(length)} mm</text>`,
  ].join("\n");
}
