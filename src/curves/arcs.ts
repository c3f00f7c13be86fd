import type { Point } from "../numeric/point.js";
import type { Curve, CurvePoint } from "./curve.js";
import type { CurveFit, PieceFitter } from "./fitContour.js";
import { type FitOptions, fitRing } from "./fitRing.js";
import type { FreeBody } from "./ringFaces.js";

/** An arc from one point to the next, straight where `bulge` is 0: the tangent of a quarter of its angle, positive counter-clockwise. */
export interface Arc {
  /** Where it begins, mm. */
  readonly start: Point;
  /** Where it ends, mm. */
  readonly end: Point;
  /** Tangent of a quarter of its angle, positive counter-clockwise; 0 for a straight piece. */
  readonly bulge: number;
}

/**
 * The free ring's outline as arcs that touch, with straight ends: counter-clockwise from the outer left corner.
 *
 * @param ring a design
 * @param options tolerance in mm, 0.00001 to 1/100 of the bore, default 0.001; metal on the faces
 * @throws SpecError when the tolerance is outside its range
 * @throws NotFound when no number of arcs comes within the tolerance
 *
 * @example
 * const fit = outlineArcs(design, { tolerance: 0.001 });
 * fit.pieces.length; // 42
 * fit.chords; // 1050, of a polyline as close
 */
export function outlineArcs(ring: FreeBody, options: FitOptions = {}): CurveFit<Arc> {
  return fitRing(ring, "outline", tangentArcs, options);
}

/**
 * The free ring's line between the end faces, as arcs that touch, from left to right; else as {@link outlineArcs}.
 *
 * @param ring a design
 * @param options tolerance in mm, 0.00001 to 1/100 of the bore, default 0.001; metal on the end faces
 * @throws SpecError when the tolerance is outside its range
 * @throws NotFound when no number of arcs comes within the tolerance
 *
 * @example
 * lineArcs(design).closed; // false
 */
export function lineArcs(ring: FreeBody, options: FitOptions = {}): CurveFit<Arc> {
  return fitRing(ring, "line", tangentArcs, options);
}

/** Points of the curve at which a stretch's distance is measured, besides its ends. */
const MEASURED = 24;

/**
 * Two arcs that touch each other and, at their outer ends, the curve: of those the pair whose tangents are equally long.
 * Along a ring they are off by some κ′·length³/324.
 */
export const tangentArcs: PieceFitter<Arc> = {
  order: 3,
  straight: ({ start, end }) => ({ start, end, bulge: 0 }),
  fit(curve, from, to) {
    const [start, end] = [curve.at(from), curve.at(to)];
    const joint = biarcJoint(start, end);
    const pieces = [arcFrom(start, joint), mirrored(arcFrom(backward(end), joint))];
    return { pieces, deviation: arcsDeviation(curve, from, to, start, end, joint) };
  },
};

const backward = (point: CurvePoint): CurvePoint => ({ ...point, cos: -point.cos, sin: -point.sin });

const mirrored = ({ start, end, bulge }: Arc): Arc => ({ start: end, end: start, bulge: -bulge });

function biarcJoint(start: CurvePoint, end: CurvePoint): Point {
  const [vx, vy] = [end.x - start.x, end.y - start.y];
  const square = vx * vx + vy * vy;
  const along = vx * (start.cos + end.cos) + vy * (start.sin + end.sin);
  // 1 − the cosine of the turn, without its cancellation.
  const versine = ((start.cos - end.cos) ** 2 + (start.sin - end.sin) ** 2) / 2;
  const tangent = square / (along + Math.sqrt(along * along + 2 * versine * square));
  return [
    (start.x + end.x + tangent * (start.cos - end.cos)) / 2,
    (start.y + end.y + tangent * (start.sin - end.sin)) / 2,
  ];
}

/** The arc that leaves a point along its tangent and ends in another. */
function arcFrom({ x, y, cos, sin }: CurvePoint, end: Point): Arc {
  const [dx, dy] = [end[0] - x, end[1] - y];
  // The chord stands at half the arc's angle to the tangent.
  const bulge = (cos * dy - sin * dx) / (Math.hypot(dx, dy) + cos * dx + sin * dy);
  return { start: [x, y], end, bulge };
}

/** Largest distance of points of the curve from the pair of arcs. */
function arcsDeviation(
  curve: Curve,
  from: number,
  to: number,
  start: CurvePoint,
  end: CurvePoint,
  joint: Point,
): number {
  const [toStart, toEnd] = [distanceFromArc(start, joint), distanceFromArc(end, joint)];
  // What lies before the joint belongs to the first arc.
  const [nx, ny] = [end.x - start.x, end.y - start.y];
  let worst = 0;
  for (let i = 1; i <= MEASURED; i++) {
    const { x, y } = curve.at(from + ((to - from) * i) / (MEASURED + 1));
    const before = (x - joint[0]) * nx + (y - joint[1]) * ny < 0;
    worst = Math.max(worst, Math.abs(before ? toStart(x, y) : toEnd(x, y)));
  }
  return worst;
}

/** Signed distance from the circle that touches a curve's tangent and passes a point; exact where it is nearly straight, too. */
function distanceFromArc(touch: CurvePoint, through: Point): (x: number, y: number) => number {
  const across = (x: number, y: number) => touch.cos * (y - touch.y) - touch.sin * (x - touch.x);
  const square = (x: number, y: number) => (x - touch.x) ** 2 + (y - touch.y) ** 2;
  const curvature = (2 * across(...through)) / square(...through);
  return (x, y) => {
    const off = across(x, y) - (curvature * square(x, y)) / 2;
    return (2 * off) / (1 + Math.sqrt(Math.max(0, 1 - 2 * curvature * off)));
  };
}
