import type { Point } from "../numeric/point.js";
import { runningIntegral } from "../numeric/quadrature.js";
import { curvatureTerms } from "./pressureModes.js";

/** Steps along the ring's line at which faces are computed. */
const STEPS = 720;

/** The outer face of a free ring whose curvature is a sum of terms, in the ring's own frame, and how each term moves it. Lengths in mm. */
export interface FreeFace {
  /** Arc length of the line over r from the middle, at each node. */
  readonly u: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Of the tangent. */
  readonly cos: readonly number[];
  readonly sin: readonly number[];
  /** Radius of curvature. */
  readonly radius: readonly number[];
  /** Change of u to a radian of turning. */
  readonly pace: readonly number[];
  /** How far one unit of each term moves the nodes outward. */
  readonly moves: readonly (readonly number[])[];
}

/** The faces of all rings of one length. */
export interface FreeFaces {
  /** Terms of the series. */
  readonly terms: number;
  of(coefficients: ArrayLike<number>): FreeFace;
}

/**
 * @param c half the ring's length over r
 * @param r radius of the closed ring's line, mm
 * @param toFace distance from the line to the outer face, mm
 * @param uneven how many terms beyond those of a uniform pressure
 */
export function freeFaces(c: number, r: number, toFace: number, uneven: number): FreeFaces {
  const u = Array.from({ length: STEPS + 1 }, (_, i) => c * ((2 * i) / STEPS - 1));
  const step = (2 * c) / STEPS;
  const fromMiddle = (values: readonly number[]) => {
    const integral = runningIntegral(values, step);
    return integral.map((value) => value - integral[STEPS / 2]);
  };
  const atNodes = u.map((at) => curvatureTerms(at, c, uneven));
  const curvature = atNodes[0].map((_, j) => atNodes.map((terms) => terms[j]));
  const turns = curvature.map(fromMiddle);
  const sum = (columns: readonly (readonly number[])[], weights: ArrayLike<number>) => {
    const total = new Array<number>(STEPS + 1).fill(0);
    for (const [j, column] of columns.entries())
      for (let i = 0; i <= STEPS; i++) total[i] += weights[j] * column[i];
    return total;
  };
  return {
    terms: turns.length,
    of(coefficients) {
      const tangent = sum(turns, coefficients);
      const [cos, sin] = [tangent.map(Math.cos), tangent.map(Math.sin)];
      const [x, y] = [cos, sin].map(fromMiddle);
      const pace = sum(curvature, coefficients).map((value) => 1 / value);
      return {
        u,
        x: x.map((value, i) => r * value + toFace * sin[i]),
        y: y.map((value, i) => r * value - r - toFace * cos[i]),
        cos,
        sin,
        radius: pace.map((value) => r * value + toFace),
        pace,
        moves: turns.map((turn) => {
          const dx = fromMiddle(turn.map((value, i) => -value * sin[i]));
          const dy = fromMiddle(turn.map((value, i) => value * cos[i]));
          return dx.map((value, i) => r * (value * sin[i] - dy[i] * cos[i]));
        }),
      };
    },
  };
}

/** Where a point lies beside a face. */
export interface FootPoint {
  /** Nearest node. */
  readonly node: number;
  /** Of the foot; beyond the ends the face goes on as an arc. */
  readonly u: number;
  /** mm, positive outside. */
  readonly distance: number;
}

/** The foot of a point on a face, by the circle that osculates the face at the nearest node. */
export function footPoint({ x, y, cos, sin, radius, pace, u }: FreeFace, [px, py]: Point): FootPoint {
  const last = x.length - 1;
  const along = (i: number) => (px - x[i]) * cos[i] + (py - y[i]) * sin[i];
  // By its angle from the back first: a free ring lies near the closed one.
  let i = Math.round((last * (Math.atan2(px, -py) - u[0])) / (u[last] - u[0]));
  i = Math.max(0, Math.min(last, i));
  let tangential = along(i);
  for (;;) {
    const next = i + Math.sign(tangential);
    if (!(next >= 0 && next <= last)) break;
    const there = along(next);
    if (!(Math.abs(there) < Math.abs(tangential))) break;
    i = next;
    tangential = there;
  }
  const outward = radius[i] + (px - x[i]) * sin[i] - (py - y[i]) * cos[i];
  return {
    node: i,
    u: u[i] + pace[i] * Math.atan2(tangential, outward),
    distance: Math.hypot(tangential, outward) - radius[i],
  };
}
