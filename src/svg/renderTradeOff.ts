import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { StressTradeOff } from "../fit/stressTradeOff.js";
import { escapeText, fixed } from "./text.js";

export interface RenderTradeOffOptions {
  title?: string;
  /** Prefix of the ids. Default "camround". */
  id?: string;
}

const WIDTH = 640;
const HEIGHT = 400;
const MARGIN = { left: 70, right: 24, top: 48, bottom: 84 };

const STYLE = `
.paper{fill:#fff}
.grid{stroke:#b9c7ce;stroke-width:.75}
.closing{fill:none;stroke:#1b2a33;stroke-width:1.75}
.fitting{fill:none;stroke:#c8742c;stroke-width:1.75;stroke-dasharray:7 4}
.balanced{fill:none;stroke:#1b2a33;stroke-width:1}
text{font-family:Georgia,'DejaVu Serif',serif;font-size:13px;fill:#1b2a33}`;

/** How a ring is spread, in words. */
const BY = { hand: "by hand", pliers: "by pliers", plates: "on plates" };

/**
 * Draws closing and fitting stress over the free gap.
 *
 * @param tradeOff of a section
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 */
export function renderTradeOff(tradeOff: StressTradeOff, options: RenderTradeOffOptions = {}): string {
  const { freeGap, closing, fitting, balanced, diameter, by } = tradeOff;
  const id = escapeText(options.id ?? "camround");
  const title = escapeText(options.title ?? "Closing and fitting stress over the free gap");
  const description = balanced
    ? `Spread ${BY[by]} over ${fixed(diameter)} mm. Both are ${balanced.stress.toFixed(0)} MPa at a free gap of ${balanced.freeGap.toFixed(2)} mm.`
    : `Spread ${BY[by]} over ${fixed(diameter)} mm. The two do not meet in this range.`;
  const x = scaleLinear([0, freeGap[freeGap.length - 1]], [MARGIN.left, WIDTH - MARGIN.right]);
  const y = scaleLinear([0, Math.max(...closing, ...fitting)], [HEIGHT - MARGIN.bottom, MARGIN.top]).nice(5);
  const curve = line<number>()
    .x((_, k) => x(freeGap[k]))
    .y((stress) => y(stress))
    .digits(2);
  const text = (at: number, height: number, words: string, anchor = "middle") =>
    `<text x="${fixed(at)}" y="${fixed(height)}" text-anchor="${anchor}">${words}</text>`;
  const floor = y.range()[0];
  const key = (kind: string, at: number, words: string) =>
    `<path class="${kind}" d="M${at},${HEIGHT - 34}h36"/>${text(at + 44, HEIGHT - 30, words, "start")}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${title}</title>`,
    `<desc id="${id}-desc">${escapeText(description)}</desc>`,
    `<style>${STYLE}</style>`,
    `<rect class="paper" width="${WIDTH}" height="${HEIGHT}"/>`,
    ...y
      .ticks(5)
      .flatMap((tick) => [
        `<path class="grid" d="M${MARGIN.left},${fixed(y(tick))}H${WIDTH - MARGIN.right}"/>`,
        text(MARGIN.left - 8, y(tick) + 4, y.tickFormat(5)(tick), "end"),
      ]),
    ...x
      .ticks(6)
      .map(
        (tick) =>
          `<path class="grid" d="M${fixed(x(tick))},${fixed(floor)}v6"/>${text(x(tick), floor + 20, x.tickFormat(6)(tick))}`,
      ),
    `<path class="closing" d="${curve(closing)}"/>`,
    `<path class="fitting" d="${curve(fitting)}"/>`,
    ...(balanced
      ? [
          `<circle class="balanced" cx="${fixed(x(balanced.freeGap))}" cy="${fixed(y(balanced.stress))}" r="5"/>`,
        ]
      : []),
    text(WIDTH / 2, 20, title),
    text(WIDTH / 2, floor + 38, "free gap, mm; stress in MPa"),
    key("closing", MARGIN.left, "closed in the bore"),
    key("fitting", MARGIN.left + 230, `spread ${BY[by]} over ${fixed(diameter)} mm`),
    text(WIDTH / 2, HEIGHT - 8, escapeText(description)),
    "</svg>",
    "",
  ].join("\n");
}
