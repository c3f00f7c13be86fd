import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { degrees } from "./chart.js";
import { type Box, drawnStations, figure, inside, SMALL, words } from "./panel.js";
import { fixed } from "./text.js";

/** A quantity along the ring, and the kind of line that shows it. */
export interface Series {
  readonly kind: "curve" | "dashed";
  readonly values: readonly number[];
}

/** Room for the numbers at the left and the angles below, mm. */
const LEFT = 11;
const BELOW = 4;

/** Quantities along the ring, from the left end over the back to the right end. */
export function alongPanel(
  theta: readonly number[],
  series: readonly Series[],
  heading: string,
  box: Box,
): string {
  const field = inside(box);
  const values = series.flatMap((one) => one.values);
  // Rounding is no quantity.
  const largest = Math.max(...values.map(Math.abs));
  const lowest = Math.min(0, ...values.filter((value) => Math.abs(value) > 1e-6 * largest));
  const end = degrees(theta[theta.length - 1]);
  const x = scaleLinear([-end, end], [field.x + LEFT, field.x + field.width - 3]);
  const y = scaleLinear([lowest, Math.max(0, ...values)], [field.y + field.height - BELOW, field.y + 1]).nice(
    4,
  );
  const floor = y.range()[0];
  const label = y.tickFormat(4);
  const drawn = drawnStations(theta.length);
  const curve = (of: readonly number[]) =>
    line<number>()
      .x((i) => x(degrees(theta[i])))
      .y((i) => y(of[i]))
      .digits(2)(drawn);
  return figure(box, heading, [
    ...y
      .ticks(4)
      .flatMap((tick) => [
        `<path class="grid" d="M${fixed(field.x + LEFT, 2)},${fixed(y(tick), 2)}H${fixed(field.x + field.width - 3, 2)}"/>`,
        words(field.x + LEFT - 1, y(tick) + SMALL / 3, label(tick), { anchor: "end", within: LEFT - 1 }),
      ]),
    ...[-180, -90, 0, 90, 180].map((tick) =>
      words(x(Math.max(-end, Math.min(end, tick))), floor + 3.2, `${tick}°`, { anchor: "middle" }),
    ),
    ...series.map(({ kind, values: of }) => `<path class="${kind}" d="${curve(of)}"/>`),
  ]);
}
