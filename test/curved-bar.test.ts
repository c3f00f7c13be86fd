import { describe, expect, test } from "vitest";
import { lawAt } from "../src/curvature/lawsAlong.js";
import { thinLaw } from "../src/curvature/thin.js";
import { curvedSecondMoment, secondMoment } from "../src/section/rectangle.js";
import { curvedFibreStress } from "../src/stress/fibreStress.js";
import { reached } from "./reached.js";
import { relativeError } from "./rings.js";

/**
 * The curved bar against exact solutions of plane elasticity. Unit height and modulus, centroid radius 1, so that
 * t = a/r is the wall itself; faces at 1 ± t/2.
 */

const WALLS = [0.4, 0.2, 0.1, 0.05];

/** Bounds of the first neglected terms, −0.0150·t⁴ and +0.0118·t⁴ as measured; they leave room for t⁶ only. */
const PURE_BENDING_BOUND = 0.016;
const END_FORCE_BOUND = 0.0125;

/** The law of a wall t on the line of radius 1. */
const curvedBar = (t: number) =>
  lawAt(
    {
      theory: "curved",
      section: { radialThickness: t, axialHeight: 1 },
      material: { youngsModulus: 1 },
    },
    1,
    { thickness: t },
  );

/** A force so small that the response is linear: with ± differences the first error is cubic, 1e-10. */
const SMALL = 1e-5;

/**
 * Turn of the section per free angle when the bar goes from free to closed at curvature 1, for a unit load: the
 * linear part of (λκ − κ₀)/κ₀ under M and N, by a central difference.
 */
function turnRate(t: number, moment: number, normal: number): number {
  const law = curvedBar(t);
  const step = SMALL * secondMoment(t, 1);
  const turn = (sign: number) => {
    const M = sign * step * moment;
    const N = sign * step * normal;
    const kappa0 = law.freeCurvature(M, N, 1, 1);
    return (law.stretch(M, N, kappa0) - kappa0) / kappa0;
  };
  return (turn(1) - turn(-1)) / (2 * step);
}

/** Errors at walls each half the last: falling as t⁴, they go down sixteen-fold. */
function expectFourthOrder(what: string, errors: readonly number[], bound: number): void {
  for (const [i, error] of errors.entries()) {
    reached("curved bar", what, error / WALLS[i] ** 4, bound);
    if (i === 0) continue;
    const ratio = errors[i - 1] / error;
    // The t⁶ term moves the ratio by a small share of t² of the thicker wall.
    expect(Math.abs(ratio / 16 - 1)).toBeLessThan(0.2 * WALLS[i - 1] ** 2 + 0.002);
  }
}

describe("the curved-bar law agrees to order (a/r)⁴ with the exact solution", () => {
  test("of pure bending: rotation per angle 8·M·(b² − a²)/(E·h·N)", () => {
    // Timoshenko & Goodier, Theory of Elasticity, pure bending of curved bars (from memory, worked), a and b the
    // radii of the faces, N = (b² − a²)² − 4a²b²·ln²(b/a). In powers of t it is (M·r/EI)·(1 + t²/30 + …).
    const errors = WALLS.map((t) => {
      const [a, b] = [1 - t / 2, 1 + t / 2];
      const N = (b ** 2 - a ** 2) ** 2 - 4 * a ** 2 * b ** 2 * Math.log(b / a) ** 2;
      const exact = (8 * (b ** 2 - a ** 2)) / N;
      return relativeError(turnRate(t, 1, 0), exact);
    });
    expectFourthOrder("pure bending", errors, PURE_BENDING_BOUND);
  });

  test("of an end force on a quarter circle: displacement π·P·(a² + b²)/(E·h·[(a² − b²) + (a² + b²)·ln(b/a)])", () => {
    // Same book, bending by a force at the end (from memory, worked). In powers of t: (π·P·r³/(4EI))·(1 + 0.15·t²).
    //
    // The law's side, by unit load. A radial force P at θ = 0, bar held at θ = π/2: the line of action passes through
    // the centre, so M = P·r·sin θ, N = −M/r, V = P·cos θ, just as in a ring. Work of the unit load's forces on the
    // law's strains, per angle: M̄·(turn of the section) + N̄·(stretch) + V̄·(shear angle)·r. The turn rate
    // contains the coupling between M and N, and the stretch (N + κ₀·M)/EA vanishes with N = −M/r. Integrals of sin²
    // and cos² over the quarter are π/4 each.
    const errors = WALLS.map((t) => {
      const [a, b] = [1 - t / 2, 1 + t / 2];
      const exact = (Math.PI * (a ** 2 + b ** 2)) / (a ** 2 - b ** 2 + (a ** 2 + b ** 2) * Math.log(b / a));
      const bending = turnRate(t, 1, -1);
      const shearing = curvedBar(t).shearCompliance;
      return relativeError((Math.PI / 4) * (bending + shearing), exact);
    });
    expectFourthOrder("end force", errors, END_FORCE_BOUND);
  });

  test("which the thin law misses by t²/30 in pure bending", () => {
    // So the agreement above is the correction's doing, not the test's blindness.
    const t = 0.2;
    const [a, b] = [1 - t / 2, 1 + t / 2];
    const N = (b ** 2 - a ** 2) ** 2 - 4 * a ** 2 * b ** 2 * Math.log(b / a) ** 2;
    const I = secondMoment(t, 1);
    const M = SMALL * I;
    const thin = (1 - thinLaw(1 / I).freeCurvature(M, 0, 1, 1)) / M;
    expect(relativeError(thin, (8 * (b ** 2 - a ** 2)) / N)).toBeGreaterThan((0.9 * t ** 2) / 30);
  });
});

describe("curvedSecondMoment", () => {
  test.each([
    [1, 0.001],
    [2, 0.05],
    [4.4, 0.0176],
    [3, 0.2],
    [1, 0.66],
    [3, -0.05],
    [2, 0],
  ])("of a wall of %s at curvature %s is the integral of y²/(1 + κ·y) over the section", (a, kappa) => {
    const h = 1.7;
    // Simpson's rule with 2000 intervals; |κ·a/2| ≤ 0.33, so its error is below 1e-13 of the result.
    const intervals = 2000;
    let sum = 0;
    for (let i = 0; i <= intervals; i++) {
      const y = -a / 2 + (a * i) / intervals;
      const weight = i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2;
      sum += (weight * y * y) / (1 + kappa * y);
    }
    const integral = (h * sum * a) / intervals / 3;
    expect(relativeError(curvedSecondMoment(secondMoment(a, h), a, kappa), integral)).toBeLessThan(1e-12);
  });

  test("of a straight bar is h·a³/12", () => {
    expect(curvedSecondMoment(secondMoment(3, 2), 3, 0)).toBe((2 * 3 ** 3) / 12);
  });
});

describe("curvedFibreStress", () => {
  test("gives the stresses of the crane hook, +16.9 inside and −5.63 kpsi outside", () => {
    // Shigley's Mechanical Engineering Design, 9th ed., Fig. 3–35: 0.75 × 4 in section, radii 2 and 6 in, 5000 lbf
    // (force from memory). The force opens the hook about the centroid at 4 in: M = −F·4, N = F.
    const [height, wall, force, radius] = [0.75, 4, 5000, 4];
    const stress = curvedFibreStress(-force * radius, force, 1 / radius, wall, height);
    // Three figures are printed: half a unit of the last.
    reached("hook", "stress inside", Math.abs(stress.inner / 1000 - 16.9), 0.05);
    reached("hook", "stress outside", Math.abs(stress.outer / 1000 - -5.63), 0.005);
    // Shigley's own formula in full: σ = F/A ± M·c/(A·e·r), r_n = a/ln(ro/ri), e = r_c − r_n.
    const neutral = wall / Math.log(6 / 2);
    const eccentricity = radius - neutral;
    const A = wall * height;
    const inner = force / A + (force * radius * (neutral - 2)) / (A * eccentricity * 2);
    const outer = force / A - (force * radius * (6 - neutral)) / (A * eccentricity * 6);
    // e is a difference that loses one digit.
    expect(relativeError(stress.inner, inner)).toBeLessThan(1e-13);
    expect(relativeError(stress.outer, outer)).toBeLessThan(1e-13);
  });

  test("carries exactly the moment and the force given", () => {
    const [a, h, kappa0, M, N] = [3, 2, 0.15, 500, -40];
    const { outer, inner } = curvedFibreStress(M, N, kappa0, a, h);
    // The distribution is (S0 + S1·y)/(1 + κ0·y); the two fibres give S0 and S1.
    const s0 = (outer * (1 + (kappa0 * a) / 2) + inner * (1 - (kappa0 * a) / 2)) / 2;
    const s1 = (outer * (1 + (kappa0 * a) / 2) - inner * (1 - (kappa0 * a) / 2)) / a;
    const intervals = 2000;
    let [force, moment] = [0, 0];
    for (let i = 0; i <= intervals; i++) {
      const y = -a / 2 + (a * i) / intervals;
      const weight = ((i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2) * a * h) / intervals / 3;
      const stress = (s0 + s1 * y) / (1 + kappa0 * y);
      force += weight * stress;
      moment += weight * stress * y;
    }
    // Simpson's error, and the force is a small difference of face stresses some fifty times its own.
    expect(relativeError(force, N)).toBeLessThan(1e-10);
    expect(relativeError(moment, M)).toBeLessThan(1e-11);
  });
});
