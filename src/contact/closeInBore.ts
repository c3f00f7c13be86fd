import { closedGeometry } from "../forces/geometry.js";
import { minimizeBounded } from "../numeric/boundedQuadratic.js";
import { parse } from "../spec/issues.js";
import { readBore } from "./bore.js";
import type { BoreInput } from "./boreSchema.js";
import { checkTables } from "./checkTables.js";
import { type ClosedEnds, closedEnds } from "./closedEnds.js";
import { closureSchema, STATIONS } from "./closureSchema.js";
import { elasticLine, isLoose } from "./elasticLine.js";
import type { GivenRing } from "./givenRing.js";
import { type LightGap, lightGaps } from "./lightGaps.js";
import { NoContact } from "./noContact.js";
import { type PointForce, pointForces } from "./pointForces.js";

/** Of angles, radians. */
const ROUNDING = 1e-12;

/** How a contact is computed. */
export interface ClosureOptions {
  /** Steps per half ring, 8 to 2000; by default the ring's own stations. */
  stations?: number;
  /** Narrowest slit that shows light, mm or a string with a unit, above 0 to 1 mm. Default 0.002 (common practice, no source). */
  sensitivity?: number | string;
}

/** How a ring lies in a bore. Arrays run from the left end over the back to the right end. mm, N, MPa, radians. */
export interface Closure extends ClosedEnds {
  /** Angle of each node from the ring's back. */
  readonly theta: number[];
  /** Contact pressure: the node's force over its share of the outer face. */
  readonly pressure: number[];
  /** Distance between outer face and bore. */
  readonly clearance: number[];
  /** M, N·mm, closing positive. */
  readonly moment: number[];
  /** Forces that stand on a point: at edges of lifted zones and at tips. */
  readonly pointForces: PointForce[];
  /** Arcs that let light past, from left to right. */
  readonly lightGaps: LightGap[];
  /** Narrowest slit that shows light, as asked for. */
  readonly sensitivity: number;
  /** Share of the ring's circumference that lets no light past, 0 to 1. */
  readonly contactShare: number;
  /** Whether the ends would pass through each other: they butt, and the rest is not the ring's true state. */
  readonly endsTouch: boolean;
  /** Sum of all contact forces, N. */
  readonly force: number;
  /** Resultant of all forces on the ring over that sum: 0 but for rounding. */
  readonly forceResidual: number;
  /** Mean of force times clearance, N·mm: 0 but for the solver's tolerance. */
  readonly complementarity: number;
  /** Steps that the solver took. */
  readonly iterations: number;
}

/**
 * Closes a free ring in a bore that may be too large, too small or out of round, without friction: where it touches, with
 * what pressure, and where light passes.
 *
 * The ring is a line that bends, and in the curved theory shears, near the circle on which the bore of mean radius would
 * hold it; deviations w of the bore from round count to first order (the error is w/R of them). Least energy under the
 * condition that no node lies outside the bore is a convex quadratic programme with a band matrix, and is solved by an
 * interior-point method: it always ends, in some 10 to 25 iterations of linear cost.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @param bore by default the ring's own; see {@link BoreInput}
 * @param options nodes, 8 to 2000 a half ring, and sensitivity, mm
 * @throws SpecError for a wrong bore or one that the ring's length cannot enter; NotFound with the residuals if no contact is
 * found
 *
 * @example
 * closeInBore(design, { harmonics: [{ order: 4, amplitude: 0.02 }] }).contactShare; // 0.2813
 */
export function closeInBore(ring: GivenRing, bore: BoreInput = {}, options: ClosureOptions = {}): Closure {
  const { spec } = ring;
  const { radialThickness, axialHeight: h } = spec.section;
  const { sensitivity, stations } = parse(closureSchema, options, "options");
  const geometry = closedGeometry(spec.bore, radialThickness, spec.closedGap);
  checkTables(ring, geometry);
  const own = (ring.free.theta.length - 1) >> 1;
  const half = stations ?? Math.max(STATIONS.min, Math.min(own, STATIONS.max));
  const { meanRadius, deviationAt, largest, backPressure } = readBore(bore, spec.bore);
  const radius = meanRadius - radialThickness / 2;
  const end = (geometry.centroidLimit * geometry.centroidRadius) / radius;
  if (!(end <= Math.PI + ROUNDING)) {
    throw new NoContact(
      "butts",
      bore.diameter,
      `must be wider: the ring's ends would overlap by ${(2 * (end - Math.PI) * radius).toPrecision(3)} mm`,
    );
  }
  const line = elasticLine(ring, geometry, radius, 2 * half);
  const { angle, step, stride, thickness } = line;
  const last = angle.length - 1;

  // A node's share of either face; the outer face of an end reaches a little past its node.
  const overhang = (geometry.loadLimit - geometry.centroidLimit) * (geometry.centroidRadius / radius);
  const outerShare = (i: number) => (i === 0 || i === last ? step / 2 + overhang : step) * meanRadius;
  const innerShare = (i: number) => (i === 0 || i === last ? step / 2 : step) * (meanRadius - thickness[i]);
  const linear = line.linear.slice();
  for (let i = 0; i <= last; i++) linear[stride * i] += backPressure * h * innerShare(i);
  const deviation = angle.map(deviationAt);
  if (backPressure === 0 && isLoose(line)) {
    throw new NoContact(
      "loose",
      bore.diameter ?? spec.bore,
      "must be narrower: the ring is loose in it, since its free shape is no wider, and presses nowhere",
    );
  }
  const typical = line
    .momentAt(new Float64Array(line.matrix.count))
    .reduce((most, M) => Math.max(most, Math.abs(M)), 0);
  const solution = minimizeBounded(
    {
      matrix: line.matrix,
      linear,
      bounded: Int32Array.from(angle, (_, i) => stride * i),
      upper: Float64Array.from(deviation),
    },
    {
      force: (step * typical) / radius + backPressure * h * step * radius + 1e-9,
      slack: largest + 1e-3 * radius,
    },
  );
  const contact = [...solution.force];
  const clearance = [...solution.slack];
  const pressure = contact.map((force, i) => force / (h * outerShare(i)));
  const w = angle.map((_, i) => solution.x[stride * i]);
  const gaps = lightGaps(angle, clearance, sensitivity, meanRadius);
  const dark = gaps.reduce((sum, { from, to }) => sum + to - from, 0);
  const force = contact.reduce((sum, one) => sum + one, 0);
  const inward = contact.map((one, i) => one - backPressure * h * innerShare(i));
  const resultant = Math.hypot(
    inward.reduce((sum, one, i) => sum + one * Math.sin(angle[i]), 0),
    inward.reduce((sum, one, i) => sum + one * Math.cos(angle[i]), 0),
  );
  const ends = closedEnds(w, line, geometry, [
    (radialThickness - thickness[0]) / 2,
    (radialThickness - thickness[last]) / 2,
  ]);
  return {
    theta: angle,
    pressure,
    clearance,
    moment: line.momentAt(solution.x),
    pointForces: pointForces(angle, contact, clearance, outerShare, line.shearLayer / step, sensitivity),
    lightGaps: gaps,
    sensitivity,
    contactShare: 1 - dark / (2 * end),
    ...ends,
    endsTouch: ends.closedGap < -1e-9 * spec.bore,
    force,
    forceResidual: force > 0 ? resultant / force : 0,
    complementarity: solution.complementarity,
    iterations: solution.iterations,
  };
}
