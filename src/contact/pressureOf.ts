import { ringBend } from "../curvature/law.js";
import { closedGeometry } from "../forces/geometry.js";
import { type BandedRows, solveBanded } from "../numeric/banded.js";
import { differenceWeights, stencilStart } from "../numeric/finiteDifference.js";
import type { GivenRing } from "./givenRing.js";
import { nodesOf } from "./nodes.js";

/** What an end of the ring would need from outside to lie on the bore like the rest. */
export interface EndCondition {
  /** Couple, N·mm, closing positive: bends the end of a ring whose end curvature is not the bore's. */
  readonly couple: number;
  /** Radial force on the tip, N, inward positive; a negative one would have to pull it off the bore. */
  readonly force: number;
  /** Whether the end needs no couple, so that the pressure is what a free end has. */
  readonly meets: boolean;
}

/** The pressure that a free curvature makes while the ring touches a round bore everywhere. */
export interface MadePressure {
  /** Radians from the back, as in the ring given. */
  readonly theta: number[];
  /** MPa; negative where the ring would lift. */
  readonly pressure: number[];
  /** N·mm, closing positive. */
  readonly moment: number[];
  /** What each end would need. */
  readonly ends: {
    /** The end at −θC. */
    readonly left: EndCondition;
    /** The end at θC. */
    readonly right: EndCondition;
  };
  /** Arcs of negative pressure. */
  readonly lifts: {
    /** First station of it, radians from the back. */
    readonly from: number;
    /** Last station of it, radians from the back. */
    readonly to: number;
    /** Lowest pressure on it, MPa. */
    readonly lowest: number;
  }[];
  /** Whether the ring really touches all round: no lifts, no couple, and no pull on a tip. */
  readonly touches: boolean;
}

/** Points to a difference formula: with a smooth curvature errors are of the order step⁷. */
const STENCIL = 9;
/** An end couple below this share of the largest moment counts as none. */
const NO_COUPLE = 0.01;
/** Negative pressures and forces on the tips below this share of the largest, or of it times h·R, are rounding. */
const ROUNDING = 1e-6;

/**
 * Backwards: the contact pressure of a ring with a given free curvature, closed in its round bore, as long as it
 * touches everywhere. Where the answer is negative, or an end is not met, it does not; then this is not the pressure.
 *
 * The bar's law gives M at each station, M″ + M = h·R·r·p then p. In the curved theory the sections' curvature holds
 * M″ itself, (1 + (c·M′)′/r)/r with the shear compliance c, and a banded system is solved for M. Its ends are free,
 * M = M′ = 0 at θL, where the curvature there allows it; otherwise they get the couple that the curvature asks for.
 * Curvature is differentiated twice: an error of order n in it comes out n² as large. A curvature that goes on smoothly
 * over the end of a slotted zone asks for a jump in M there, which shows as a spike.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @throws SpecError for tables that are unsorted, too short, not finite, or do not cover the ring
 *
 * @example
 * const { pressure, touches } = pressureOf(design); // that of the design, to rounding
 * touches; // true
 */
export function pressureOf(ring: GivenRing): MadePressure {
  const { spec, free } = ring;
  const { radialThickness, axialHeight: h } = spec.section;
  const geometry = closedGeometry(spec.bore, radialThickness, spec.closedGap);
  const { outerRadius: R, centroidRadius: r, loadLimit } = geometry;
  const nodes = nodesOf(ring, geometry);
  const count = nodes.length;
  const last = count - 1;

  // The law is linear in M for a known κ₀: turn = T·M, strain = S·M, both with N = −M/r.
  const wanted = nodes.map(({ laws }) => mean(laws.map(({ kappa0 }) => 1 / r - kappa0)));
  const bends = nodes.map(({ laws }) => laws.map(({ law, kappa0 }) => ringBend(law, kappa0, r)));
  const turns = bends.map((ones) => mean(ones.map(({ turn }) => turn)));
  const strains = bends.map((ones) => mean(ones.map(({ strain }) => strain)));
  const shear = nodes.map(({ laws }) => mean(laws.map(({ law }) => law.shearCompliance)));
  const thinMoment = wanted.map((value, i) => value / (turns[i] - strains[i] / r));
  const largest = Math.max(...thinMoment.map(Math.abs));
  const stencils = nodes.map(({ theta }, i) => {
    const start = stencilStart(i, count, STENCIL);
    const [, first, second] = differenceWeights(
      theta,
      nodes.slice(start, start + STENCIL).map((node) => node.theta),
    );
    return { start, first, second };
  });
  const differenced = (f: readonly number[], i: number, order: "first" | "second") =>
    stencils[i][order].reduce((sum, weight, k) => sum + weight * f[stencils[i].start + k], 0);
  const shearSlope = shear.map((_, i) => differenced(shear, i, "first"));
  /** Of the solutions of the equation the smooth one: M without shear, and what shear adds to that. */
  const smoothMoment = (i: number) =>
    thinMoment[i] +
    (shear[i] * differenced(thinMoment, i, "second") + shearSlope[i] * differenced(thinMoment, i, "first")) /
      (r * r * (turns[i] - strains[i] / r));
  const meets = (end: number) => Math.abs(smoothMoment(end)) <= NO_COUPLE * largest;

  let moment = thinMoment;
  if (shear[0] > 0) {
    // λ multiplies the shear term; it is 1 to some 1e-5, so the second turn is exact.
    for (let turn = 0; turn < 3; turn++) {
      const right = [...wanted];
      const rows = nodes.map((_, i) => {
        const { start, first, second } = stencils[i];
        const own = i - start;
        if ((i === 0 || i === last) && !meets(i)) {
          right[i] = smoothMoment(i);
          return first.map((_, k) => (k === own ? 1 : 0));
        }
        if (i === 0 || i === last) {
          // M and M′ vanish at θL, a little beyond. With M″ linear up to there, M + ⅔·d·M′ + ⅙·d²·M″ = 0.
          const reach = (i === 0 ? -1 : 1) * (loadLimit - Math.abs(nodes[i].theta));
          right[i] = 0;
          return second.map(
            (weight, k) => (k === own ? 1 : 0) + (2 / 3) * reach * first[k] + (reach ** 2 / 6) * weight,
          );
        }
        const stretch = (1 + strains[i] * moment[i]) / (r * r);
        return second.map(
          (weight, k) =>
            (k === own ? turns[i] - strains[i] / r : 0) -
            stretch * (shear[i] * weight + shearSlope[i] * first[k]),
        );
      });
      const matrix: BandedRows = { start: stencils.map(({ start }) => start), rows };
      moment = solveBanded(matrix, right);
    }
  }

  const pressure = moment.map((M, i) => (differenced(moment, i, "second") + M) / (h * R * r));
  const endCondition = (end: number): EndCondition => {
    const side = end === 0 ? -1 : 1;
    const reach = loadLimit - Math.abs(nodes[end].theta);
    const slope = side * differenced(pressure, end, "first");
    const overhang = h * R * (pressure[end] * Math.sin(reach) + 0.5 * slope * reach ** 2);
    return {
      couple: meets(end) ? 0 : moment[end],
      force: (-side * differenced(moment, end, "first")) / r - overhang,
      meets: meets(end),
    };
  };
  const nodeOf = new Map(nodes.map(({ theta }, i) => [theta, i]));
  const whole = (values: readonly number[]) => free.theta.map((angle) => values[nodeOf.get(angle) as number]);
  const ends = { left: endCondition(0), right: endCondition(last) };
  const lifts = negativeArcs(
    nodes.map(({ theta }) => theta),
    pressure,
  );
  // What the overhang carries is good to the third order of its angle.
  const doubt = ROUNDING + (loadLimit - nodes[last].theta) ** 3;
  const pullLimit = -doubt * h * R * Math.max(...pressure.map(Math.abs));
  const bearsItself = ({ meets, force }: EndCondition) => meets && force >= pullLimit;
  return {
    theta: [...free.theta],
    pressure: whole(pressure),
    moment: whole(moment),
    ends,
    lifts,
    touches: lifts.length === 0 && bearsItself(ends.left) && bearsItself(ends.right),
  };
}

function negativeArcs(theta: readonly number[], pressure: readonly number[]): MadePressure["lifts"] {
  const limit = -ROUNDING * Math.max(...pressure.map(Math.abs));
  const arcs: { from: number; to: number; lowest: number }[] = [];
  let open = false;
  for (const [i, p] of pressure.entries()) {
    if (p >= limit) {
      open = false;
      continue;
    }
    if (!open) arcs.push({ from: theta[i], to: theta[i], lowest: p });
    open = true;
    const arc = arcs[arcs.length - 1];
    arc.to = theta[i];
    arc.lowest = Math.min(arc.lowest, p);
  }
  return arcs;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
