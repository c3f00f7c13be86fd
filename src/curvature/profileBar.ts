import type { CurvedSection } from "../section/curvedSection.js";
import type { Bar } from "./bar.js";

/** Strain λ − 1 of the ring's line and turn λκ − κ₀ of the sections, of a bar whose sections stay plane; without corrections. */
export interface PlaneDeformation {
  readonly strain: number;
  readonly turn: number;
}

/**
 * Winkler's curved bar of any section, by the line: N = E∫ε dA and M = E∫ε·y dA with ε(y) = (strain + turn·y)/(1 + κ₀·y) are two equations
 * with the integrals Zₖ.
 */
export function planeDeformation(
  E: number,
  section: CurvedSection,
  moment: number,
  normal: number,
  kappa0: number,
): PlaneDeformation {
  const [Z0, Z1, Z2] = section.integrals(kappa0);
  const determinant = E * (Z0 * Z2 - Z1 * Z1);
  return {
    strain: (Z2 * normal - Z1 * moment) / determinant,
    turn: (Z0 * moment - Z1 * normal) / determinant,
  };
}

/**
 * Thick curved bar of any section that bends in the plane of the ring, held from twisting.
 *
 * The correction of the rectangle, (a/r)²/10, is taken with the thickness √(12·I/A) of the rectangle that is as stiff for its area; for other
 * sections that is a fair guess and not exact, as is the rectangle's shear. What it changes is of order (a/r)².
 *
 * @param E Young's modulus, MPa
 * @param section of the bar
 * @param r radius of the ring's line when closed, mm
 */
export function profileBar(E: number, section: CurvedSection, r: number): Bar {
  const { area, centroid, inPlane } = section.properties;
  const thickness = Math.sqrt((12 * inPlane) / area);
  const extra = (thickness / r) ** 2 / 10;
  const flexibility = 1 / (E * inPlane);
  const plane = (moment: number, normal: number, kappa0: number) =>
    planeDeformation(E, section, moment, normal, kappa0);
  return {
    strain(moment, normal, kappa0) {
      const { strain, turn } = plane(moment, normal, kappa0);
      // The correction turns the section about its own centroid.
      return strain - centroid.y * extra * turn;
    },
    turn: (moment, normal, kappa0) => (1 + extra) * plane(moment, normal, kappa0).turn,
    flexibility,
    stiffening: -0.3 * (1 + extra) * thickness * thickness * flexibility,
  };
}
