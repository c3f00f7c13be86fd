import { Bezier } from "bezier-js";
import type { Point } from "../numeric/point.js";
import type { Curve, CurvePoint } from "./curve.js";
import type { CurveFit, PieceFitter } from "./fitContour.js";
import { type FitOptions, fitRing } from "./fitRing.js";
import type { FreeBody } from "./ringFaces.js";

/** A cubic Bézier curve's four control points, mm. */
export type Cubic = readonly [start: Point, control1: Point, control2: Point, end: Point];

/**
 * The free ring's outline as cubic Béziers, with straight ends; else as `outlineArcs`. Curvature does not jump between them, but where it changes
 * faster along the ring than 1.2 times its square no such cubic exists, and only tangents are kept: beyond K of about 0.36.
 *
 * Source: C. de Boor, K. Höllig & M. Sabin, Computer Aided Geometric Design 4 (1987), 269–278 (from memory).
 *
 * @param ring a design
 * @param options tolerance in mm, 0.00001 to 1/100 of the bore, default 0.001; metal on the faces
 * @throws SpecError when the tolerance is outside its range
 * @throws NotFound when no number of curves comes within the tolerance
 *
 * @example
 * outlineCubics(design, { tolerance: 0.001 }).pieces.length; // 20
 */
export function outlineCubics(ring: FreeBody, options: FitOptions = {}): CurveFit<Cubic> {
  return fitRing(ring, "outline", smoothCubics, options);
}

/**
 * The free ring's line between the end faces as cubic Béziers, from left to right; else as {@link outlineCubics}.
 *
 * @param ring a design
 * @param options tolerance in mm, 0.00001 to 1/100 of the bore, default 0.001; metal on the end faces
 * @throws SpecError when the tolerance is outside its range
 * @throws NotFound when no number of curves comes within the tolerance
 *
 * @example
 * lineCubics(design).deviation <= 0.001; // true, mm
 */
export function lineCubics(ring: FreeBody, options: FitOptions = {}): CurveFit<Cubic> {
  return fitRing(ring, "line", smoothCubics, options);
}

/** Points of the fit at which its distance from the curve is measured, besides its ends. */
const MEASURED = 24;

/**
 * A cubic with the curve's tangents and curvatures at its ends, so that a row of them has no jump in curvature either.
 *
 * The lengths α and β of its handles follow from t₀×v = β·t₀×t₁ + 3κ₀α²/2 and v×t₁ = α·t₀×t₁ + 3κ₁β²/2, with v the
 * chord and t₀, t₁ the tangents, by Newton's method.
 *
 * Source: C. de Boor, K. Höllig & M. Sabin, Computer Aided Geometric Design 4 (1987), 269–278 (from memory): such a cubic is
 * off by the sixth power of its length.
 */
const smoothCubics: PieceFitter<Cubic> = {
  order: 6,
  straight: ({ start, end }) => {
    const at = (share: number): Point => [
      start[0] + share * (end[0] - start[0]),
      start[1] + share * (end[1] - start[1]),
    ];
    return [start, at(1 / 3), at(2 / 3), end];
  },
  fit(curve, from, to) {
    const [start, end] = [curve.at(from), curve.at(to)];
    const [alpha, beta] = handles(start, end);
    const cubic: Cubic = [
      [start.x, start.y],
      [start.x + alpha * start.cos, start.y + alpha * start.sin],
      [end.x - beta * end.cos, end.y - beta * end.sin],
      [end.x, end.y],
    ];
    return { pieces: [cubic], deviation: cubicDeviation(cubic, curve, from, to) };
  },
};

function handles(start: CurvePoint, end: CurvePoint): [alpha: number, beta: number] {
  const [vx, vy] = [end.x - start.x, end.y - start.y];
  const third = Math.hypot(vx, vy) / 3;
  const turn = start.cos * end.sin - start.sin * end.cos;
  const atStart = start.cos * vy - start.sin * vx;
  const atEnd = vx * end.sin - vy * end.cos;
  let [alpha, beta] = [third, third];
  for (let round = 0; round < 20; round++) {
    const [missStart, missEnd] = [
      atStart - beta * turn - 1.5 * start.curvature * alpha * alpha,
      atEnd - alpha * turn - 1.5 * end.curvature * beta * beta,
    ];
    const [slopeStart, slopeEnd] = [3 * start.curvature * alpha, 3 * end.curvature * beta];
    const determinant = slopeStart * slopeEnd - turn * turn;
    const dAlpha = (missStart * slopeEnd - missEnd * turn) / determinant;
    const dBeta = (missEnd * slopeStart - missStart * turn) / determinant;
    [alpha, beta] = [alpha + dAlpha, beta + dBeta];
    if (Math.hypot(dAlpha, dBeta) < 1e-15 * third) break;
  }
  // Where the curve is straight or turns over, curvature fixes nothing: plain handles keep the tangents.
  const sound = [alpha, beta].every((length) => length > third / 4 && length < 4 * third);
  return sound ? [alpha, beta] : [third, third];
}

function cubicDeviation(cubic: Cubic, curve: Curve, from: number, to: number): number {
  const bezier = new Bezier(cubic.flat());
  let worst = 0;
  for (let i = 1; i <= MEASURED; i++) {
    const share = i / (MEASURED + 1);
    const { x, y } = bezier.get(share);
    worst = Math.max(worst, distanceFrom(curve, x, y, from + (to - from) * share));
  }
  return worst;
}

/** Distance of a point from the curve: to its foot, by Newton's method from a parameter nearby. */
function distanceFrom(curve: Curve, x: number, y: number, guess: number): number {
  let t = guess;
  for (let round = 0; round < 10; round++) {
    const at = curve.at(t);
    const [dx, dy] = [x - at.x, y - at.y];
    const along = dx * at.cos + dy * at.sin;
    const across = dy * at.cos - dx * at.sin;
    const step = along / (at.speed * (1 - at.curvature * across));
    t += step;
    if (Math.abs(step) < 1e-9) return Math.abs(across);
  }
  const { x: footX, y: footY } = curve.at(t);
  return Math.hypot(x - footX, y - footY);
}
