import { shortening } from "../curvature/law.js";
import { runningIntegral } from "../numeric/quadrature.js";
import type { MomentSeries } from "./momentSeries.js";
import { curvatureTerms } from "./pressureModes.js";

/** Steps along the ring's line at which faces are computed. */
const STEPS = 720;

/** The outer face of a free ring whose curvature is a sum of terms, in the ring's own frame, and how each term moves it. Lengths in mm. */
export interface FreeFace {
  /** Angle of each node from the back when closed. */
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

/** The faces of all rings of one body. */
export interface FreeFaces {
  /** Terms of the series. */
  readonly terms: number;
  of(coefficients: ArrayLike<number>): FreeFace;
}

/** @param uneven how many terms of the series beyond those of a uniform pressure, if not all */
export function freeFaces(series: MomentSeries, uneven = series.uneven): FreeFaces {
  const { geometry, radialThickness, barAt } = series;
  const { centroidLimit: c, centroidRadius: r } = geometry;
  const toFace = radialThickness / 2;
  const u = Array.from({ length: STEPS + 1 }, (_, i) => c * ((2 * i) / STEPS - 1));
  const { laws, share } = barAt(u);
  const step = (2 * c) / STEPS;
  const fromMiddle = (values: readonly number[]) => {
    const integral = runningIntegral(values, step);
    return integral.map((value) => value - integral[STEPS / 2]);
  };
  const atNodes = u.map((at) => curvatureTerms(at, c, uneven));
  const terms = atNodes[0].map((_, j) => atNodes.map((all, i) => share[i] * all[j]));
  const sum = (columns: readonly (readonly number[])[], weights: ArrayLike<number>) => {
    const total = new Array<number>(STEPS + 1).fill(0);
    for (const [j, column] of columns.entries())
      for (let i = 0; i <= STEPS; i++) total[i] += weights[j] * column[i];
    return total;
  };
  return {
    terms: terms.length,
    of(coefficients) {
      const curvature = sum(terms, coefficients).map((value, i) => 1 - share[i] + value);
      // Free length to closed length.
      const length = curvature.map((value, i) => 1 + shortening(laws[i], value / r, r) / r);
      const along = (values: readonly number[]) => fromMiddle(values.map((value, i) => value * length[i]));
      const turns = terms.map(along);
      const tangent = along(curvature);
      const [cos, sin] = [tangent.map(Math.cos), tangent.map(Math.sin)];
      const [x, y] = [cos, sin].map(along);
      const pace = curvature.map((value, i) => 1 / (value * length[i]));
      return {
        u,
        x: x.map((value, i) => r * value + toFace * sin[i]),
        y: y.map((value, i) => r * value - r - toFace * cos[i]),
        cos,
        sin,
        radius: curvature.map((value) => r / value + toFace),
        pace,
        moves: turns.map((turn) => {
          const dx = along(turn.map((value, i) => -value * sin[i]));
          const dy = along(turn.map((value, i) => value * cos[i]));
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

/** The foot of a point (px, py) on a face, by the circle that osculates the face at the nearest node. */
export function footPoint({ x, y, cos, sin, radius, pace, u }: FreeFace, px: number, py: number): FootPoint {
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
