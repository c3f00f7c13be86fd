import { aroundCurve } from "../curves/closedCurve.js";
import type { Curve } from "../curves/curve.js";
import { fitCircle } from "../numeric/fitCircle.js";
import { minimumOf } from "../numeric/goldenSection.js";
import type { Point } from "../numeric/point.js";

/** Points round the curve that are looked at. */
const POINTS = 720;

/**
 * Centre of the two concentric circles nearest to each other that hold a closed curve between them, mm: the minimum zone reference circles
 * of ISO 12181-1 (from memory). About it a tool has the least lift.
 */
export function minimumZoneCentre(curve: Curve): Point {
  const points = aroundCurve(curve, POINTS).map((t): Point => {
    const { x, y } = curve.at(t);
    return [x, y];
  });
  const { x, y, radius } = fitCircle(points);
  const zone = (cx: number, cy: number) => {
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (const [px, py] of points) {
      const square = (px - cx) ** 2 + (py - cy) ** 2;
      if (square < least) least = square;
      if (square > most) most = square;
    }
    return Math.sqrt(most) - Math.sqrt(least);
  };
  // The minimum zone's centre is never far from the least-squares circle's: by less than that one's own zone.
  const reach = zone(x, y);
  const within = 1e-7 * radius;
  const bestY = (cx: number) => minimumOf((cy) => zone(cx, cy), y - reach, y + reach, within);
  const bestX = minimumOf((cx) => zone(cx, bestY(cx)), x - reach, x + reach, within);
  return [bestX, bestY(bestX)];
}
