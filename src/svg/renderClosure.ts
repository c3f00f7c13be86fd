import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { Closure } from "../contact/closeInBore.js";
import { chart, degrees, levels, quarterTurns, type RenderOptions, text } from "./chart.js";
import { fixed } from "./text.js";
import { colour, stroke } from "./theme.js";

const FRAME = { width: 720, height: 360, left: 64, right: 18, top: 48, bottom: 76 };

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
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 */
export function renderClosure(closure: Closure, options: RenderOptions = {}): string {
  const { theta, pressure, lightGaps, pointForces, contactShare, sensitivity } = closure;
  const widest = lightGaps.reduce((most, gap) => Math.max(most, gap.largest), 0);
  const description =
    `${(100 * contactShare).toFixed(1)} % of the circumference is light-tight at ${fixed(1000 * sensitivity)} µm; ` +
    `${lightGaps.length} light gaps, the widest ${(1000 * widest).toFixed(1)} µm.`;
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
    ...pointForces.map(({ theta: at, force }) => {
      const place = x(degrees(at));
      return `<path class="point" d="M${fixed(place)},${fixed(floor)}V${fixed(ceiling)}"/>${text(Math.max(FRAME.left + 16, Math.min(FRAME.width - FRAME.right - 20, place)), ceiling - 4, `${force.toFixed(1)} N`)}`;
    }),
    text(FRAME.width / 2, floor + 40, "angle from the back; pressure in MPa; stems are point forces"),
  ]);
}
