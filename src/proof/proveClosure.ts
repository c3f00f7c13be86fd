import { forwardLaw, shearSlope } from "../elastica/forwardLaw.js";
import { intervals } from "../elastica/ringTables.js";
import type { CutRing } from "../ends/cutRing.js";
import { fitCircle } from "../numeric/fitCircle.js";
import type { Point } from "../numeric/point.js";
import { integrateAdaptive } from "../numeric/rungeKutta.js";
import type { Wall } from "../section/wall.js";
import { cutAngle } from "../shape/outline.js";

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
 * design gives errors under 1e-11 of the bore; with sampled pressures or walls, whose curves are less smooth than the
 * tables' polynomials, under 1e-7, falling with the stations.
 *
 * Method: docs/theory/06-stress-and-proof.md.
 *
 * @param design the ring to prove, as designed
 * @returns the errors; it judges nothing
 * @throws NotFound when the integration does not reach the other end
 *
 * @example
 * proveClosure(design).closedGap; // 0.450000, mm
 */
export function proveClosure(design: CutRing): ClosureProof {
  const { spec, free, installed, ends, load } = design;
  const { radialThickness: a, axialHeight: h } = spec.section;
  const law = forwardLaw(spec, installed.centroidRadius);
  const pieces = intervals({
    arcLength: free.arcLength,
    curvature: free.curvature,
    pressure: installed.pressure,
    nominal: a,
    wall: design.wall,
  });
  const last = free.arcLength.length - 1;

  /** Stretch and turn of the tangent per unit free length at a section under M, N, V and pressure p. */
  const deformAt = (
    wall: Wall,
    kappa0: number,
    forces: { moment: number; normal: number; inward: number },
    p: number,
    slope: number,
  ) => {
    const { moment, normal, inward } = forces;
    const { stretch, sectionTurn } = law.deform(wall, kappa0, moment, normal);
    const shear = law.shearCompliance(wall);
    // The tangent leads the section by the shear angle, whose rate follows from V′ = −p·h·(λ + k·a/2) − k·N.
    const turn =
      (sectionTurn + slope * inward - shear * p * h * stretch) / (1 + shear * (normal + (p * h * a) / 2));
    return { stretch, turn };
  };

  /** Forces on an end section from the part of the outer face that overhangs it. */
  const overhang = (end: "left" | "right") => {
    const at = end === "left" ? 0 : last;
    const piece = end === "left" ? pieces[0] : pieces[pieces.length - 1];
    const s = free.arcLength[at];
    const unloaded = { moment: 0, normal: 0, inward: 0 };
    const { stretch, turn } = deformAt(
      piece.wallAt(s),
      free.curvature[at],
      unloaded,
      installed.pressure[at],
      0,
    );
    const rho = stretch / turn;
    const outer = cutAngle(rho, a / 2, ends.faceToNormal);
    // The pressure half-way along the overhang, a small step past the table.
    const beyond = (end === "left" ? -1 : 1) * 0.5 * rho * outer;
    const unit = piece.pressureAt(s + beyond) * h * (rho + a / 2);
    return {
      moment: unit * rho * (1 - Math.cos(outer)),
      inward: unit * Math.sin(outer),
      along: -unit * (1 - Math.cos(outer)),
    };
  };

  // State: x, y, tangent, force on the section from the part nearer the right end (two components), moment.
  const start = overhang("right");
  let state = [0, 0, 0, start.along, start.inward, start.moment];
  const tangentialForce = load.tangentialForce;
  const R = installed.outerRadius;
  const scales = [R, R, 1, tangentialForce, tangentialForce, tangentialForce * R];
  const outerFace: Point[] = [outerPoint(state, a)];
  for (const piece of [...pieces].reverse()) {
    const derivative = (s: number, y: readonly number[], out: number[]) => {
      const [, , tangent, fx, fy, moment] = y;
      const c = Math.cos(tangent);
      const sn = Math.sin(tangent);
      const normal = fx * c + fy * sn;
      const inward = fy * c - fx * sn;
      const p = piece.pressureAt(s);
      const slope = shearSlope(law, piece, s);
      const { stretch, turn } = deformAt(
        piece.wallAt(s),
        piece.curvatureAt(s),
        { moment, normal, inward },
        p,
        slope,
      );
      const push = p * h * (stretch + (turn * a) / 2);
      out[0] = stretch * c;
      out[1] = stretch * sn;
      out[2] = turn;
      out[3] = push * sn;
      out[4] = -push * c;
      out[5] = -stretch * inward;
    };
    state = integrateAdaptive(derivative, state, piece.from, piece.to, scales);
    outerFace.push(outerPoint(state, a));
  }

  const circle = fitCircle(outerFace);
  const distances = outerFace.map(([x, y]) => Math.hypot(x - circle.x, y - circle.y));
  const [x, y, tangent, fx, fy, moment] = state;
  // The part nearer the left end must be held by the overhang there alone, the mirror image of the right one.
  const far = overhang("left");
  const along = fx * Math.cos(tangent) + fy * Math.sin(tangent) - far.along;
  const inward = fy * Math.cos(tangent) - fx * Math.sin(tangent) + far.inward;
  // Face directions, outward: section normal turned by δ towards each end. The right one starts along (0, −1).
  const delta = ends.faceToNormal;
  const right = Math.PI / -2 + delta;
  const left = tangent - Math.PI / 2 - delta;
  const parallel = (left - right + 20 * Math.PI) % (2 * Math.PI);
  const facesOutOfParallel = Math.min(parallel, 2 * Math.PI - parallel);
  // Across the gap, from the right face to the left one; negative where the ends would cross. Along parallel faces it
  // is the same at mid wall as at the line.
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
