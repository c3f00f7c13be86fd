import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { Closure } from "../contact/closeInBore.js";
import { chart, degrees, levels, quarterTurns, type RenderOptions, text } from "./chart.js";
import { fixed } from "./text.js";
import { colour, stroke } from "./theme.js";

const FRAME = { width: 720, height: 372, left: 64, right: 18, top: 60, bottom: 76 };

const STYLE = {
  ".pressure": `${stroke("free", 1.75)};stroke-linejoin:round`,
  ".light": colour("fill", "light"),
  ".point": stroke("ink", 1.25),
};

/**
 * Draws the contact pressure along the circumference, from the left end over the back to the right end, with the arcs that let
 * light past marked and forces that stand on a point as stems.
 *
 * @param closure a ring in a bore
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * renderClosure(closeInBore(design, { diameter: 118.05 }), { title: "Worn bore" }).startsWith("<svg "); // true
 */
export function renderClosure(closure: Closure, options: RenderOptions = {}): string {
  const { theta, pressure, lightGaps, pointForces, contactShare, sensitivity } = closure;
  const widest = lightGaps.reduce((most, gap) => Math.max(most, gap.largest), 0);
  const description =
    `${(100 * contactShare).toFixed(1)} % of the circumference is light-tight at ${fixed(1000 * sensitivity)} µm; ` +
    (lightGaps.length === 0
      ? "no light gap."
      : `${lightGaps.length} light gap${lightGaps.length === 1 ? "" : "s"}, the widest ${(1000 * widest).toFixed(1)} µm.`);
  const end = degrees(theta[theta.length - 1]);
  const x = scaleLinear([-end, end], [FRAME.left, FRAME.width - FRAME.right]);
  // Point forces stand out as peaks of the nodal pressure; the scale is that of what is spread.
  const sorted = [...pressure].sort((one, other) => one - other);
  const usual = sorted[Math.floor(0.97 * (sorted.length - 1))];
  const largest = Math.max(sorted[sorted.length - 1], 1e-9);
  const top = usual > 1e-3 * largest ? 1.15 * usual : largest;
  const y = scaleLinear([0, top], [FRAME.height - FRAME.bottom, FRAME.top])
    .nice(5)
    .clamp(true);
  const [floor, ceiling] = [y.range()[0], y.range()[1]];
  const curve = line<number>()
    .x((_, i) => x(degrees(theta[i])))
    .y((p) => y(p))
    .digits(2);
  return chart(FRAME, options, "Contact pressure along the ring", description, STYLE, [
    ...lightGaps.map(
      ({ from, to }) =>
        `<rect class="light" x="${fixed(x(degrees(from)))}" y="${fixed(ceiling)}" width="${fixed(x(degrees(to)) - x(degrees(from)))}" height="${fixed(floor - ceiling)}"/>`,
    ),
    ...levels(y, FRAME),
    ...quarterTurns(x, floor, end),
    `<path class="pressure" d="${curve(pressure)}"/>`,
    ...pointForces.map(
      ({ theta: at }) =>
        `<path class="point" d="M${fixed(x(degrees(at)))},${fixed(floor)}V${fixed(ceiling)}"/>`,
    ),
    ...inRows(pointForces.map(({ theta: at }) => x(degrees(at)))).map(({ place, row }, i) =>
      row < ROWS ? text(place, ceiling - 4 - row * ROW, `${pointForces[i].force.toFixed(1)} N`) : "",
    ),
    text(FRAME.width / 2, floor + 40, "angle from the back; pressure in MPa; stems are point forces"),
  ]);
}

/** Rows of labels over the chart, how high they are and how far labels of one row must lie apart. */
const ROWS = 2;
const ROW = 13;
const APART = 48;

/** Places of labels within the frame, from left to right, each in the first row that has room; beyond the last one where none has. */
function inRows(places: readonly number[]): { place: number; row: number }[] {
  const ends = new Array<number>(ROWS).fill(Number.NEGATIVE_INFINITY);
  return places.map((given) => {
    const place = Math.max(FRAME.left + 16, Math.min(FRAME.width - FRAME.right - 20, given));
    const free = ends.findIndex((end) => place - end >= APART);
    if (free >= 0) ends[free] = place;
    return { place, row: free < 0 ? ROWS : free };
  });
}
