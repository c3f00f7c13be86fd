import { scaleLinear } from "d3-scale";
import { area, line } from "d3-shape";
import type { Comparison } from "../scan/compareRings.js";
import { chart, degrees, levels, quarterTurns, type RenderOptions, text } from "./chart.js";
import { colour, stroke } from "./theme.js";

const FRAME = { width: 720, height: 760, left: 64, right: 18 };
/** Tops of the panels, and how high each is. */
const PANELS = [62, 294, 526];
const HEIGHT = 158;
/** A panel shows a range of some of this at least, µm or MPa: what is less is rounding. */
const LEAST = 0.1;

const STYLE = {
  ".made": `${stroke("free", 1.75)};stroke-linejoin:round`,
  ".drawn": stroke("ink", 1.25, "7 4"),
  ".band": `${colour("fill", "free")};fill-opacity:.22`,
};

/**
 * Draws a ring as made beside its drawing, from the left end over the back to the right end: how far its outer face lies off, the pressure
 * that it makes with the measurement's band, and the change of bend radius that would bring the next one home.
 *
 * @param comparison from `compareRings`
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 *
 * @example
 * const made = designRing({ ...spec, load: { contactPressure: 0.14 } }); // or from ringFromScan
 * renderComparison(compareRings(made, design)).startsWith("<svg "); // true
 */
export function renderComparison(comparison: Comparison, options: RenderOptions = {}): string {
  const { theta, deviation, largestDeviation, pressure, tangentialForce, correction } = comparison;
  const micrometres = (value: number) => 1000 * value;
  const description =
    `Outer face off by up to ${micrometres(largestDeviation).toFixed(1)} µm; tangential force ` +
    `${tangentialForce.made.toFixed(2)} N, as drawn ${tangentialForce.drawn.toFixed(2)} N.`;
  const end = degrees(theta[theta.length - 1]);
  const x = scaleLinear([-end, end], [FRAME.left, FRAME.width - FRAME.right]);
  const { before, now } = correction.bendRadius;
  const change = now.map((radius, i) => micrometres(radius - before[i]));
  const panel = (
    at: number,
    heading: string,
    series: readonly (readonly number[])[],
    curves: (y: typeof x) => string[],
  ) => {
    const values = series.flat();
    const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
    const room = Math.max(high - low, LEAST) * 0.05;
    const y = scaleLinear([low < 0 ? low - room : 0, high + room], [at + HEIGHT, at])
      .nice(4)
      .clamp(true);
    return [
      text(FRAME.left, at - 8, heading, "start"),
      ...levels(y, FRAME, 4),
      ...quarterTurns(x, at + HEIGHT, end),
      ...curves(y),
    ];
  };
  const curve = (kind: string, values: readonly number[], y: typeof x) => {
    const path = line<number>()
      .x((_, i) => x(degrees(theta[i])))
      .y((value) => y(value))
      .digits(2);
    return `<path class="${kind}" d="${path(values)}"/>`;
  };
  const { made, drawn, band } = pressure;
  const [lower, upper] = [-1, 1].map((side) => made.map((p, i) => Math.max(0, p + side * band[i])));
  // Forces on a point, where the ring lifts, would hide the rest.
  const usual = [...upper].sort((one, other) => one - other)[Math.floor(0.97 * (upper.length - 1))];
  const within = (y: typeof x) =>
    area<number>()
      .x((_, i) => x(degrees(theta[i])))
      .y0((_, i) => y(lower[i]))
      .y1((_, i) => y(upper[i]))
      .digits(2)(made);
  return chart(FRAME, options, "The ring as made and as drawn", description, STYLE, [
    ...panel(PANELS[0], "outer face, outward of the drawing, µm", [deviation.map(micrometres)], (y) => [
      curve("made", deviation.map(micrometres), y),
    ]),
    ...panel(
      PANELS[1],
      "pressure, MPa: as made with its band; as drawn, dashed",
      [[1.3 * usual], drawn],
      (y) => [`<path class="band" d="${within(y)}"/>`, curve("drawn", drawn, y), curve("made", made, y)],
    ),
    ...panel(PANELS[2], "bend radius of the next ring, change in µm", [change], (y) => [
      curve("made", change, y),
    ]),
    text(FRAME.width / 2, FRAME.height - 34, "angle from the back"),
  ]);
}
