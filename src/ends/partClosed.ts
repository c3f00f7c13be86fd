import type { Point } from "../numeric/point.js";
import { wallAt } from "../section/wall.js";
import type { Outline } from "../shape/outline.js";
import { pointOnFace } from "./band.js";
import type { CutRing } from "./cutRing.js";
import { heldRing } from "./heldRing.js";

/** A ring held part-closed by a band, as a shape. mm, N. */
export interface PartClosed {
  /** Distance between the ends at mid wall, as asked. */
  readonly gap: number;
  /** Pull on the band that holds it. */
  readonly pull: number;
  /** Faces end to end, the back where it is when free and closed. */
  readonly outline: Pick<Outline, "outer" | "inner">;
}

/**
 * The shape of a ring held by a band round its outer face: a frictionless, inextensible tape whose ends are pulled straight across the gap. Exact for any
 * opening within the bar theory; worked, as {@link endsInBand}.
 *
 * @param design the ring
 * @param gap opening at which it is held, mm, from the closed to the free gap
 * @throws SpecError when the gap is outside that range; NotFound when no equilibrium is found
 *
 * @example
 * partClosed(design, 5).pull; // 9.939, N
 */
export function partClosed(design: CutRing, gap: number): PartClosed {
  const { spec, free, installed, ends, wall } = design;
  const { pull, rightTangent, march } = heldRing(design, gap);
  const a = spec.section.radialThickness;
  // Where the section jumps a station stands twice in the tables, and once in the march.
  const marched = [...march.outer].reverse();
  let place = 0;
  const stations = free.theta.map((angle, i) => {
    if (i > 0 && angle !== free.theta[i - 1]) place++;
    return marched[place];
  });
  const last = stations.length - 1;
  const back = stations[free.theta.indexOf(0)];
  const [c, s] = [Math.cos(back.tangent), Math.sin(back.tangent)];
  /** From the march's frame to the ring's: the back level, at the bottom of the bore. */
  const placed = ([x, y]: Point): Point => {
    const [dx, dy] = [x - back.point[0], y - back.point[1]];
    return [c * dx + s * dy, c * dy - s * dx - installed.outerRadius];
  };
  const thickness = (i: number) => wallAt(a, wall, i).thickness;
  /** The end's inner corner from its outer one. */
  const innerCorner = (i: number, side: 1 | -1, tangent: number): Point => {
    const at = (offset: number) =>
      pointOnFace(1 / free.curvature[i], side * tangent, offset, ends.faceToNormal);
    const [outer, inner] = [at(a / 2), at(a / 2 - thickness(i))];
    const [x, y] = stations[i].point;
    return [x + side * (inner[0] - outer[0]), y + inner[1] - outer[1]];
  };
  const inner = stations.flatMap(({ point: [x, y], tangent }, i): Point[] => {
    if (i === 0) return [innerCorner(0, -1, march.leftTangent)];
    if (i === last) return [innerCorner(last, 1, rightTangent)];
    // The cuts, parallel when closed, take the inner face away beyond this angle.
    const reach = Math.PI - Math.asin(spec.closedGap / (2 * (installed.outerRadius - thickness(i))));
    if (Math.abs(free.theta[i]) >= reach) return [];
    return [[x - thickness(i) * Math.sin(tangent), y + thickness(i) * Math.cos(tangent)]];
  });
  return {
    gap,
    pull,
    outline: { outer: stations.map(({ point }) => placed(point)), inner: inner.map(placed) },
  };
}
