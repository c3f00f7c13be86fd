import { expect } from "vitest";
import { pressureOf, type RingDesign } from "../src/index.js";

/** For the tests: how far the pressure found backwards may be from the designed one, and how far it is. */

/** Largest difference between pressure found and pressure designed, over p₀. */
export function error(design: RingDesign): number {
  const { pressure } = pressureOf(design);
  expect(pressure.length).toBe(design.installed.pressure.length);
  const apart = pressure.map((p, i) => Math.abs(p - design.installed.pressure[i]));
  return Math.max(...apart) / design.load.contactPressure;
}

/** Widest and narrowest step between stations. */
export function steps({ installed: { theta } }: RingDesign): { widest: number; narrowest: number } {
  const all = theta
    .slice(1)
    .map((angle, i) => angle - theta[i])
    .filter((step) => step > 0);
  return { widest: Math.max(...all), narrowest: Math.min(...all) };
}

/**
 * What differences leave, over p₀. The second derivative from nine points, all on one side as at the ends, misses
 * 2·8!·H₈/9!·step⁷·f⁽⁹⁾ = 0.604·step⁷·f⁽⁹⁾, H₈ = 1 + 1/2 + … + 1/8 (from the polynomial's remainder; in the middle far
 * less). A harmonic cᵢ of the pressure is cᵢ/(i² − 1) in M, the ring's own part of M a first harmonic of amplitude
 * below 2. With shear M is itself the solution of a system with such differences; that nearly doubles it (measured 1.74).
 */
export function truncation(design: RingDesign, amplitudes: readonly number[]): number {
  const ninth = amplitudes.reduce((sum, c, k) => sum + (Math.abs(c) * (k + 2) ** 9) / ((k + 2) ** 2 - 1), 2);
  const byTheory = design.spec.theory === "thin" ? 1 : 2;
  return byTheory * 0.604 * steps(design).widest ** 7 * ninth;
}

/**
 * What rounding leaves, over p₀: the free curvature and 1/r are near 1/r with half a unit in the last place, 2⁻⁵³, each;
 * M is their difference, K/r to the unit; the weights of the one-sided second derivative add up to 358/step².
 */
export function rounding(design: RingDesign): number {
  return (358 * 2 ** -52) / (design.stiffnessParameter * steps(design).narrowest ** 2);
}

/** The tips need nothing but what differences leave of the shear and of the pressure on their overhang. */
export function expectNothingAtEnds(design: RingDesign, tolerance: number): void {
  const made = pressureOf(design);
  for (const { couple, meets, force } of [made.ends.left, made.ends.right]) {
    expect(meets).toBe(true);
    expect(couple).toBe(0);
    expect(Math.abs(force)).toBeLessThan(tolerance * design.load.tangentialForce);
  }
  expect(made.lifts).toEqual([]);
  expect(made.touches).toBe(true);
}

/** Amplitudes of order 2 to 8, cosine and sine taken together. */
export const bothSizes = ({ cosine, sine }: { cosine: number[]; sine: number[] }) =>
  [0, 1, 2, 3, 4, 5, 6].map((k) => Math.abs(cosine[k] ?? 0) + Math.abs(sine[k] ?? 0));
