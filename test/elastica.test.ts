import { describe, expect, test } from "vitest";
import { forwardLaw } from "../src/elastica/forwardLaw.js";
import { fitCircle } from "../src/numeric/fitCircle.js";
import { localPolynomial } from "../src/numeric/localPolynomial.js";
import type { Point } from "../src/numeric/point.js";
import { integrateAdaptive } from "../src/numeric/rungeKutta.js";

/** The tools of the forward computations, each against a closed form. */

describe("integrateAdaptive", () => {
  test("follows the exponential forwards and backwards", () => {
    const growth = (_: number, [y]: readonly number[], out: number[]) => {
      out[0] = y;
    };
    expect(integrateAdaptive(growth, [1], 0, 1, [1])[0]).toBeCloseTo(Math.E, 11);
    expect(integrateAdaptive(growth, [1], 0, -3, [1])[0]).toBeCloseTo(Math.exp(-3), 12);
  });

  test("brings an oscillator back to its start after a hundred turns", () => {
    const oscillator = (_: number, [x, v]: readonly number[], out: number[]) => {
      out[0] = v;
      out[1] = -x;
    };
    const [x, v] = integrateAdaptive(oscillator, [1, 0], 0, 200 * Math.PI, [1, 1]);
    expect(x).toBeCloseTo(1, 8);
    expect(v).toBeCloseTo(0, 8);
  });

  test("integrates ∫1/(1 + t²) dt to π/4, which no fixed wide step could", () => {
    const slope = (t: number, _: readonly number[], out: number[]) => {
      out[0] = 1 / (1 + t * t);
    };
    expect(integrateAdaptive(slope, [0], 0, 1, [1])[0]).toBeCloseTo(Math.PI / 4, 12);
  });

  test("says where it stopped when the solution runs away", () => {
    const blowUp = (_: number, [y]: readonly number[], out: number[]) => {
      out[0] = y * y;
    };
    expect(() => integrateAdaptive(blowUp, [1], 0, 2, [1])).toThrow(
      /did not reach 2: stopped at (1\.0|0\.99)/,
    );
  });
});

describe("localPolynomial", () => {
  const t = [0, 0.9, 2.1, 3, 4.2, 5, 5.9, 7.1, 8, 9.05];
  test("is exact for degree seven, at uneven points and past the ends", () => {
    const f = (x: number) => (((((((0.3 * x - 2) * x + 1) * x - 4) * x + 2) * x - 1) * x + 5) * x - 7) / 1000;
    for (const index of [0, 1, 4, 8]) {
      const polynomial = localPolynomial(t, t.map(f), index);
      for (const x of [t[index], t[index] + 0.4, t[index + 1], t[index + 1] + 0.1]) {
        expect(polynomial(x) - f(x)).toBeCloseTo(0, 9);
      }
    }
  });
});

describe("fitCircle", () => {
  const circle = (radius: (angle: number) => number): Point[] =>
    Array.from({ length: 361 }, (_, i) => {
      const angle = (i * Math.PI) / 181;
      return [3 + radius(angle) * Math.cos(angle), -2 + radius(angle) * Math.sin(angle)];
    });

  test("finds an exact circle to rounding", () => {
    const { x, y, radius } = fitCircle(circle(() => 50));
    expect([x, y, radius].map((value, i) => value - [3, -2, 50][i])).toEqual([
      expect.closeTo(0, 12),
      expect.closeTo(0, 12),
      expect.closeTo(0, 12),
    ]);
  });

  test("leaves a lobed error where it is: centre and mean radius stay", () => {
    // Harmonics from the second up move neither in the least-squares circle, to first order.
    const { x, y, radius } = fitCircle(circle((angle) => 50 + 0.001 * Math.cos(3 * angle)));
    expect(Math.hypot(x - 3, y + 2)).toBeLessThan(2e-5);
    expect(radius).toBeCloseTo(50, 5);
  });
});

describe("forwardLaw", () => {
  const section = { radialThickness: 6, axialHeight: 3 };
  const material = { youngsModulus: 1e5 };

  test("stretches and bends a straight bar as the textbook does", () => {
    const law = forwardLaw({ theory: "curved", section, material }, 1e9);
    const { stretch, sectionTurn } = law.deform({ thickness: 6 }, 0, 1000, 500);
    expect(stretch).toBeCloseTo(1 + 500 / (1e5 * 18), 14);
    expect(sectionTurn).toBeCloseTo(1000 / (1e5 * 54), 14);
  });

  test("turns without stretch when M = −N/κ₀, as Winkler's bar does", () => {
    // λ − 1 = (N + κ₀·M)/(E·A): zero when M = −N/κ₀, for any section.
    const law = forwardLaw({ theory: "curved", section, material }, 20);
    expect(law.deform({ thickness: 6 }, 1 / 20, -500 * 20, 500).stretch).toBeCloseTo(1, 14);
  });
});
