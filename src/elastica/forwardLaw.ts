import { type Fibre, fibresOf, GAUSS_10 } from "../section/columns.js";
import { isProfiled } from "../section/curvedSection.js";
import { profileOf } from "../section/profile.js";
import type { Wall } from "../section/wall.js";
import type { ProfileFeatures } from "../spec/ringSpec.js";
import type { Interval } from "./ringTables.js";

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

/** What the law needs to know of a design. */
interface BarOfRing {
  readonly theory: "thin" | "curved";
  readonly section: ProfileFeatures & { readonly radialThickness: number; readonly axialHeight: number };
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

  const profile = isProfiled(ring.section) ? fibresOf(profileOf(nominal, h, ring.section)) : undefined;
  const sum = (fibres: readonly Fibre[], f: (y: number) => number) =>
    fibres.reduce((total, { y, area }) => total + area * f(y), 0);
  /** Area, centroid and second moment about it. */
  const plain = (fibres: readonly Fibre[]) => {
    const area = sum(fibres, () => 1);
    const middle = sum(fibres, (y) => y) / area;
    return { area, middle, I: sum(fibres, (y) => (y - middle) ** 2) };
  };
  const whole = profile && plain(profile);

  const thin = (a: number, moment: number): Deformation => ({
    strain: 0,
    turn: moment / (E * (whole?.I ?? (h * a ** 3) / 12)),
  });

  /** Of a profile as they are, of a wall as they are in one from −1 to 1. */
  const fibres = profile ?? GAUSS_10.map(([node, weight]): Fibre => ({ y: node, area: weight * h }));

  const curved = (a: number, taper: number, kappa0: number, moment: number, normal: number): Deformation => {
    // A wall lies under the outer face.
    const [shift, scale] = profile ? [0, 1] : [(nominal - a) / 2, a / 2];
    // The corrections for thick and for sloping walls turn the section about its own middle.
    const middle = whole?.middle ?? (nominal - a) / 2;
    const thickness = whole ? Math.sqrt((12 * whole.I) / whole.area) : a;
    let [Z0, Z1, Z2] = [0, 0, 0];
    for (const fibre of fibres) {
      const y = shift + scale * fibre.y;
      const share = (scale * fibre.area) / (1 + kappa0 * y);
      Z0 += share;
      Z1 += share * y;
      Z2 += share * y * y;
    }
    const determinant = E * (Z0 * Z2 - Z1 * Z1);
    const strain = (Z2 * normal - Z1 * moment) / determinant;
    const turn = (Z0 * moment - Z1 * normal) / determinant;
    const extraTurn = ((thickness / nominalRadius) ** 2 / 10 + taper) * turn;
    return { strain: strain - middle * extraTurn, turn: turn + extraTurn };
  };

  return {
    shearCompliance: ({ thickness }) =>
      ring.theory === "thin" ? 0 : 2.4 / (E * (whole?.area ?? thickness * h)),
    deform({ thickness, taper = 0, slotted }, kappa0, moment, normal) {
      const under = (a: number) =>
        ring.theory === "thin" ? thin(a, moment) : curved(a, taper, kappa0, moment, normal);
      const full = under(thickness);
      const net = slotted ? under(slotted.net) : full;
      const share = slotted?.share ?? 0;
      const mixed = (key: keyof Deformation) => (1 - share) * full[key] + share * net[key];
      return { stretch: 1 + mixed("strain"), sectionTurn: kappa0 + mixed("turn") };
    },
  };
}

/**
 * d(shear compliance)/ds where the wall varies, 1/(N·mm): the tangent leads the sections by c·V, so c′·V turns it too.
 *
 * @param interval in which
 * @param s where, mm
 */
export function shearSlope(
  law: ForwardLaw,
  { wallAt, wallVaries, from, to }: Pick<Interval, "wallAt" | "wallVaries" | "from" | "to">,
  s: number,
): number {
  if (!wallVaries) return 0;
  // A length over which the wall hardly changes.
  const small = 1e-3 * (from - to);
  return (law.shearCompliance(wallAt(s + small)) - law.shearCompliance(wallAt(s - small))) / (2 * small);
}
