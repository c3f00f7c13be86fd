import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import type { BarLaw } from "./law.js";

/**
 * Thick curved bar of rectangular section.
 *
 * Sections stay plane: a fibre y outward of the centroid is strained by
 * ε(y) = [(λ − 1) + (λκ − κ₀)·y]/(1 + κ₀·y), and N = E∫ε dA, M = E∫ε·y dA. Since Z₁ = −κ₀·Z₂ and Z₀ = A + κ₀²·Z₂,
 * where Zₖ = ∫yᵏ/(1 + κ₀·y) dA, the two equations reduce to
 *
 *   λ = 1 + (N + κ₀·M)/(E·A),   λκ − κ₀ = (1 + c)·[M/(E·Z₂) + κ₀·(λ − 1)].
 *
 * c = (a/r)²/10 lifts Winkler's flexibility in pure bending, 1 − (a/r)²/15, to the exact plane-stress one,
 * 1 + (a/r)²/30; the shear angle V·12/(5·E·A), free of Poisson's ratio, does the same for an end force. Both agree
 * with the exact solutions to order (a/r)⁴, for a rectangle only.
 *
 * @param E Young's modulus, MPa
 * @param a radial wall thickness, mm
 * @param h axial height, mm
 * @param r centroid radius when closed, mm, a/r < 2/3
 *
 * Source: S. Timoshenko & J. N. Goodier, Theory of Elasticity, the articles on pure bending of curved bars and on
 * bending of a curved bar by a force at the end (from memory, worked again; compared in the tests).
 */
export function curvedBar(E: number, a: number, h: number, r: number): BarLaw {
  const A = area(a, h);
  const I = secondMoment(a, h);
  const bendingStiffness = E * I;
  const EA = E * A;
  const gain = 1 + (a / r) ** 2 / 10;
  const axialCompliance = 1 / EA;
  const stretch = (moment: number, normal: number, kappa0: number) =>
    1 + (normal + kappa0 * moment) * axialCompliance;
  // d/dκ₀ of the bending term, over M·κ₀.
  const slopeFactor = (0.3 * gain * a * a) / bendingStiffness;
  return {
    bendingStiffness,
    shearCompliance: 12 / (5 * EA),
    stretch,
    freeCurvature(moment, normal, kappa, guess) {
      // Newton's method. The slope of the bending term alone leaves a residual slope of about (2K·a/r)², so an
      // error below 1e-11 is gone after one more step.
      let kappa0 = guess;
      const stepFactor = 1 / (1 - slopeFactor * moment * guess);
      for (let turn = 0; turn < 60; turn++) {
        const lambda = stretch(moment, normal, kappa0);
        const bending = moment / (E * curvedSecondMoment(I, a, kappa0));
        const next = lambda * kappa - gain * (bending + kappa0 * (lambda - 1));
        const change = (next - kappa0) * stepFactor;
        kappa0 += change;
        if (Math.abs(change) <= 1e-11 * kappa) break;
      }
      return kappa0;
    },
  };
}
