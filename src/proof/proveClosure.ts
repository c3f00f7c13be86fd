import { fitCircle } from "../elastica/circle.js";
import { forwardLaw } from "../elastica/forwardLaw.js";
import { localPolynomial } from "../elastica/interpolate.js";
import { integrateAdaptive } from "../elastica/rungeKutta.js";
import type { CutRing } from "../ends/cutRing.js";
import { cutAngles, type Point } from "../shape/outline.js";

/**
 * How the free ring closes under the design pressure, found by a forward computation. Lengths in mm, angles in
 * radians. The errors are those of the computation, not of the theory; see the finite-element checks for that.
 */
export interface ClosureProof {
  /** Mean radius of the closed outer face minus the bore's. */
  readonly meanRadiusError: number;
  /** Largest distance of the closed outer face from the bore's radius, about the fitted centre. */
  readonly radialError: number;
  /** Largest minus smallest distance of the closed outer face from the fitted centre. */
  readonly outOfRound: number;
  /** Distance between the closed end faces at mid wall. */
  readonly closedGap: number;
  /** Angle between the closed end faces. */
  readonly facesOutOfParallel: number;
  /** Force left over at the far end, relative to p₀·h·R. */
  readonly forceResidual: number;
}

/**
 * Closes a designed ring again, independently of the way in which it was found.
 *
 * From the right end of the free ring, where only the overhang of the cut carries load, it integrates the elastica
 * along the free arc under the design pressure as a follower load, to the left end. It uses the free curvature,
 * section, material, pressure and cut angle; of the circle that should result only the nominal radius, to which the
 * bar law's correction for thick walls refers. Then it fits a circle to the outer face. At 180 stations a sound
 * design gives errors under 1e-11 of the bore.
 *
 * @param design the ring to prove, as designed
 * @returns the errors; it judges nothing
 * @throws Error when the integration does not reach the other end
 *
 * @example
 * proveClosure(designRing(spec)).closedGap.toFixed(6); // "0.450000"
 */
export function proveClosure(design: CutRing): ClosureProof {
  const { spec, free, installed, ends, load } = design;
  const { radialThickness: a, axialHeight: h } = spec.section;
  const law = forwardLaw(spec, installed.centroidRadius);
  const shear = law.shearCompliance;
  const last = free.arcLength.length - 1;

  /** Stretch and turn of the tangent per unit free length at a section under V, N, M and pressure p. */
  const deformAt = (kappa0: number, moment: number, normal: number, p: number) => {
    const { stretch, sectionTurn } = law.deform(kappa0, moment, normal);
    // The tangent leads the section by the shear angle, whose rate follows from V′ = −p·h·(λ + k·a/2) − k·N.
    const turn = (sectionTurn - shear * p * h * stretch) / (1 + shear * (normal + (p * h * a) / 2));
    return { stretch, turn };
  };

  /** Forces on an end section from the part of the outer face that overhangs it. */
  const overhang = (end: number) => {
    const kappa0 = free.curvature[end];
    const { stretch, turn } = deformAt(kappa0, 0, 0, installed.pressure[end]);
    const rho = stretch / turn;
    const { outer } = cutAngles(rho, a, ends.faceToNormal);
    // The pressure half-way along the overhang, a small step past the table.
    const beyond = (end === 0 ? -1 : 1) * 0.5 * rho * outer;
    const pressureAt = localPolynomial(free.arcLength, installed.pressure, end === 0 ? 0 : end - 1);
    const unit = pressureAt(free.arcLength[end] + beyond) * h * (rho + a / 2);
    return {
      moment: unit * rho * (1 - Math.cos(outer)),
      inward: unit * Math.sin(outer),
      along: -unit * (1 - Math.cos(outer)),
    };
  };

  // State: x, y, tangent, force on the section from the part nearer the right end (two components), moment.
  const start = overhang(last);
  let state = [0, 0, 0, start.along, start.inward, start.moment];
  const tangentialForce = load.tangentialForce;
  const R = installed.outerRadius;
  const scales = [R, R, 1, tangentialForce, tangentialForce, tangentialForce * R];
  const outerFace: Point[] = [outerPoint(state, a)];
  for (let i = last - 1; i >= 0; i--) {
    const curvatureAt = localPolynomial(free.arcLength, free.curvature, i);
    const pressureAt = localPolynomial(free.arcLength, installed.pressure, i);
    const derivative = (s: number, y: readonly number[], out: number[]) => {
      const [, , tangent, fx, fy, moment] = y;
      const c = Math.cos(tangent);
      const sn = Math.sin(tangent);
      const normal = fx * c + fy * sn;
      const inward = fy * c - fx * sn;
      const p = pressureAt(s);
      const { stretch, turn } = deformAt(curvatureAt(s), moment, normal, p);
      const push = p * h * (stretch + (turn * a) / 2);
      out[0] = stretch * c;
      out[1] = stretch * sn;
      out[2] = turn;
      out[3] = push * sn;
      out[4] = -push * c;
      out[5] = -stretch * inward;
    };
    state = integrateAdaptive(derivative, state, free.arcLength[i + 1], free.arcLength[i], scales);
    outerFace.push(outerPoint(state, a));
  }

  const circle = fitCircle(outerFace);
  const distances = outerFace.map(([x, y]) => Math.hypot(x - circle.x, y - circle.y));
  const [x, y, tangent, fx, fy, moment] = state;
  // The part nearer the left end must be held by the overhang there alone, the mirror image of the right one.
  const far = overhang(0);
  const along = fx * Math.cos(tangent) + fy * Math.sin(tangent) - far.along;
  const inward = fy * Math.cos(tangent) - fx * Math.sin(tangent) + far.inward;
  // Face directions, outward: section normal turned by δ towards each end. The right one starts along (0, −1).
  const delta = ends.faceToNormal;
  const right = Math.PI / -2 + delta;
  const left = tangent - Math.PI / 2 - delta;
  const parallel = (left - right + 20 * Math.PI) % (2 * Math.PI);
  const facesOutOfParallel = Math.min(parallel, 2 * Math.PI - parallel);
  // Across the gap, from the right face to the left one; negative where the ends would cross.
  const across = right + Math.PI / 2;
  const closedGap = x * Math.cos(across) + y * Math.sin(across);
  return {
    meanRadiusError: circle.radius - R,
    radialError: Math.max(...distances.map((distance) => Math.abs(distance - R))),
    outOfRound: Math.max(...distances) - Math.min(...distances),
    closedGap,
    facesOutOfParallel,
    forceResidual: Math.max(Math.hypot(along, inward), Math.abs(moment - far.moment) / R) / tangentialForce,
  };
}

function outerPoint([x, y, tangent]: number[], a: number): Point {
  return [x + (a / 2) * Math.sin(tangent), y - (a / 2) * Math.cos(tangent)];
}
