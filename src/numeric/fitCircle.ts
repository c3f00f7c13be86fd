import type { Point } from "./point.js";

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/**
 * Least-squares reference circle: the circle with the smallest sum of squared radial distances.
 * Gauss–Newton from the centroid of the points; they must go well round the circle.
 *
 * @param points at least three, mm
 */
export function fitCircle(points: readonly Point[]): Circle {
  const count = points.length;
  let x = points.reduce((sum, point) => sum + point[0], 0) / count;
  let y = points.reduce((sum, point) => sum + point[1], 0) / count;
  let radius = 0;
  for (let turn = 0; turn < 50; turn++) {
    radius = points.reduce((sum, point) => sum + Math.hypot(point[0] - x, point[1] - y), 0) / count;
    // Normal equations for the shift of the centre, the radius eliminated.
    let [su, sv, suu, suv, svv, sru, srv] = [0, 0, 0, 0, 0, 0, 0];
    for (const [px, py] of points) {
      const distance = Math.hypot(px - x, py - y);
      const u = (px - x) / distance;
      const v = (py - y) / distance;
      const rest = distance - radius;
      su += u;
      sv += v;
      suu += u * u;
      suv += u * v;
      svv += v * v;
      sru += rest * u;
      srv += rest * v;
    }
    suu -= (su * su) / count;
    suv -= (su * sv) / count;
    svv -= (sv * sv) / count;
    const determinant = suu * svv - suv * suv;
    const dx = (sru * svv - srv * suv) / determinant;
    const dy = (srv * suu - sru * suv) / determinant;
    x += dx;
    y += dy;
    if (Math.hypot(dx, dy) <= 1e-15 * radius) break;
  }
  radius = points.reduce((sum, point) => sum + Math.hypot(point[0] - x, point[1] - y), 0) / count;
  return { x, y, radius };
}
