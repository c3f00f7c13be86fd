import type { Wall } from "../section/wall.js";

/**
 * The bar's law read forwards, for the proofs: from the free curvature and the forces to the deformed state. It is
 * written from the definition, by quadrature over the wall, and shares no code with the inverse.
 */
export interface ForwardLaw {
  /** Stretch λ of the ring's line and rotation of the sections per unit free length, 1/mm, for a wall. */
  deform(
    wall: Wall,
    kappa0: number,
    moment: number,
    normal: number,
  ): { stretch: number; sectionTurn: number };
  /** Shear angle per shear force, 1/N. */
  shearCompliance(wall: Wall): number;
}

/** Gauss–Legendre nodes and weights on −1 … 1, ten points (NIST DLMF, table 3.5.2). */
const GAUSS = [
  [0.14887433898163122, 0.2955242247147529],
  [0.4333953941292472, 0.2692667193099964],
  [0.6794095682990244, 0.219086362515982],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.0666713443086881],
] as const;

/** What the law needs to know of a design. */
interface BarOfRing {
  readonly theory: "thin" | "curved";
  readonly section: { readonly radialThickness: number; readonly axialHeight: number };
  readonly material: { readonly youngsModulus: number };
}

type Deformation = { strain: number; turn: number };

/**
 * @param ring theory, nominal section and material
 * @param nominalRadius radius to which the law's correction for thick walls refers, mm
 */
export function forwardLaw(ring: BarOfRing, nominalRadius: number): ForwardLaw {
  const { radialThickness: nominal, axialHeight: h } = ring.section;
  const E = ring.material.youngsModulus;

  const thin = (a: number, moment: number): Deformation => ({
    strain: 0,
    turn: (12 * moment) / (E * h * a ** 3),
  });

  /** A wall of thickness a under the outer face. */
  const curved = (a: number, taper: number, kappa0: number, moment: number, normal: number): Deformation => {
    const middle = (nominal - a) / 2;
    let [Z0, Z1, Z2] = [0, 0, 0];
    for (const [node, weight] of GAUSS) {
      for (const y of [middle - (node * a) / 2, middle + (node * a) / 2]) {
        const share = (weight * 0.5 * a * h) / (1 + kappa0 * y);
        Z0 += share;
        Z1 += share * y;
        Z2 += share * y * y;
      }
    }
    const determinant = E * (Z0 * Z2 - Z1 * Z1);
    const strain = (Z2 * normal - Z1 * moment) / determinant;
    const turn = (Z0 * moment - Z1 * normal) / determinant;
    // The corrections for thick and for sloping walls turn the section about its own middle.
    const extraTurn = ((a / nominalRadius) ** 2 / 10 + taper) * turn;
    return { strain: strain - middle * extraTurn, turn: turn + extraTurn };
  };

  return {
    shearCompliance: ({ thickness }) => (ring.theory === "thin" ? 0 : 2.4 / (E * thickness * h)),
    deform({ thickness, taper = 0, slotted }, kappa0, moment, normal) {
      const under = (a: number) =>
        ring.theory === "thin" ? thin(a, moment) : curved(a, taper, kappa0, moment, normal);
      const whole = under(thickness);
      const net = slotted ? under(slotted.net) : whole;
      const share = slotted?.share ?? 0;
      const mixed = (key: keyof Deformation) => (1 - share) * whole[key] + share * net[key];
      return { stretch: 1 + mixed("strain"), sectionTurn: kappa0 + mixed("turn") };
    },
  };
}

/**
 * d(shear compliance)/ds where the wall varies, 1/(N·mm): the tangent leads the sections by c·V, so c′·V turns it too.
 *
 * @param wallAt wall over the free arc length
 * @param s where, mm
 * @param small a length over which the wall hardly changes, mm
 */
export function shearSlope(law: ForwardLaw, wallAt: (s: number) => Wall, s: number, small: number): number {
  return (law.shearCompliance(wallAt(s + small)) - law.shearCompliance(wallAt(s - small))) / (2 * small);
}
