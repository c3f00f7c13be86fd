import type { Geometry } from "../forces/geometry.js";
import type { Halves } from "../forces/relativeForces.js";
import type { Point } from "../numeric/point.js";
import type { Wall } from "../section/wall.js";
import type { HalfRing } from "./halfRing.js";

/**
 * Faces of the free body, mm, each end to end (left end, back, right end) and closed by the straight cuts between
 * their first and their last points. The outer face reaches past the last station and the inner one stops short of
 * it, because the cuts are parallel to the axis when the ring is closed.
 */
export interface Outline {
  /** Outer face; one point a station. */
  readonly outer: Point[];
  /** Inner face, as before slotting; fewer points, as the cuts take some away. */
  readonly inner: Point[];
  /** Inner slots, if there are any: inner face, two corners at the root, inner face. */
  readonly slots?: Point[][];
}

/**
 * Where a straight cut through the end of the ring's line meets a face, as an angle about the local centre of
 * curvature, positive beyond the end. The material there is unstressed, so its curvature is that of the line's end.
 *
 * @param rho local radius of the line, mm
 * @param offset of the face outward of the line, mm
 * @param delta angle of the cut to the section normal, radians; positive where the outer face overhangs
 */
export function cutAngle(rho: number, offset: number, delta: number): number {
  return delta - Math.asin((rho * Math.sin(delta)) / (rho + offset));
}

/** Point on the end face at an offset from the line; in the half ring's own frame. */
export function pointOnEnd(half: HalfRing, offset: number, delta: number): Point {
  const last = half.x.length - 1;
  if (offset === 0) return [half.x[last], half.y[last]];
  const rho = 1 / half.curvature[last];
  const tangent = half.tangent[last];
  const angle = tangent + cutAngle(rho, offset, delta);
  return [
    half.x[last] - rho * half.sinTangent[last] + (rho + offset) * Math.sin(angle),
    half.y[last] + rho * half.cosTangent[last] - (rho + offset) * Math.cos(angle),
  ];
}

/**
 * Distance between the free ends at the middle of their faces, mm.
 *
 * @param halves of the free ring
 * @param offsets of those middles outward of the line, mm
 * @param delta angle of the end face to the section normal, radians
 */
export function freeGap(halves: Halves<HalfRing>, offsets: Halves<number>, delta: number): number {
  const [rightX, rightY] = pointOnEnd(halves.right, offsets.right, delta);
  if (halves.left === halves.right) return 2 * rightX;
  const [leftX, leftY] = pointOnEnd(halves.left, offsets.left, delta);
  return Math.hypot(leftX + rightX, leftY - rightY);
}

/**
 * @param halves of the free ring
 * @param walls at their stations
 * @param theta the stations' angles, radians from the back
 * @param geometry the closed ring
 * @param closedGap s, mm
 * @param delta angle of the end face to the section normal, radians
 */
export function freeOutline(
  halves: Halves<HalfRing>,
  walls: Halves<readonly Wall[]>,
  theta: readonly number[],
  { outerRadius, centroidRadius }: Geometry,
  closedGap: number,
  delta: number,
): Outline {
  const toOuter = outerRadius - centroidRadius;
  const last = theta.length - 1;
  const facesOf = (half: HalfRing, wall: readonly Wall[]) => {
    const end = wall[last].thickness;
    // The cut takes the inner face away beyond this angle.
    const limit = Math.PI - Math.asin(closedGap / (2 * (outerRadius - end)));
    let count = last;
    while (count > 0 && theta[count - 1] >= limit) count--;
    const outer = new Array<Point>(last + 1);
    const inner = new Array<Point>(count + 1);
    for (let i = 0; i < last; i++) {
      const x = half.x[i];
      const y = half.y[i];
      const c = half.cosTangent[i];
      const s = half.sinTangent[i];
      outer[i] = [x + toOuter * s, y - toOuter * c];
      if (i >= count) continue;
      const offset = toOuter - wall[i].thickness;
      inner[i] = [x + offset * s, y - offset * c];
    }
    outer[last] = pointOnEnd(half, toOuter, delta);
    inner[count] = pointOnEnd(half, toOuter - end, delta);
    return { outer, inner };
  };
  const right = facesOf(halves.right, walls.right);
  const alike = halves.left === halves.right;
  const left = alike ? right : facesOf(halves.left, walls.left);
  return {
    outer: endToEnd(left.outer, right.outer),
    inner: endToEnd(left.inner, right.inner),
  };
}

/** Joins faces that run from the back, the left one seen in the mirror. */
function endToEnd(left: readonly Point[], right: readonly Point[]): Point[] {
  const before = left.length - 1;
  const points = new Array<Point>(before + right.length);
  for (let i = before; i > 0; i--) points[before - i] = [-left[i][0], left[i][1]];
  for (let i = 0; i < right.length; i++) points[before + i] = right[i];
  return points;
}
