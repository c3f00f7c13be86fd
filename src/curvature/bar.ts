import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import type { Wall } from "../section/wall.js";

/**
 * What forces do to a section of the wall, as seen from the ring's line: the strain λ − 1 of the line and the turn
 * λκ − κ₀ of the sections per unit free length. M in N·mm, N in N, κ₀ in 1/mm, all for the line.
 */
export interface Bar {
  strain(moment: number, normal: number, kappa0: number): number;
  turn(moment: number, normal: number, kappa0: number): number;
  /** 1/(E·I) for small curvature, 1/(N·mm²). */
  readonly flexibility: number;
  /** d(turn)/dκ₀ over M·κ₀, mm/N, near enough for Newton's method. */
  readonly stiffening: number;
}

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
 * @param r radius of the ring's line when closed, mm, a/r < 2/3
 * @param taper what a sloping wall adds, as a share
 *
 * Source: S. Timoshenko & J. N. Goodier, Theory of Elasticity, the articles on pure bending of curved bars and on
 * bending of a curved bar by a force at the end (from memory, worked again; compared in the tests).
 */
export function rectangleBar(E: number, a: number, h: number, r: number, taper = 0): Bar {
  const I = secondMoment(a, h);
  const gain = 1 + (a / r) ** 2 / 10 + taper;
  const axialCompliance = 1 / (E * area(a, h));
  const flexibility = 1 / (E * I);
  return {
    strain: (moment, normal, kappa0) => (normal + kappa0 * moment) * axialCompliance,
    turn: (moment, normal, kappa0) =>
      gain *
      (moment / (E * curvedSecondMoment(I, a, kappa0)) +
        kappa0 * (normal + kappa0 * moment) * axialCompliance),
    flexibility,
    stiffening: -0.3 * gain * a * a * flexibility,
  };
}

/**
 * The same bar seen from a line that runs `offset` inside its centroid: forces are taken over to the centroid, its
 * motion back to the line.
 *
 * @param bar a bar by its own centroid
 * @param offset of the centroid outward of the line, mm
 */
export function offsetBar(bar: Bar, offset: number): Bar {
  if (offset === 0) return bar;
  const atCentroid = (moment: number, normal: number) => moment - normal * offset;
  const turn: Bar["turn"] = (moment, normal, kappa0) => {
    const ratio = 1 + kappa0 * offset;
    return ratio * bar.turn(atCentroid(moment, normal), normal, kappa0 / ratio);
  };
  return {
    turn,
    strain(moment, normal, kappa0) {
      const ratio = 1 + kappa0 * offset;
      const ownStrain = bar.strain(atCentroid(moment, normal), normal, kappa0 / ratio);
      return ratio * ownStrain - offset * turn(moment, normal, kappa0);
    },
    flexibility: bar.flexibility,
    stiffening: bar.stiffening,
  };
}

/** A bar that is `share` of one kind and the rest of another, finely mixed along its length. */
export function mixedBar(bar: Bar, other: Bar, share: number): Bar {
  const mixed = (one: number, two: number) => one + share * (two - one);
  return {
    strain: (moment, normal, kappa0) =>
      mixed(bar.strain(moment, normal, kappa0), other.strain(moment, normal, kappa0)),
    turn: (moment, normal, kappa0) =>
      mixed(bar.turn(moment, normal, kappa0), other.turn(moment, normal, kappa0)),
    flexibility: mixed(bar.flexibility, other.flexibility),
    stiffening: mixed(bar.stiffening, other.stiffening),
  };
}

/**
 * The bar of a wall: a rectangle, or where it is slotted a mixture with its net section. The outer face lies half the
 * nominal thickness outside the ring's line.
 *
 * @param E Young's modulus, MPa
 * @param h axial height, mm
 * @param nominal radial thickness about whose middle the line runs, mm
 * @param r radius of the line when closed, mm
 */
export function wallBar(E: number, h: number, nominal: number, r: number, wall: Wall): Bar {
  const { thickness, taper, slotted } = wall;
  const under = (a: number) => offsetBar(rectangleBar(E, a, h, r, taper), (nominal - a) / 2);
  return slotted ? mixedBar(under(thickness), under(slotted.net), slotted.share) : under(thickness);
}

/**
 * Flexibility 1/(E·I) of a wall in the thin theory, 1/(N·mm²): that of its own section, or the mixture of whole and net
 * section where it is slotted.
 */
export function wallFlexibility(E: number, h: number, { thickness, slotted }: Wall): number {
  const whole = 1 / (E * secondMoment(thickness, h));
  return slotted ? whole + slotted.share * (1 / (E * secondMoment(slotted.net, h)) - whole) : whole;
}
