import { outlineCubics } from "../curves/beziers.js";
import type { RingDesign } from "../design/ringDesign.js";
import type { Point } from "../numeric/point.js";
import { cubicPath } from "./curvePaths.js";
import {
  type Box,
  dimension,
  figure,
  foot,
  inDegrees,
  inside,
  scaleInWords,
  standardScale,
} from "./panel.js";
import { bodyPath, closedBodyPath, extentsOf } from "./paths.js";
import { fixed } from "./text.js";

/** How far a drawn curve may lie from the true one on paper, mm. */
const ON_PAPER = 0.01;

/** The free ring over the closed one, backs together, to a standard scale, with its dimensions. */
export function ringPanel(design: RingDesign, box: Box): string {
  const { spec, outline, free, ends } = design;
  const field = inside(box, 3);
  const { side: reach, top, bottom } = extentsOf(design);
  const scale = Math.min(
    standardScale(2 * reach, field.width - 4),
    standardScale(top + bottom, field.height - DIMENSION - 2),
  );
  const centre: Point = [field.x + field.width / 2, field.y + DIMENSION + 1 + scale * top];
  const onPaper = ([x, y]: Point): Point => [centre[0] + scale * x, centre[1] - scale * y];
  const last = free.x.length - 1;
  const tips = [0, last].map((end) => onPaper([free.x[end], free.y[end]]));
  const path = (kind: string, d: string) => `<path class="${kind}" d="${d}"/>`;
  const tolerance = Math.min(spec.bore / 100, Math.max(1e-5, ON_PAPER / scale));
  const mm = (value: number) => `${value.toFixed(2)} mm`;
  return figure(box, `Free and in its bore, ${scaleInWords(scale)}`, [
    `<g transform="translate(${fixed(centre[0])} ${fixed(centre[1])}) scale(${fixed(scale, 6)})" stroke-width="${fixed(0.18 / scale)}">`,
    path("closed", closedBodyPath(design)),
    // Slots have corners by the dozen; Béziers would save nothing.
    path("free", outline.slots ? bodyPath(outline) : cubicPath(outlineCubics(design, { tolerance }))),
    "</g>",
    `<path class="axis" d="M${fixed(centre[0])},${fixed(field.y + DIMENSION - 2)}V${fixed(centre[1] + scale * bottom + 1.5)}"/>`,
    `<path class="axis" d="M${fixed(centre[0] - scale * reach - 1.5)},${fixed(centre[1])}h${fixed(2 * scale * reach + 3)}"/>`,
    dimension(tips[0], tips[1], field.y + 3.5),
    ...foot(box, [
      `Bore Ø ${fixed(spec.bore)} mm; wall ${fixed(spec.section.radialThickness)} mm, height ${fixed(spec.section.axialHeight)} mm`,
      `Free gap between the arrows ${mm(free.gap)} at mid wall, closed gap ${mm(spec.closedGap)}`,
      `Ends turn by ${inDegrees(ends.faceToAxis, 2)} on opening; line end to end ${mm(free.arcLength[last])}`,
    ]),
  ]);
}

/** Room for the dimension over the ring, mm. */
const DIMENSION = 6;
