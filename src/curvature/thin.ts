import type { BarLaw } from "./law.js";

/**
 * The textbook ring: an inextensible line with κ₀ = κ − M/(E·I), no shear.
 *
 * @param E Young's modulus, MPa
 * @param I second moment of area, mm⁴
 */
export function thinBar(E: number, I: number): BarLaw {
  const bendingStiffness = E * I;
  return {
    bendingStiffness,
    shearCompliance: 0,
    freeCurvature: (moment, _normal, kappa) => kappa - moment / bendingStiffness,
    stretch: () => 1,
  };
}
