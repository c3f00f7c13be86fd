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
  const width = Array.from({ length: last }, (_, k) => x[k + 1] - x[k]);
  const rise = width.map((h, k) => (y[k + 1] - y[k]) / h);
  const slope = x.map((_, k) => {
    if (last === 1) return rise[0];
    if (k === 0) return endSlope(width[0], width[1], rise[0], rise[1]);
    if (k === last) return endSlope(width[last - 1], width[last - 2], rise[last - 1], rise[last - 2]);
    return innerSlope(width[k - 1], width[k], rise[k - 1], rise[k]);
  });
  const quadratic = width.map((h, k) => (3 * rise[k] - 2 * slope[k] - slope[k + 1]) / h);
  const cubic = width.map((h, k) => (slope[k] + slope[k + 1] - 2 * rise[k]) / (h * h));
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
