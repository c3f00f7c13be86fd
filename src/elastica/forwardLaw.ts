/**
 * The bar's law read forwards, for the proofs: from the free curvature and the forces to the deformed state. It is
 * written from the definition, by quadrature over the wall, and shares no code with the inverse.
 */
export interface ForwardLaw {
  /** Stretch λ of the centroid line and rotation of the sections per unit free length, 1/mm. */
  deform(kappa0: number, moment: number, normal: number): { stretch: number; sectionTurn: number };
  /** Shear angle per shear force, 1/N. */
  readonly shearCompliance: number;
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

/**
 * @param ring theory, section and material
 * @param nominalRadius radius to which the law's correction for thick walls refers, mm
 */
export function forwardLaw(ring: BarOfRing, nominalRadius: number): ForwardLaw {
  const { radialThickness: a, axialHeight: h } = ring.section;
  const E = ring.material.youngsModulus;
  if (ring.theory === "thin") {
    const flexibility = 12 / (E * h * a ** 3);
    return {
      shearCompliance: 0,
      deform: (kappa0, moment) => ({ stretch: 1, sectionTurn: kappa0 + moment * flexibility }),
    };
  }
  const correction = 1 + (a / nominalRadius) ** 2 / 10;
  return {
    shearCompliance: 2.4 / (E * a * h),
    deform(kappa0, moment, normal) {
      let [Z0, Z1, Z2] = [0, 0, 0];
      for (const [node, weight] of GAUSS) {
        for (const y of [(-node * a) / 2, (node * a) / 2]) {
          const share = (weight * 0.5 * a * h) / (1 + kappa0 * y);
          Z0 += share;
          Z1 += share * y;
          Z2 += share * y * y;
        }
      }
      const determinant = E * (Z0 * Z2 - Z1 * Z1);
      const strain = (Z2 * normal - Z1 * moment) / determinant;
      const turn = (Z0 * moment - Z1 * normal) / determinant;
      return { stretch: 1 + strain, sectionTurn: kappa0 + correction * turn };
    },
  };
}
