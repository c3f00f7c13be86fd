import { forwardLaw, shearSlope } from "../elastica/forwardLaw.js";
import { intervals } from "../elastica/ringTables.js";
import { findRoot } from "../numeric/newton.js";
import type { Point } from "../numeric/point.js";
import { integrateAdaptive } from "../numeric/rungeKutta.js";
import { wallAt } from "../section/wall.js";
import { cutAngle } from "../shape/outline.js";
import type { CutRing } from "./cutRing.js";

/** A ring as a band sees it. Every `CutRing` is one. */
export type BandedRing = Pick<CutRing, "spec" | "wall"> & {
  readonly free: Pick<CutRing["free"], "arcLength" | "curvature">;
  readonly installed: Pick<CutRing["installed"], "centroidRadius" | "outerRadius">;
  readonly ends: Pick<CutRing["ends"], "faceToNormal">;
};

/** Equilibrium in a band. */
export interface BandState {
  /** T, N. */
  readonly pull: number;
  /** Tangent at the right end to the pull, radians. */
  readonly rightTangent: number;
  readonly march: March;
}

/**
 * Finds the pull and the turn of a ring held by a band at an opening, by Newton's method.
 *
 * @param ring free ring
 * @param gap opening at mid wall along the pull, mm
 * @param trial first guess of pull (N) and right-hand tangent (radians)
 * @param forceScale typical pull, N
 * @throws NotFound with the residual when no equilibrium is found
 */
export function holdInBand(
  ring: BandedRing,
  gap: number,
  trial: readonly [pull: number, rightTangent: number],
  forceScale: number,
): BandState {
  const march = bandMarch(ring);
  const R = ring.installed.outerRadius;
  const miss = (unknowns: readonly number[]) => {
    const { rise, opening } = march(unknowns as Pair);
    return [rise / R, (opening - gap) / R];
  };
  const steps = [1e-4 * forceScale, 1e-4];
  const unknowns = findRoot(miss, trial, steps, `equilibrium in the band at ${gap} mm`) as Pair;
  const [pull, rightTangent] = unknowns;
  return { pull, rightTangent, march: march(unknowns) };
}

type Pair = [pull: number, rightTangent: number];

/** Where a march from the right end under a trial of pull and right-hand tangent leads. */
export interface March {
  /** Height of the left outer corner over the pull's line, mm. */
  readonly rise: number;
  /** Distance between the ends at mid wall, along the pull, mm. */
  readonly opening: number;
  readonly leftTangent: number;
  /** The outer face at the stations and the tangent there, from the right end to the left one; x along the pull. */
  readonly outer: readonly { readonly point: Point; readonly tangent: number }[];
}

/**
 * A point of an end face from the end of the line, at an offset outward of it; seen from the end's own side.
 *
 * @param rho radius of the free line there, mm
 * @param tangent of the line there, radians
 * @param delta angle of the face to the section normal, radians
 */
export function pointOnFace(rho: number, tangent: number, offset: number, delta: number): Point {
  const angle = tangent + cutAngle(rho, offset, delta);
  return [
    (rho + offset) * Math.sin(angle) - rho * Math.sin(tangent),
    rho * Math.cos(tangent) - (rho + offset) * Math.cos(angle),
  ];
}

/** What a march along a ring from its right end to its left one needs. */
export function marchedRing({ spec, free, installed, ends, wall }: BandedRing) {
  const a = spec.section.radialThickness;
  const thicknessAt = (at: number) => wallAt(a, wall, at).thickness;
  return {
    /** Nominal wall, outer radius when closed, mm; index of the right end. */
    a,
    R: installed.outerRadius,
    last: free.curvature.length - 1,
    law: forwardLaw(spec, installed.centroidRadius),
    /** From the right end to the left one. */
    pieces: intervals({ arcLength: free.arcLength, curvature: free.curvature, nominal: a, wall }).reverse(),
    /** A point of an end face from the end of the line. */
    onFace: (at: number, tangent: number, offset: number) =>
      pointOnFace(1 / free.curvature[at], tangent, offset, ends.faceToNormal),
    thicknessAt,
    /** Of mid wall outward of the line. */
    midWall: (at: number) => (a - thicknessAt(at)) / 2,
  };
}

/** Marches along the ring from right to left, x along the pull; pull in N, tangent at the right end in radians. */
export function bandMarch(ring: BandedRing): (unknowns: Pair) => March {
  const { a, R, last, law, pieces, onFace, midWall } = marchedRing(ring);

  return ([pull, rightTangent]) => {
    const rightCorner = onFace(last, rightTangent, a / 2);
    let state = [0, 0, rightTangent];
    const outerAt = ([x, y, tangent]: readonly number[]) => ({
      point: [x + (a / 2) * Math.sin(tangent), y - (a / 2) * Math.cos(tangent)] as Point,
      tangent,
    });
    const outer = [outerAt(state)];
    for (const piece of pieces) {
      const derivative = (s: number, [, y, tangent]: readonly number[], out: number[]) => {
        const c = Math.cos(tangent);
        const moment = pull * (rightCorner[1] - y - a / 2);
        const section = piece.wallAt(s);
        const { stretch, sectionTurn } = law.deform(section, piece.curvatureAt(s), moment, -pull * (1 + c));
        out[0] = stretch * c;
        out[1] = stretch * Math.sin(tangent);
        out[2] =
          (sectionTurn + shearSlope(law, piece, s) * pull * Math.sin(tangent)) /
          (1 - law.shearCompliance(section) * pull * c);
      };
      state = integrateAdaptive(derivative, state, piece.from, piece.to, [R, R, 1]);
      outer.push(outerAt(state));
    }
    const [x, y, leftTangent] = state;
    // Of points on both faces, at their offsets: from the left one to the right one.
    const between = (leftOffset: number, rightOffset: number): Point => {
      const [dx, dy] = onFace(0, -leftTangent, leftOffset);
      const right = onFace(last, rightTangent, rightOffset);
      return [right[0] - (x - dx), right[1] - (y + dy)];
    };
    const [cornerX, cornerY] = onFace(0, -leftTangent, a / 2);
    const leftCorner: Point = [x - cornerX, y + cornerY];
    return {
      rise: -between(a / 2, a / 2)[1],
      opening: between(midWall(0), midWall(last))[0],
      leftTangent,
      outer: [
        { point: rightCorner, tangent: rightTangent },
        ...outer.slice(1, -1),
        { point: leftCorner, tangent: leftTangent },
      ],
    };
  };
}
