import type { Geometry } from "../forces/geometry.js";
import type { Halves } from "../forces/internalForces.js";
import type { Point } from "../numeric/point.js";
import type { Wall } from "../section/wall.js";
import type { HalfRing } from "./halfRing.js";

/**
 * Faces of the free body, mm, each end to end (left end, back, right end) and closed by the straight cuts between
 * their first and their last points. The outer face reaches past the last station and the inner one stops short of
 * it, because the cuts are parallel to the axis when the ring is closed.
 */
export interface Outline {
  readonly outer: Point[];
  /** As before slotting. */
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
  const outer = (half: HalfRing) => face(half, () => toOuter, last, delta);
  const inner = (half: HalfRing, wall: readonly Wall[]) => {
    // The cut takes the inner face away beyond this angle.
    const limit = Math.PI - Math.asin(closedGap / (2 * (outerRadius - wall[last].thickness)));
    const beyond = theta.findIndex((angle) => angle >= limit);
    return face(half, (i) => toOuter - wall[i].thickness, beyond < 0 ? last : beyond, delta);
  };
  return {
    outer: endToEnd(outer(halves.left), outer(halves.right)),
    inner: endToEnd(inner(halves.left, walls.left), inner(halves.right, walls.right)),
  };
}

/** `count` stations of the face from the back on, then its corner. */
function face(half: HalfRing, offsetAt: (i: number) => number, count: number, delta: number): Point[] {
  const points = new Array<Point>(count + 1);
  for (let i = 0; i < count; i++) {
    const offset = offsetAt(i);
    points[i] = [half.x[i] + offset * half.sinTangent[i], half.y[i] - offset * half.cosTangent[i]];
  }
  points[count] = pointOnEnd(half, offsetAt(half.x.length - 1), delta);
  return points;
}

function endToEnd(left: readonly Point[], right: readonly Point[]): Point[] {
  const points: Point[] = [];
  for (let i = left.length - 1; i > 0; i--) points.push([-left[i][0], left[i][1]]);
  points.push(...right);
  return points;
}
