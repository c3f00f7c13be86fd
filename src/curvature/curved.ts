import type { Bar } from "./bar.js";
import type { BarLaw } from "./law.js";

/**
 * The law of a thick curved bar that also shears: λκ − κ₀ is the bar's turn, κ the curvature of its sections.
 *
 * @param bar what forces do to the section
 * @param EA Young's modulus times the area that shears, N
 */
export function curvedLaw(bar: Bar, EA: number): BarLaw {
  return {
    flexibility: bar.flexibility,
    shearCompliance: 12 / (5 * EA),
    turn: bar.turn,
    stretch: (moment, normal, kappa0) => 1 + bar.strain(moment, normal, kappa0),
    freeCurvature(moment, normal, kappa, guess) {
      // Newton's method. The slope of the bending term alone leaves a residual slope of about (2K·a/r)², so an
      // error below 1e-11 is gone after one more step.
      let kappa0 = guess;
      const stepFactor = 1 / (1 + bar.stiffening * moment * guess);
      for (let turn = 0; turn < 60; turn++) {
        const lambda = 1 + bar.strain(moment, normal, kappa0);
        const next = lambda * kappa - bar.turn(moment, normal, kappa0);
        const change = (next - kappa0) * stepFactor;
        kappa0 += change;
        if (Math.abs(change) <= 1e-11 * kappa) break;
      }
      return kappa0;
    },
  };
}
