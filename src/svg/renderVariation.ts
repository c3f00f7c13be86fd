import { scaleLinear } from "d3-scale";
import type { Variation } from "../batch/summary.js";
import { chart, marks, type RenderOptions, text } from "./chart.js";
import { escapeText, fixed } from "./text.js";
import { colour, stroke } from "./theme.js";
import { OUTCOME_WORDS, shownFactors } from "./variationWords.js";

const WIDTH = 760;
/** Height of a row, of its picture, and what stands above and below all rows. */
const ROW = 112;
const PICTURE = 58;
const MARGIN = { left: 36, top: 84, bottom: 34 };
/** Right end of the histograms; the bars stand beyond. */
const HISTOGRAM = 370;
const BARS = { from: 520, to: 736, height: 11 };
/** Factors shown beside each outcome. */
const MOST_FACTORS = 5;

const STYLE = {
  ".count": colour("fill", "closed"),
  ".own": colour("fill", "free"),
  ".total": `${colour("fill", "free")};fill-opacity:.35`,
  ".limit": stroke("ink", 1.25, "5 3"),
};

/**
 * Draws how each outcome of a batch is spread, limits dashed, and beside it what it owes to each factor: by itself in full colour, together with
 * others in pale. Factors that it owes hardly anything to are left out, and all of them where one's share is in too much doubt.
 *
 * @param batch from `variation`
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * renderVariation(variation(spec, { freeGap: 0.3 }, { samples: 8 })).startsWith("<svg "); // true
 */
export function renderVariation(batch: Variation, options: RenderOptions = {}): string {
  const { plan, variants, outcomes, inside } = batch;
  const names = Object.keys(OUTCOME_WORDS) as (keyof typeof OUTCOME_WORDS)[];
  const height = MARGIN.top + names.length * ROW + MARGIN.bottom;
  const description =
    `${variants.all} variants, ${variants.butts} butt, ${variants.loose} are loose; ` +
    `${(100 * inside).toFixed(1)} % are within all limits.`;
  const rows = names.flatMap((name, k) => {
    const { histogram, least, most } = outcomes[name];
    const { words, unit } = OUTCOME_WORDS[name];
    const top = MARGIN.top + k * ROW;
    const floor = top + PICTURE;
    const alike = !(most > least);
    const x = scaleLinear([least, alike ? least + 1 : most], [MARGIN.left, HISTOGRAM]);
    const tallest = Math.max(...histogram);
    const step = (HISTOGRAM - MARGIN.left) / histogram.length;
    const limit = plan.limits[name];
    const lines = [limit?.min, limit?.max].flatMap((value) =>
      value !== undefined && value >= least && value <= most
        ? [`<path class="limit" d="M${fixed(x(value))},${fixed(top)}V${fixed(floor)}"/>`]
        : [],
    );
    const share = scaleLinear([0, 1], [BARS.from, BARS.to]).clamp(true);
    const factors = shownFactors(outcomes[name]).slice(0, MOST_FACTORS);
    return [
      text(MARGIN.left, top - 8, unit === undefined ? words : `${words}, ${unit}`, "start"),
      ...histogram.map((count, i) =>
        count === 0
          ? ""
          : `<rect class="count" x="${fixed(MARGIN.left + i * step)}" y="${fixed(floor - (PICTURE * count) / tallest)}" width="${fixed(step)}" height="${fixed((PICTURE * count) / tallest)}"/>`,
      ),
      `<path class="grid" d="M${MARGIN.left},${floor}H${HISTOGRAM}"/>`,
      ...marks(
        x,
        floor,
        alike ? [[least, `all ${fixed(least)}`]] : x.ticks(5).map((tick) => [tick, x.tickFormat(5)(tick)]),
      ),
      ...lines,
      ...factors.flatMap(([factor, { first, total }], i) => {
        const y = top - 6 + i * (BARS.height + 5);
        const bar = (kind: string, value: number) =>
          `<rect class="${kind}" x="${BARS.from}" y="${fixed(y)}" width="${fixed(Math.max(0, share(value) - BARS.from))}" height="${BARS.height}"/>`;
        return [
          text(BARS.from - 8, y + BARS.height - 1, escapeText(factor), "end"),
          bar("total", total),
          bar("own", Math.min(first, total)),
        ];
      }),
    ].filter((element) => element !== "");
  });
  return chart(
    { width: WIDTH, height, left: MARGIN.left, right: 0 },
    options,
    "The spread of a batch",
    description,
    STYLE,
    [
      text(MARGIN.left, 48, "how often; limits dashed", "start"),
      text(BARS.from, 48, "share of its variance owed to;", "start"),
      text(BARS.from, 64, "pale: together with others", "start"),
      ...rows,
    ],
  );
}
