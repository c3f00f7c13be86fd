import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { StressTradeOff } from "../fit/stressTradeOff.js";
import { chart, levels, marks, type RenderOptions, text } from "./chart.js";
import { fixed } from "./text.js";
import { stroke } from "./theme.js";

const FRAME = { width: 640, height: 412, left: 70, right: 24, top: 48, bottom: 96 };

const STYLE = {
  ".closing": stroke("ink", 1.75),
  ".fitting": stroke("free", 1.75, "7 4"),
  ".balanced": stroke("ink", 1),
};

/** How a ring is spread, in words. */
const BY = { hand: "by hand", pliers: "by pliers", plates: "on plates" };

/**
 * Draws closing and fitting stress over the free gap.
 *
 * @param tradeOff of a section
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * renderTradeOff(stressTradeOff(spec, { diameter: 117.4, count: 3 })).startsWith("<svg "); // true
 */
export function renderTradeOff(tradeOff: StressTradeOff, options: RenderOptions = {}): string {
  const { freeGap, closing, fitting, balanced, diameter, by } = tradeOff;
  const description = balanced
    ? `Spread ${BY[by]} over ${fixed(diameter)} mm. Both are ${balanced.stress.toFixed(0)} MPa at a free gap of ${balanced.freeGap.toFixed(2)} mm.`
    : `Spread ${BY[by]} over ${fixed(diameter)} mm. The two do not meet in this range.`;
  const x = scaleLinear([0, freeGap[freeGap.length - 1]], [FRAME.left, FRAME.width - FRAME.right]);
  const y = scaleLinear([0, Math.max(...closing, ...fitting)], [FRAME.height - FRAME.bottom, FRAME.top]).nice(
    5,
  );
  const curve = line<number>()
    .x((_, k) => x(freeGap[k]))
    .y((stress) => y(stress))
    .digits(2);
  const floor = y.range()[0];
  const key = (kind: string, at: number, words: string) =>
    `<path class="${kind}" d="M${at},${FRAME.height - 40}h36"/>${text(at + 44, FRAME.height - 36, words, "start")}`;
  return chart(FRAME, options, "Closing and fitting stress over the free gap", description, STYLE, [
    ...levels(y, FRAME),
    ...marks(
      x,
      floor,
      x.ticks(6).map((tick) => [tick, x.tickFormat(6)(tick)]),
    ),
    `<path class="closing" d="${curve(closing)}"/>`,
    `<path class="fitting" d="${curve(fitting)}"/>`,
    ...(balanced
      ? [
          `<circle class="balanced" cx="${fixed(x(balanced.freeGap))}" cy="${fixed(y(balanced.stress))}" r="5"/>`,
        ]
      : []),
    text(FRAME.width / 2, floor + 38, "free gap, mm; stress in MPa"),
    key("closing", FRAME.left, "closed in the bore"),
    key("fitting", FRAME.left + 230, `spread ${BY[by]} over ${fixed(diameter)} mm`),
  ]);
}
