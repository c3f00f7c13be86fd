import type { RingDesign } from "../design/ringDesign.js";
import type { Point } from "../numeric/point.js";
import type { Outline } from "../shape/outline.js";
import {
  type Box,
  chain,
  dimension,
  figure,
  foot,
  inDegrees,
  inside,
  scaleInWords,
  standardScale,
} from "./panel.js";
import { closedFaces } from "./paths.js";

/** How much of each end is shown, in walls. */
const SHOWN = 1.6;
/** Room for a dimension line over an end, mm. */
const DIMENSION = 5;

/** The gap enlarged: free above, closed in the bore below, the ends as cut. */
export function gapPanel(design: RingDesign, box: Box): string {
  const { spec, free, outline, ends } = design;
  const field = inside(box, 2);
  const half = { ...field, height: field.height / 2 };
  const closed = closedFaces(design);
  const [upper, upperScale] = endsFigure(outline, half, spec.section.radialThickness);
  const [lower, lowerScale] = endsFigure(
    closed,
    { ...half, y: half.y + half.height },
    spec.section.radialThickness,
  );
  return figure(box, `The gap: free ${scaleInWords(upperScale)}, closed ${scaleInWords(lowerScale)}`, [
    ...upper,
    ...lower,
    ...foot(box, [
      `Free ${free.gap.toFixed(2)} mm at mid wall, faces ${inDegrees(2 * ends.faceToAxis, 2)} to each other`,
      `Closed ${spec.closedGap.toFixed(2)} mm, parallel; each ${inDegrees(ends.faceToNormal, 2)} to the ring's own normal`,
    ]),
  ]);
}

type Faces = Pick<Outline, "outer" | "inner">;

/** Both ends of a ring, with a dimension between the middles of their faces. */
function endsFigure({ outer, inner }: Faces, box: Box, wall: number): [elements: string[], scale: number] {
  const middle = (side: "first" | "last"): Point => {
    const at = (face: readonly Point[]) => face[side === "first" ? 0 : face.length - 1];
    return [(at(outer)[0] + at(inner)[0]) / 2, (at(outer)[1] + at(inner)[1]) / 2];
  };
  const [left, right] = [middle("first"), middle("last")];
  const gap = right[0] - left[0];
  const reach = Math.max(gap / 2, wall * 0.05) + SHOWN * wall;
  const scale = Math.min(
    standardScale(2 * reach, box.width),
    standardScale(1.5 * wall, box.height - DIMENSION - 1),
  );
  const top = Math.max(outer[0][1], outer[outer.length - 1][1]);
  const [x, y] = [
    box.x + box.width / 2 - (scale * (left[0] + right[0])) / 2,
    box.y + DIMENSION + 0.5 + scale * top,
  ];
  const onPaper = ([px, py]: Point): Point => [x + scale * px, y - scale * py];
  /** Points of a face from its end on, as far as it is shown; the last one on the edge of the picture. */
  const near = (face: readonly Point[], side: 1 | -1): Point[] => {
    const ordered = side === 1 ? [...face].reverse() : face;
    const edge = (side === 1 ? right : left)[0] + side * SHOWN * wall;
    const beyond = ordered.findIndex(([px]) => side * (px - edge) > 0);
    const shown = ordered.slice(0, Math.max(1, beyond));
    const [from, to] = [shown[shown.length - 1], ordered[Math.max(1, beyond)]];
    const share = (edge - from[0]) / (to[0] - from[0]);
    return [...shown, [edge, from[1] + share * (to[1] - from[1])]];
  };
  const end = (side: 1 | -1) => chain([...near(outer, side).reverse(), ...near(inner, side)].map(onPaper));
  return [
    [
      `<path class="free" stroke-width="0.18" d="${end(-1)}"/>`,
      `<path class="free" stroke-width="0.18" d="${end(1)}"/>`,
      dimension(onPaper(left), onPaper(right), box.y + 3),
    ],
    scale,
  ];
}
