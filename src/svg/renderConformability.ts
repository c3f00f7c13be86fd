import { scaleLinear, scaleLog } from "d3-scale";
import { line } from "d3-shape";
import type { Conformability } from "../assess/conformability.js";
import { chart, marks, type RenderOptions, text } from "./chart.js";
import { fixed } from "./text.js";
import { colour, stroke } from "./theme.js";

const FRAME = { width: 640, height: 420, left: 74, right: 24, top: 48, bottom: 84 };

const STYLE = {
  ".limit": stroke("free", 1.75),
  ".dot": colour("fill", "free"),
};

/**
 * Draws the largest amplitude of each harmonic of a bore that the ring follows all round, away from its gap; both that of waves in the worst place.
 * The scale is logarithmic.
 *
 * @param follows from `conformability`
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * renderConformability(conformability(design)).startsWith("<svg "); // true
 */
export function renderConformability(follows: Conformability, options: RenderOptions = {}): string {
  const limits = follows.limits.map(({ order, fullContact }) => ({ order, micrometres: 1000 * fullContact }));
  const [first] = limits;
  const last = limits[limits.length - 1];
  const description = `From ${first.micrometres.toPrecision(3)} µm at order ${first.order} to ${last.micrometres.toPrecision(2)} µm at order ${last.order}; without friction.`;
  const values = limits.map(({ micrometres }) => micrometres).filter((value) => value > 0);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const floor = FRAME.height - FRAME.bottom;
  const x = scaleLinear([first.order - 0.5, last.order + 0.5], [FRAME.left, FRAME.width - FRAME.right]);
  const y = scaleLog(
    [10 ** Math.floor(Math.log10(low)), 10 ** Math.ceil(Math.log10(high))],
    [floor, FRAME.top],
  );
  const decades = y.ticks().filter((tick) => Number.isInteger(Math.round(1e9 * Math.log10(tick)) / 1e9));
  const shown = limits.filter(({ micrometres }) => micrometres > 0);
  const curve = line<(typeof limits)[number]>()
    .x(({ order }) => x(order))
    .y(({ micrometres }) => y(micrometres))
    .digits(2);
  return chart(FRAME, options, "How far the ring follows a bore out of round", description, STYLE, [
    ...decades.flatMap((tick) => [
      `<path class="grid" d="M${FRAME.left},${fixed(y(tick))}H${FRAME.width - FRAME.right}"/>`,
      text(FRAME.left - 8, y(tick) + 4, fixed(tick, 6), "end"),
    ]),
    ...marks(
      x,
      floor,
      limits.map(({ order }) => [order, String(order)]),
    ),
    `<path class="limit" d="${curve(shown)}"/>`,
    ...shown.map(
      ({ order, micrometres }) =>
        `<circle class="dot" cx="${fixed(x(order))}" cy="${fixed(y(micrometres))}" r="4"/>`,
    ),
    text(FRAME.width / 2, floor + 40, "order of the harmonic; amplitude in µm"),
  ]);
}
