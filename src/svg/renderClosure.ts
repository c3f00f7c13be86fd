import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { Closure } from "../contact/closeInBore.js";
import { escapeText, fixed, idPrefix } from "./text.js";

export interface RenderClosureOptions {
  /** Title, read out by screen readers and printed over the picture. */
  title?: string;
  /** Prefix of the ids; give each its own where several stand in one page. Default "camround". */
  id?: string;
}

const WIDTH = 720;
const HEIGHT = 360;
const MARGIN = { left: 64, right: 18, top: 48, bottom: 76 };

const STYLE = `
.paper{fill:#fff}
.grid{stroke:#b9c7ce;stroke-width:.75}
.pressure{fill:none;stroke:#c8742c;stroke-width:1.75;stroke-linejoin:round}
.light{fill:#f2d675}
.point{stroke:#1b2a33;stroke-width:1.25}
text{font-family:Georgia,'DejaVu Serif',serif;font-size:13px;fill:#1b2a33}`;

/**
 * Draws the contact pressure along the circumference, from the left end over the back to the right end, with the arcs that let
 * light past marked and forces that stand on a point as stems.
 *
 * @param closure a ring in a bore
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 */
export function renderClosure(closure: Closure, options: RenderClosureOptions = {}): string {
  const { theta, pressure, lightGaps, pointForces, contactShare, sensitivity } = closure;
  const id = idPrefix(options.id);
  const title = escapeText(options.title ?? "Contact pressure along the ring");
  const widest = lightGaps.reduce((most, gap) => Math.max(most, gap.largest), 0);
  const description =
    `${(100 * contactShare).toFixed(1)} % of the circumference is light-tight at ${fixed(1000 * sensitivity)} µm; ` +
    `${lightGaps.length} light gaps, the widest ${(1000 * widest).toFixed(1)} µm.`;
  const degrees = (angle: number) => (angle * 180) / Math.PI;
  const end = degrees(theta[theta.length - 1]);
  const x = scaleLinear([-end, end], [MARGIN.left, WIDTH - MARGIN.right]);
  // Point forces stand out as peaks of the nodal pressure; the scale is that of what is spread.
  const sorted = [...pressure].sort((one, other) => one - other);
  const top = Math.max(1.15 * sorted[Math.floor(0.97 * (sorted.length - 1))], 1e-9);
  const y = scaleLinear([0, top], [HEIGHT - MARGIN.bottom, MARGIN.top])
    .nice(5)
    .clamp(true);
  const [floor, ceiling] = [y.range()[0], y.range()[1]];
  const curve = line<number>()
    .x((_, i) => x(degrees(theta[i])))
    .y((p) => y(p))
    .digits(2);
  const text = (at: number, height: number, words: string, anchor = "middle") =>
    `<text x="${fixed(at)}" y="${fixed(height)}" text-anchor="${anchor}">${words}</text>`;
  const label = y.tickFormat(5);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${title}</title>`,
    `<desc id="${id}-desc">${escapeText(description)}</desc>`,
    `<style>${STYLE}</style>`,
    `<rect class="paper" width="${WIDTH}" height="${HEIGHT}"/>`,
    ...lightGaps.map(
      ({ from, to }) =>
        `<rect class="light" x="${fixed(x(degrees(from)))}" y="${fixed(ceiling)}" width="${fixed(x(degrees(to)) - x(degrees(from)))}" height="${fixed(floor - ceiling)}"/>`,
    ),
    ...y
      .ticks(5)
      .flatMap((tick) => [
        `<path class="grid" d="M${MARGIN.left},${fixed(y(tick))}H${WIDTH - MARGIN.right}"/>`,
        text(MARGIN.left - 8, y(tick) + 4, label(tick), "end"),
      ]),
    ...[-180, -90, 0, 90, 180].map((tick) => {
      const at = x(Math.max(-end, Math.min(end, tick)));
      return `<path class="grid" d="M${fixed(at)},${fixed(floor)}v6"/>${text(at, floor + 20, `${tick}°`)}`;
    }),
    `<path class="pressure" d="${curve(pressure)}"/>`,
    ...pointForces.map(({ theta: at, force }) => {
      const place = x(degrees(at));
      return `<path class="point" d="M${fixed(place)},${fixed(floor)}V${fixed(ceiling)}"/>${text(Math.max(MARGIN.left + 16, Math.min(WIDTH - MARGIN.right - 20, place)), ceiling - 4, `${force.toFixed(1)} N`)}`;
    }),
    text(WIDTH / 2, 20, title),
    text(WIDTH / 2, floor + 40, "angle from the back; pressure in MPa; stems are point forces"),
    text(WIDTH / 2, floor + 60, escapeText(description)),
    "</svg>",
    "",
  ].join("\n");
}
