import type { Arc, Cubic } from "../../src/curves.js";
import type { Point, RingDesign } from "../../src/index.js";

/**
 * The exact curves of a free ring, and distances from them, by geometry of the tests' own: from nothing but the stations of a
 * design and what an arc and a Bézier curve are. mm, radians.
 */

/** Points of a curve in order, broken where its curvature jumps. */
export type Runs = Point[][];

export interface ExactFaces {
  readonly outer: Runs;
  /** As before slotting, and not yet cut: up to the last stations. */
  readonly inner: Runs;
  readonly line: Runs;
  /** Outer left, outer right, inner right, inner left. */
  readonly corners: readonly [Point, Point, Point, Point];
}

export const minus = ([ax, ay]: Point, [bx, by]: Point): Point => [ax - bx, ay - by];
export const cross = ([ax, ay]: Point, [bx, by]: Point) => ax * by - ay * bx;
export const dot = ([ax, ay]: Point, [bx, by]: Point) => ax * bx + ay * by;
export const apart = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** As much metal on every kind of face as `AddedMetal` can say. */
export interface Metal {
  readonly outer: number;
  readonly inner: number;
  readonly ends: number;
}
const NONE: Metal = { outer: 0, inner: 0, ends: 0 };

/**
 * The faces' points at the stations, each set off along the section's normal (sin ψ, −cos ψ). They are exact, however far apart.
 * With metal on the inner face the wall must be of one thickness.
 */
export function exactFaces({ spec, free, ends, wall }: RingDesign, metal: Metal = NONE): ExactFaces {
  const a = spec.section.radialThickness;
  const { x, y, tangent, curvature, theta } = free;
  const last = x.length - 1;
  const innerOffset = (i: number) => a / 2 - (wall ? wall.thickness[i] : a) - metal.inner;
  const outerOffset = a / 2 + metal.outer;
  const at = (i: number, offset: number): Point => [
    x[i] + offset * Math.sin(tangent[i]),
    y[i] - offset * Math.cos(tangent[i]),
  ];
  const runs = (offset: (i: number) => number): Runs => {
    const found: Runs = [[]];
    for (let i = 0; i <= last; i++) {
      if (i > 0 && theta[i] === theta[i - 1]) found.push([]);
      found[found.length - 1].push(at(i, offset(i)));
    }
    return found;
  };
  // The cut: a straight line at δ to the section's normal n, leaning ahead outside; metal moves it ahead. Past the end the faces are circles
  // about the centre of curvature C, from which the line is ρ·sin δ − metal off, and which it crosses a half chord from the foot.
  const corner = (side: 1 | -1, offset: number): Point => {
    const i = side === 1 ? last : 0;
    const rho = 1 / curvature[i];
    const delta = ends.faceToNormal;
    const n: Point = [Math.sin(tangent[i]), -Math.cos(tangent[i])];
    const t: Point = [side * Math.cos(tangent[i]), side * Math.sin(tangent[i])];
    const along = (p: number, q: number): Point => [p * n[0] + q * t[0], p * n[1] + q * t[1]];
    const ahead = metal.ends - rho * Math.sin(delta);
    const chord = Math.sqrt((rho + offset) ** 2 - ahead ** 2);
    const fromCentre = along(
      chord * Math.cos(delta) - ahead * Math.sin(delta),
      chord * Math.sin(delta) + ahead * Math.cos(delta),
    );
    return [x[i] - rho * n[0] + fromCentre[0], y[i] - rho * n[1] + fromCentre[1]];
  };
  return {
    outer: runs(() => outerOffset),
    inner: runs(innerOffset),
    line: runs(() => 0),
    corners: [
      corner(-1, outerOffset),
      corner(1, outerOffset),
      corner(1, innerOffset(last)),
      corner(-1, innerOffset(0)),
    ],
  };
}

/** Runs the other way. */
export const backwards = (runs: Runs): Runs => runs.map((run) => [...run].reverse()).reverse();

/** The circle of a bulge: its centre, radius, and the angle from start to end, positive counter-clockwise. */
export function circleOf({ start, end, bulge }: Arc): { centre: Point; radius: number; sweep: number } {
  // The bulge is the tangent of a quarter of the angle: rise over half a chord.
  const [cx, cy] = minus(end, start);
  const left = (1 - bulge * bulge) / (4 * bulge);
  const centre: Point = [(start[0] + end[0]) / 2 - left * cy, (start[1] + end[1]) / 2 + left * cx];
  return { centre, radius: apart(centre, start), sweep: 4 * Math.atan(bulge) };
}

export function onArc(arc: Arc, share: number): Point {
  const { start, end, bulge } = arc;
  if (bulge === 0) return [start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])];
  const { centre, sweep } = circleOf(arc);
  const [dx, dy] = minus(start, centre);
  const [c, s] = [Math.cos(share * sweep), Math.sin(share * sweep)];
  return [centre[0] + c * dx - s * dy, centre[1] + s * dx + c * dy];
}

/** Direction of an arc at its start or end, an angle to +x. */
export function arcDirection({ start, end, bulge }: Arc, at: "start" | "end"): number {
  const chord = Math.atan2(end[1] - start[1], end[0] - start[0]);
  return chord + (at === "start" ? -2 : 2) * Math.atan(bulge);
}

/** Distance of points from an arc. */
export function fromArc(arc: Arc): (point: Point) => number {
  const { start, end, bulge } = arc;
  if (bulge === 0) return fromSegment(start, end);
  const { centre, radius, sweep } = circleOf(arc);
  const turn = Math.sign(sweep);
  const [toStart, toEnd] = [minus(start, centre), minus(end, centre)];
  return (point) => {
    const out = minus(point, centre);
    // Arcs here are shorter than half a turn.
    const within = turn * cross(toStart, out) >= 0 && turn * cross(out, toEnd) >= 0;
    return within ? Math.abs(Math.hypot(...out) - radius) : Math.min(apart(point, start), apart(point, end));
  };
}

/** Distance of points from a straight line between two. */
export function fromSegment(start: Point, end: Point): (point: Point) => number {
  const along = minus(end, start);
  return (point) => {
    const share = Math.max(0, Math.min(1, dot(minus(point, start), along) / dot(along, along)));
    return apart(point, [start[0] + share * along[0], start[1] + share * along[1]]);
  };
}

/** A point of a cubic by de Casteljau's construction, with its first and second derivative. */
export function onCubic(cubic: Cubic, t: number): { at: Point; first: Point; second: Point } {
  const mix = (p: Point, q: Point): Point => [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])];
  const [a, b, c] = [mix(cubic[0], cubic[1]), mix(cubic[1], cubic[2]), mix(cubic[2], cubic[3])];
  const [d, e] = [mix(a, b), mix(b, c)];
  return {
    at: mix(d, e),
    first: [3 * (e[0] - d[0]), 3 * (e[1] - d[1])],
    second: [6 * (c[0] - 2 * b[0] + a[0]), 6 * (c[1] - 2 * b[1] + a[1])],
  };
}

/** Distance of points from a cubic that turns by a radian at most: to the foot, by Newton's method from their share of the chord. */
export function fromCubic(cubic: Cubic): (point: Point) => number {
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = cubic;
  const [chordX, chordY] = [x3 - x0, y3 - y0];
  const square = chordX * chordX + chordY * chordY;
  // In powers of t, since this is asked for often.
  const [ax, ay] = [3 * (x1 - x0), 3 * (y1 - y0)];
  const [bx, by] = [3 * (x2 - 2 * x1 + x0), 3 * (y2 - 2 * y1 + y0)];
  const [cx, cy] = [x3 - 3 * x2 + 3 * x1 - x0, y3 - 3 * y2 + 3 * y1 - y0];
  return ([px, py]) => {
    let t = Math.max(0, Math.min(1, ((px - x0) * chordX + (py - y0) * chordY) / square));
    for (let turn = 0; turn < 12; turn++) {
      const dx = x0 - px + t * (ax + t * (bx + t * cx));
      const dy = y0 - py + t * (ay + t * (by + t * cy));
      const vx = ax + t * (2 * bx + t * 3 * cx);
      const vy = ay + t * (2 * by + t * 3 * cy);
      const bend = dx * (2 * bx + 6 * t * cx) + dy * (2 * by + 6 * t * cy);
      const step = (dx * vx + dy * vy) / (vx * vx + vy * vy + bend);
      t = Math.max(0, Math.min(1, t - step));
      // A foot that is a millionth of a piece off is nearest to second order.
      if (Math.abs(step) < 1e-6) break;
    }
    return Math.hypot(x0 - px + t * (ax + t * (bx + t * cx)), y0 - py + t * (ay + t * (by + t * cy)));
  };
}

/** Largest distance of points, in order, from a row of pieces in the same order. */
export function farthestFromFit<Piece>(
  points: Iterable<Point>,
  pieces: readonly Piece[],
  from: (piece: Piece) => (point: Point) => number,
): number {
  const distances = pieces.map(from);
  let [worst, k] = [0, 0];
  for (const point of points) {
    let off = distances[k](point);
    for (let next = k + 1; next < distances.length; next++) {
      const other = distances[next](point);
      if (other > off) break;
      [off, k] = [other, next];
    }
    worst = Math.max(worst, off);
  }
  return worst;
}

/** The circle through three points. */
export function circleThrough(p: Point, q: Point, r: Point): { centre: Point; radius: number } {
  const [u, v] = [minus(q, p), minus(r, p)];
  const [uu, vv, twice] = [dot(u, u), dot(v, v), 2 * cross(u, v)];
  const toCentre: Point = [(v[1] * uu - u[1] * vv) / twice, (u[0] * vv - v[0] * uu) / twice];
  return { centre: [p[0] + toCentre[0], p[1] + toCentre[1]], radius: Math.hypot(...toCentre) };
}

/**
 * Distances of points, in order, from a curve known by points of its own: each from the circle through the three nearest of those.
 * At steps of s that is off the curve by 0.064·κ′·s³ (the remainder of a parabola through three points), inside and up to a step beyond.
 */
export function distancesFromCurve(points: readonly Point[], runs: Runs): number[] {
  const nodes = runs.flatMap((run) => run.map((point, k) => ({ point, k, run })));
  let i = 0;
  return points.map((point) => {
    const off = (k: number) => apart(nodes[k].point, point);
    while (i < nodes.length - 1 && off(i + 1) <= off(i)) i++;
    let { k, run } = nodes[i];
    const before = nodes[i - 1]?.run ?? run;
    // At a jump the point belongs to the run on its own side.
    if (k === 0 && before !== run && dot(minus(point, run[0]), minus(run[1], run[0])) < 0) {
      [run, k] = [before, before.length - 1];
    }
    const middle = Math.max(1, Math.min(run.length - 2, k));
    const { centre, radius } = circleThrough(run[middle - 1], run[middle], run[middle + 1]);
    return Math.abs(apart(point, centre) - radius);
  });
}

export const farthestFromCurve = (points: readonly Point[], runs: Runs): number =>
  distancesFromCurve(points, runs).reduce((worst, off) => Math.max(worst, off), 0);
