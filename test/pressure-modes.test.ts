import { describe, expect, test } from "vitest";
import { designRing } from "../src/index.js";
import { curvatureTerms, pressureTerms } from "../src/scan/pressureModes.js";
import { GAUSS_10 } from "../src/section/columns.js";
import { backOf, forceForK, PLAIN_100, withK } from "./rings.js";

/** The series in which a scanned ring's free curvature is looked for, against what defines it. */

const UNEVEN = 40;
/** Half lengths over r: no gap at all, gaps from a hair's breadth to a wide one, and a ring longer than its circle. */
const HALF_LENGTHS = [
  Math.PI,
  ...[1e-15, 1e-12, 1e-9, 1e-6, 1e-3, 0.004, 0.03].map((gap) => Math.PI - gap),
  Math.PI + 1e-7,
];
const SHARES = [-1, -0.97, -0.6, -1 / 3, -0.01, 0.2, 0.5, 0.9, 1];

/** φⱼ″ + φⱼ as it is meant. */
function meant(u: number, c: number, j: number): number {
  const w = (j * Math.PI) / (2 * c);
  return j === 0 ? u / c : Math.sin(w * (u + c)) - Math.sin(w * c);
}

/** The solution of φ″ + φ = f with φ(0) = φ′(0) = 0: ∫₀ᵘ sin(u − t)·f(t) dt, by Gauss's rule over 24 parts. */
function answer(u: number, f: (t: number) => number): number {
  let sum = 0;
  const part = u / 24;
  for (let k = 0; k < 24; k++) {
    for (const [node, weight] of GAUSS_10) {
      const t = part * (k + (1 + node) / 2);
      sum += (weight / 2) * part * Math.sin(u - t) * f(t);
    }
  }
  return sum;
}

describe("curvatureTerms", () => {
  test.each(HALF_LENGTHS)("of a ring of half length %d answer the pressure that they stand for", (c) => {
    for (const share of SHARES) {
      const u = share * c;
      const terms = curvatureTerms(u, c, UNEVEN);
      expect(terms).toHaveLength(3 + UNEVEN);
      expect(terms.slice(0, 3)).toEqual([1, Math.cos(u), Math.sin(u)]);
      for (let j = 0; j < UNEVEN; j++) {
        const expected = answer(u, (t) => meant(t, c, j));
        // Values up to 6; sines of angles up to 63 are good to 1e-14 of 1, and the rule with ten points is exact to degree 19, to rounding for
        // 2.6 rad of the shortest wave, a twenty-fourth of the half ring.
        expect(Math.abs(terms[3 + j] - expected), `term ${j} at ${u}`).toBeLessThan(2e-14);
      }
    }
  });

  test("near resonance loses no digits, whether the gap is nil or next to nil", () => {
    // ω₂ = 1 at c = π: φ″ + φ = −sin u has (u·cos u − sin u)/2, by hand. For |ω − 1| = δ it moves by less than 20·δ.
    for (const u of [-3, -1.3, -1e-3, 0.4, 2.2, 3.1]) {
      const expected = (u * Math.cos(u) - Math.sin(u)) / 2;
      for (const gap of [0, 4.5e-16, 1e-15, 1e-14, 1e-13, -1e-14]) {
        const found = curvatureTerms(u, Math.PI - gap, 3)[5];
        expect(Math.abs(found - expected)).toBeLessThan(1e-15 + 20 * Math.abs(gap));
      }
    }
  });

  test("of the uneven pressures are nil at the back, with their slope", () => {
    for (const c of HALF_LENGTHS) {
      expect(curvatureTerms(0, c, UNEVEN).slice(0, 3)).toEqual([1, 1, 0]);
      for (const value of curvatureTerms(0, c, UNEVEN).slice(3)) expect(Math.abs(value)).toBe(0);
      // φ ≈ f(0)·u²/2 + f′(0)·u³/6, f(0) = 0 and |f′| ≤ 20; what is left is rounding of differences of 1.
      for (const value of curvatureTerms(1e-4, c, UNEVEN).slice(3))
        expect(Math.abs(value)).toBeLessThan(5e-12);
    }
  });

  test("are as many as asked for, and the shorter series is the beginning of the longer", () => {
    expect(curvatureTerms(1, 3, 0)).toEqual([1, Math.cos(1), Math.sin(1)]);
    expect(curvatureTerms(1, 3, 7)).toEqual(curvatureTerms(1, 3, 20).slice(0, 10));
    expect(pressureTerms(1, 3, 7)).toEqual(pressureTerms(1, 3, 20).slice(0, 10));
  });
});

describe("pressureTerms", () => {
  /** Second derivative to the eighth order: −1/560, 8/315, −1/5, 8/5, −205/72, … */
  const WEIGHTS = [-205 / 72, 8 / 5, -1 / 5, 8 / 315, -1 / 560];

  test.each(HALF_LENGTHS)("of half length %d are κ″ + κ of the curvature's", (c) => {
    for (const share of SHARES) {
      const u = 0.95 * share * c;
      for (let j = -3; j < UNEVEN; j++) {
        // A twentieth of a radian of the term's own wave: the differences miss step⁸/3150 of the tenth derivative, below 10 at resonance.
        const step = 0.05 / Math.max(1, (j * Math.PI) / (2 * c));
        const at = (k: number) => curvatureTerms(u + k * step, c, UNEVEN)[3 + j];
        const second =
          WEIGHTS.reduce(
            (sum, weight, k) => sum + (k === 0 ? weight * at(0) : weight * (at(k) + at(-k))),
            0,
          ) /
          step ** 2;
        const found = pressureTerms(u, c, UNEVEN)[3 + j];
        // Two units in the last place of values up to 2, over step², weights of 6 in all; and what the differences miss.
        const within = 2e-13 + (6 * 2 ** -51) / step ** 2;
        expect(Math.abs(second + at(0) - found), `term ${j} at ${u}`).toBeLessThan(within);
        // Angles up to 63, whose last place is 7e-15, rounded two or three times on either side.
        expect(Math.abs(found - (j >= 0 ? meant(u, c, j) : j === -3 ? 1 : 0))).toBeLessThan(3e-14);
      }
    }
  });

  test("have waves that are square to each other over the ring, all of one size, so that Σ dⱼ² measures unevenness", () => {
    const c = 3.1;
    const steps = 400;
    // Trapezes are exact for waves that have whole half periods in the ring.
    const product = (j: number, k: number) =>
      Array.from({ length: steps + 1 }, (_, i) => {
        const terms = pressureTerms(c * ((2 * i) / steps - 1), c, UNEVEN);
        const wave = (n: number) => terms[3 + n] + Math.sin((n * Math.PI) / 2);
        return ((i % steps === 0 ? 1 : 2) * wave(j) * wave(k)) / (2 * steps);
      }).reduce((sum, value) => sum + value, 0);
    for (const j of [1, 2, 3, 8, 39])
      for (const k of [1, 2, 3, 8, 39])
        expect(Math.abs(product(j, k) - (j === k ? 1 / 2 : 0))).toBeLessThan(1e-13);
  });
});

describe("The first three terms", () => {
  test.each([0.004, 0.02, 0.1])(
    "are all that a uniform pressure makes of a thin ring without a gap, K = %d",
    (K) => {
      // κ₀·r = 1 − K·(1 + cos θ): the textbook's ring.
      const design = designRing(withK(PLAIN_100, K));
      const { theta, curvature } = design.free;
      expect(design.load.tangentialForce).toBeCloseTo(forceForK(PLAIN_100, K), 9);
      for (const [i, at] of theta.entries()) {
        const [one, cosine] = curvatureTerms(at, Math.PI, 0);
        expect(Math.abs(48.5 * curvature[i] - ((1 - K) * one - K * cosine))).toBeLessThan(1e-14);
      }
      expect(theta[backOf(design)]).toBe(0);
    },
  );
});
