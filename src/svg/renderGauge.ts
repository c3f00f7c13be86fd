import type { RingDesign } from "../design/ringDesign.js";
import { SpecError } from "../spec/error.js";
import { circlePath } from "./curvePaths.js";
import { escapeText, fixed, idPrefix } from "./text.js";

const ADVICE = "cut on the lines; finish and measure before use";

/** How a gauge for the closed ring is drawn. */
export interface RenderGaugeOptions {
  /** How much the closed gap may be off, either way, mm; above 0 and below the closed gap. */
  gapTolerance: number;
  /** Title, for screen readers and file lists. */
  title?: string;
  /** Prefix of the ids. Default "camround". */
  id?: string;
}

/**
 * Outlines of a go/no-go gauge for the closed ring, in true size, to be cut from plate: a ring gauge with the bore, and a blade whose one end, as
 * wide as the smallest gap allowed, must go between the ring's ends in the gauge, and whose other end, as wide as the largest, must not.
 *
 * @param design the ring
 * @param options tolerance of the gap, mm; title and prefix of the ids
 * @returns an SVG document in which one user unit is 1 mm; ids are the prefix and "-plate", "-bore", "-blade"
 * @throws SpecError when the tolerance is not between 0 and the closed gap
 *
 * @example
 * renderGauge(design, { gapTolerance: 0.05 }).includes("camround-blade"); // true
 */
export function renderGauge({ spec }: Pick<RingDesign, "spec">, options: RenderGaugeOptions): string {
  const { bore, closedGap, section } = spec;
  const { gapTolerance } = options;
  if (!(typeof gapTolerance === "number" && gapTolerance > 0 && gapTolerance < closedGap)) {
    throw new SpecError(
      "gapTolerance",
      gapTolerance,
      `must be above 0 and below the closed gap, ${closedGap} mm`,
    );
  }
  const R = bore / 2;
  const rim = Math.max(10, bore / 8);
  const [go, noGo] = [closedGap - gapTolerance, closedGap + gapTolerance];
  // Tongues reach through the wall; the handle is wide enough to hold.
  const tongue = 1.5 * section.radialThickness;
  const handle = { length: Math.max(40, bore / 4), width: Math.max(12, 3 * noGo) };
  const type = Math.max(3, bore / 40);
  const outer = R + rim;
  const bladeY = outer + rim + handle.width / 2;
  const [top, bottom] = [-outer - rim, bladeY + handle.width / 2 + 5 * type];
  const reach = Math.max(outer, handle.length / 2 + tongue) + rim;
  const [width, height] = [2 * reach, bottom - top].map((length) => fixed(length));
  const id = idPrefix(options.id);
  const title = escapeText(
    options.title ??
      `Gauge for the closed ring, bore Ø${fixed(bore)} mm, gap ${fixed(closedGap)} ± ${fixed(gapTolerance)} mm`,
  );
  const six = (value: number) => fixed(value, 6);
  const half = handle.length / 2;
  const blade =
    `M${six(-half)},${six(bladeY - handle.width / 2)}H${six(half)}V${six(bladeY - noGo / 2)}h${six(tongue)}v${six(noGo)}h${six(-tongue)}` +
    `V${six(bladeY + handle.width / 2)}H${six(-half)}V${six(bladeY + go / 2)}h${six(-tongue)}v${six(-go)}h${six(tongue)}Z`;
  const text = (x: number, y: number, words: string, size = type) =>
    `<text x="${fixed(x)}" y="${fixed(y)}" text-anchor="middle" font-size="${fixed(size)}">${words}</text>`;
  /** No wider than the hole. */
  const smaller = (words: string) => Math.min(type, (1.6 * R) / (0.66 * words.length));
  const under = bladeY + handle.width / 2 + 1.5 * type;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${fixed(-reach)} ${fixed(top)} ${width} ${height}" role="img" aria-labelledby="${id}-title">`,
    `<title id="${id}-title">${title}</title>`,
    "<style>path{fill:none;stroke:#000;stroke-width:.13}text{font-family:'DejaVu Sans',Helvetica,Arial,sans-serif;fill:#000}</style>",
    `<rect x="${fixed(-reach)}" y="${fixed(top)}" width="${width}" height="${height}" fill="#fff"/>`,
    `<path id="${id}-plate" d="${circlePath(outer)}"/>`,
    `<path id="${id}-bore" d="${circlePath(R)}"/>`,
    `<path id="${id}-blade" d="${blade}"/>`,
    text(0, 0, title, smaller(title)),
    text(0, 1.8 * type, ADVICE, smaller(ADVICE)),
    text(-half, under, `go: ${fixed(go)} mm`),
    text(half, under, `no go: ${fixed(noGo)} mm`),
    "</svg>",
    "",
  ].join("\n");
}
