import type { Cubic } from "./cubicTrig.js";

/** A curve through given points, cubic from knot to knot, with a continuous slope. */
export interface Curve {
  /** Increasing abscissae of the points. */
  readonly knots: readonly number[];
  /** Value at t; outside the knots the cubic of the first or last interval goes on. */
  at(t: number): number;
  /** The cubic of the interval in which t lies, in powers of the distance from t. */
  around(t: number): Cubic;
}

/**
 * Shape-preserving cubic interpolation: between two points the curve stays between their values, so it neither
 * overshoots the data nor dips below it, and it is as monotone as they are.
 *
 * @param x increasing abscissae, at least two
 * @param y values
 *
 * Source: F. N. Fritsch & J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984), eq. for unequal intervals, with three-point
 * end slopes (C. Moler, Numerical Computing with MATLAB, section 3.6); from memory, compared with a published
 * implementation in the tests.
 */
export function shapePreserving(x: readonly number[], y: readonly number[]): Curve {
  const last = x.length - 1;
  const width = new Array<number>(last);
  const rise = new Array<number>(last);
  for (let i = 0; i < last; i++) {
    width[i] = x[i + 1] - x[i];
    rise[i] = (y[i + 1] - y[i]) / width[i];
  }
  const slope = new Array<number>(last + 1);
  for (let i = 1; i < last; i++) slope[i] = innerSlope(width[i - 1], width[i], rise[i - 1], rise[i]);
  // Two points alone make a straight line.
  const [second, beforeLast] = [Math.min(1, last - 1), Math.max(0, last - 2)];
  slope[0] = endSlope(width[0], width[second], rise[0], rise[second]);
  slope[last] = endSlope(width[last - 1], width[beforeLast], rise[last - 1], rise[beforeLast]);
  const quadratic = new Array<number>(last);
  const cubic = new Array<number>(last);
  for (let i = 0; i < last; i++) {
    quadratic[i] = (3 * rise[i] - 2 * slope[i] - slope[i + 1]) / width[i];
    cubic[i] = (slope[i] + slope[i + 1] - 2 * rise[i]) / (width[i] * width[i]);
  }
  // Neighbouring questions mostly fall into the same interval.
  let k = 0;
  const find = (t: number) => {
    while (k > 0 && t < x[k]) k--;
    while (k < last - 1 && t > x[k + 1]) k++;
    return k;
  };
  return {
    knots: x,
    at(t) {
      const i = find(t);
      const u = t - x[i];
      return y[i] + u * (slope[i] + u * (quadratic[i] + u * cubic[i]));
    },
    around(t) {
      const i = find(t);
      const u = t - x[i];
      const value = y[i] + u * (slope[i] + u * (quadratic[i] + u * cubic[i]));
      const first = slope[i] + u * (2 * quadratic[i] + 3 * u * cubic[i]);
      return [value, first, quadratic[i] + 3 * u * cubic[i], cubic[i]];
    },
  };
}

/** Weighted harmonic mean of the two rises; flat where they differ in sign. */
function innerSlope(before: number, after: number, riseBefore: number, riseAfter: number): number {
  if (riseBefore * riseAfter <= 0) return 0;
  const [w1, w2] = [2 * after + before, after + 2 * before];
  return (w1 + w2) / (w1 / riseBefore + w2 / riseAfter);
}

/** Slope of the parabola through the three points at an end, cut back where it would break the shape. */
function endSlope(near: number, far: number, riseNear: number, riseFar: number): number {
  const slope = ((2 * near + far) * riseNear - near * riseFar) / (near + far);
  if (slope * riseNear <= 0) return 0;
  if (riseNear * riseFar <= 0 && Math.abs(slope) > 3 * Math.abs(riseNear)) return 3 * riseNear;
  return slope;
}
