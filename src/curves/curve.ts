import { type Derivatives, localDerivatives } from "../numeric/localPolynomial.js";
import type { Point } from "../numeric/point.js";
import { smoothRuns } from "../numeric/smoothRuns.js";

/** A point of a curve, its unit tangent (cos, sin), curvature (1/mm, positive where it bends to the left) and speed dP/dt. */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  readonly cos: number;
  readonly sin: number;
  readonly curvature: number;
  readonly speed: number;
}

/** A plane curve whose tangent does not jump, mm. Its parameter runs at about one radian of turning a unit. */
export interface Curve {
  readonly from: number;
  readonly to: number;
  /** Parameters between `from` and `to` at which the curvature jumps; increasing. */
  readonly breaks: readonly number[];
  at(t: number): CurvePoint;
}

/**
 * The smooth curve through a table of points: the polynomial through the eight nearest of each interval, so positions are good to
 * order step⁸ and curvature to order step⁶. Beyond its ends it goes on as the arc that osculates it there.
 *
 * @param t increasing parameters; one that stands twice marks a jump of the curvature; at least eight between jumps
 * @param points as many
 */
export function curveThrough(t: readonly number[], points: readonly Point[]): Curve {
  const runs = smoothRuns(t).map(([first, last]) => runThrough(t, points, first, last));
  const [from, to] = [t[0], t[t.length - 1]];
  const ends = { first: runs[0](from), last: runs[runs.length - 1](to) };
  const breaks = smoothRuns(t)
    .slice(1)
    .map(([first]) => t[first]);
  const runAt = (at: number) => {
    let run = 0;
    while (run < breaks.length && at > breaks[run]) run++;
    return runs[run];
  };
  return {
    from,
    to,
    breaks,
    at: (at) => {
      if (at < from) return alongArc(ends.first, at - from);
      if (at > to) return alongArc(ends.last, at - to);
      return runAt(at)(at);
    },
  };
}

/** One smooth run of a table, its polynomials kept once they are made. */
function runThrough(
  t: readonly number[],
  points: readonly Point[],
  first: number,
  last: number,
): (at: number) => CurvePoint {
  const nodes = t.slice(first, last + 1);
  const [xs, ys] = [0, 1].map((axis) => points.slice(first, last + 1).map((point) => point[axis]));
  const kept = new Array<[x: (at: number) => Derivatives, y: (at: number) => Derivatives]>(last - first);
  return (at) => {
    // Stations stand at nearly equal steps, so a guess by proportion is a step away at most.
    let k = Math.floor(((last - first) * (at - nodes[0])) / (nodes[nodes.length - 1] - nodes[0]));
    k = Math.max(0, Math.min(last - first - 1, k));
    while (k > 0 && at < nodes[k]) k--;
    while (k < last - first - 1 && at > nodes[k + 1]) k++;
    kept[k] ??= [localDerivatives(nodes, xs, k), localDerivatives(nodes, ys, k)];
    return pointOf(kept[k][0](at), kept[k][1](at));
  };
}

/** A point of a curve from its coordinates and their derivatives with respect to the parameter. */
export function pointOf([x, dx, ddx]: Derivatives, [y, dy, ddy]: Derivatives): CurvePoint {
  const speed = Math.hypot(dx, dy);
  return {
    x,
    y,
    cos: dx / speed,
    sin: dy / speed,
    curvature: (dx * ddy - dy * ddx) / speed ** 3,
    speed,
  };
}

/** The point on the osculating arc of a curve's end, at the same speed. */
function alongArc(end: CurvePoint, beyond: number): CurvePoint {
  const length = beyond * end.speed;
  const half = (end.curvature * length) / 2;
  const [c, s] = [Math.cos(half), Math.sin(half)];
  const chord = half === 0 ? length : (length * s) / half;
  // The chord stands at half the turn, the new tangent at the whole.
  const [along, across] = [end.cos * c - end.sin * s, end.sin * c + end.cos * s];
  return {
    ...end,
    x: end.x + chord * along,
    y: end.y + chord * across,
    cos: along * c - across * s,
    sin: across * c + along * s,
  };
}

/** The parallel curve at a distance to the right: outward of a ring's line, mm. It must not pass a centre of curvature. */
export function parallelCurve(curve: Curve, distance: number): Curve {
  return { ...curve, at: (t) => parallelPoint(curve.at(t), distance) };
}

function parallelPoint(point: CurvePoint, distance: number): CurvePoint {
  const scale = 1 + point.curvature * distance;
  return {
    ...point,
    x: point.x + distance * point.sin,
    y: point.y - distance * point.cos,
    curvature: point.curvature / scale,
    speed: point.speed * scale,
  };
}

/** The same curve run through the other way; its parameter is the negative. */
export function reversed(curve: Curve): Curve {
  return {
    from: -curve.to,
    to: -curve.from,
    breaks: curve.breaks.map((at) => -at).reverse(),
    at: (t) => {
      const point = curve.at(-t);
      return { ...point, cos: -point.cos, sin: -point.sin, curvature: -point.curvature };
    },
  };
}

/** Part of a curve; it may reach past the ends. */
export function partOf(curve: Curve, from: number, to: number): Curve {
  return { ...curve, from, to, breaks: curve.breaks.filter((at) => at > from && at < to) };
}

/**
 * Where a curve crosses a straight line, by Newton's method.
 *
 * @param curve to be searched near `guess`, where it crosses the line at a fair angle
 * @param origin a point of the line
 * @param normal its unit normal
 * @param guess parameter to start from
 */
export function crossing(curve: Curve, origin: Point, normal: Point, guess: number): number {
  let t = guess;
  for (let turn = 0; turn < 20; turn++) {
    const { x, y, cos, sin, speed } = curve.at(t);
    const off = (x - origin[0]) * normal[0] + (y - origin[1]) * normal[1];
    const step = off / (speed * (cos * normal[0] + sin * normal[1]));
    t -= step;
    if (Math.abs(step) < 1e-14) break;
  }
  return t;
}
