import type { BarLaw } from "./law.js";

/**
 * The textbook ring: an inextensible line with κ₀ = κ − M/(E·I), no shear.
 *
 * @param flexibility 1/(E·I), 1/(N·mm²)
 */
export function thinLaw(flexibility: number): BarLaw {
  return {
    flexibility,
    shearCompliance: 0,
    freeCurvature: (moment, _normal, kappa) => kappa - moment * flexibility,
    turn: (moment) => moment * flexibility,
    stretch: () => 1,
  };
}
