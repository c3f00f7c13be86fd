import { areaRadial, lineRadial } from "d3-shape";
import type { RingOverview } from "../overview/ringOverview.js";
import { type Box, decimals, drawnStations, figure, foot, inDegrees, inside } from "./panel.js";
import { fixed } from "./text.js";

/** Of the room: where the ring stands, and how far the highest pressure reaches outward of it. */
const RING = 0.62;
/** Of the ring's radius: its wall as drawn. */
const WALL = 0.08;

/** Contact pressure round the ring: how far the curve stands outward of the ring is the pressure there. */
export function pressurePanel(
  { design, pressure }: Pick<RingOverview, "design" | "pressure">,
  box: Box,
): string {
  const { theta, pressure: p } = design.installed;
  const field = inside(box, 3);
  const room = Math.min(field.width, field.height) / 2 - 0.5;
  const [x, y] = [field.x + field.width / 2, field.y + field.height / 2];
  const R = RING * room;
  const highest = Math.max(...p);
  const out = (value: number) => R + ((room - R) * value) / highest;
  // Their angle runs clockwise from the top; ours counter-clockwise from the back.
  const angle = (at: number) => Math.PI - at;
  const stations = drawnStations(theta.length).reverse();
  const edge = lineRadial<number>()
    .angle((i) => angle(theta[i]))
    .radius((i) => out(p[i]))
    .digits(2);
  const within = areaRadial<number>()
    .angle((i) => angle(theta[i]))
    .innerRadius(R)
    .outerRadius((i) => out(p[i]))
    .digits(2);
  const end = theta[theta.length - 1];
  const face = (radius: number) =>
    lineRadial<number>().angle(angle).radius(radius).digits(2)(
      Array.from({ length: 121 }, (_, k) => end - (2 * end * k) / 120),
    );
  const { mean, lowest, highest: most, relative } = pressure;
  return figure(box, "Pressure on the bore, outward of the ring", [
    `<g transform="translate(${fixed(x)} ${fixed(y)})">`,
    `<path class="band" d="${within(stations)}"/>`,
    `<path class="curve" d="${edge(stations)}"/>`,
    `<path class="thin" d="${face(R)}"/>`,
    `<path class="thin" d="${face(R * (1 - WALL))}"/>`,
    `<circle class="dashed" r="${fixed(out(mean))}"/>`,
    "</g>",
    ...foot(box, [
      `Mean, dashed, ${mean.toPrecision(4)} MPa; at the gap ${relative.atGap.toFixed(3)}, at the back ${relative.atBack.toFixed(3)} of it`,
      `Lowest ${lowest.relative.toFixed(3)} at ${inDegrees(lowest.theta, 0)} from the back, highest ${most.relative.toFixed(3)} at ${inDegrees(most.theta, 0)}`,
      `Tangential force in a tape ${pressure.tape.tangentialForce.toFixed(2)} N, ovality ${decimals(pressure.tape.ovality, 3)} mm`,
    ]),
  ]);
}
