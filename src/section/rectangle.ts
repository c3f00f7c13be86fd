/** Section properties of a rectangle. Lengths in mm; y is measured outward from the centroid. */

/** Area A = a·h in mm². a — radial wall thickness, h — axial height. */
export function area(a: number, h: number): number {
  return a * h;
}

/** Second moment of area I = h·a³/12 about the axial centroid line, mm⁴. */
export function secondMoment(a: number, h: number): number {
  return (h * a ** 3) / 12;
}

/** 3/(2j + 3), j = 1, 2, …; enough terms for |κ·a/2| up to 0.6. */
const COEFFICIENTS = Array.from({ length: 40 }, (_, k) => 3 / (2 * k + 5));

/**
 * Curved-bar integral Z₂ = ∫ y²/(1 + κ·y) dA of a rectangle, mm⁴.
 *
 * With x = κ·a/2 it is I·(1 + 3x²/5 + 3x⁴/7 + …): the series of the inverse hyperbolic tangent, which keeps its
 * digits where the closed form, (A − Z₀)/κ² with a logarithm in Z₀, loses them.
 *
 * @param I second moment of area, mm⁴
 * @param a radial wall thickness, mm
 * @param kappa curvature of the free centroid line, 1/mm, |κ·a/2| ≤ 0.6
 * @returns Z₂ in mm⁴
 *
 * Source: Winkler's curved bar, as in S. Timoshenko, Strength of Materials, Part II, "curved bars" (from memory);
 * the series is checked against quadrature.
 */
export function curvedSecondMoment(I: number, a: number, kappa: number): number {
  const x2 = (0.5 * kappa * a) ** 2;
  let sum = 1;
  let power = x2;
  for (let k = 0; power > 1e-17 && k < COEFFICIENTS.length; k++) {
    sum += COEFFICIENTS[k] * power;
    power *= x2;
  }
  return I * sum;
}
