import { lineRadial } from "d3-shape";
import type { Comparison } from "../scan/compareRings.js";
import { chart, type RenderOptions, text } from "./chart.js";
import { fixed } from "./text.js";
import { stroke } from "./theme.js";

const FRAME = { width: 560, height: 600, left: 0, right: 0 };
const CENTRE = { x: 280, y: 300 };
/** Radius of the drawn face on the picture, and how far the largest deviation may reach from it. */
const RING = 190;
const REACH = 52;

const STYLE = {
  ".made": `${stroke("free", 1.75)};stroke-linejoin:round`,
  ".drawn": stroke("ink", 1.25, "7 4"),
};

/**
 * Draws the outer face as made over that as drawn, which stands as a circle, with the distance between them magnified by a round factor that is
 * stated.
 *
 * @param comparison from `compareRings`
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * const made = designRing({ ...spec, load: { contactPressure: 0.14 } }); // or from ringFromScan
 * renderDeviation(compareRings(made, design)).startsWith("<svg "); // true
 */
export function renderDeviation(comparison: Comparison, options: RenderOptions = {}): string {
  const { theta, deviation, largestDeviation, outerRadius } = comparison;
  const scale = RING / outerRadius;
  const factor = roundBelow(REACH / (scale * Math.max(largestDeviation, 1e-6)));
  const description = `Deviations drawn ${factor} times too large for the ring; the largest is ${(1000 * largestDeviation).toFixed(1)} µm.`;
  // Their angle runs clockwise from the top; ours counter-clockwise from the back.
  const face = (off: (i: number) => number) =>
    lineRadial<number>()
      .angle((i) => Math.PI - theta[i])
      .radius((i) => RING + scale * factor * off(i))
      .digits(2)(theta.map((_, i) => i));
  const step = roundBelow(REACH / (scale * factor * 2));
  return chart(FRAME, options, "Outer face as made, over the drawing", description, STYLE, [
    `<g transform="translate(${CENTRE.x} ${CENTRE.y})">`,
    ...[-1, 1].map(
      (side) => `<circle class="grid" fill="none" r="${fixed(RING + side * scale * factor * step, 2)}"/>`,
    ),
    `<path class="drawn" d="${face(() => 0)}"/>`,
    `<path class="made" d="${face((i) => deviation[i])}"/>`,
    "</g>",
    text(CENTRE.x, CENTRE.y - 12, `magnified ${factor} times`),
    text(CENTRE.x, CENTRE.y + 24, `thin circles ± ${fixed(1000 * step)} µm`),
  ]);
}

/** The largest of 1, 2 or 5 times a power of ten that is not above a number. */
function roundBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const digit = [5, 2, 1].find((one) => one * power <= value * (1 + 1e-12)) ?? 1;
  return Number((digit * power).toPrecision(1));
}
