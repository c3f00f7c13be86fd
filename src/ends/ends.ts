import type { Geometry } from "../forces/geometry.js";
import type { Halves } from "../forces/relativeForces.js";

/** One end face. It carries no load, so it moves as a rigid piece with the end of the ring's line. Radians. */
export interface EndFace {
  /** Ω, the turn of the face on opening, seen from its own side: negative when it opens. −π·K for the uniform thin ring. */
  readonly turn: number;
  /** Angle of the free face to the axis through back and gap of the closed ring: |Ω|, since closed it is parallel to it. */
  readonly faceToAxis: number;
}

/**
 * The end faces. Angles in radians, lengths in mm. `turn` and `faceToAxis` are the mean of both ends, which in a
 * symmetric ring are alike: half the angle between the free faces.
 */
export interface Ends extends EndFace, Halves<EndFace> {
  /** δ = asin(s/(2r)), angle of either face to the section normal, in every state. */
  readonly faceToNormal: number;
  /** What a cut square to the ring would leave when closed, mm: gap outside minus gap inside, a·s/r, with wall and radius at the ends. */
  readonly wedgeIfSquare: number;
}

/**
 * @param freeTangents tangent angle ψ of the free ring at either end, seen from its own side, radians
 * @param geometry the closed ring
 * @param a wall at the ends, their mean, mm
 * @param s closed gap, mm
 */
export function freeEnds(
  freeTangents: Halves<number>,
  { centroidLimit, outerRadius, faceToNormal }: Geometry,
  a: number,
  s: number,
): Ends {
  const face = (tangent: number): EndFace => ({
    turn: tangent - centroidLimit,
    faceToAxis: Math.abs(tangent - centroidLimit),
  });
  const { left, right } = { left: face(freeTangents.left), right: face(freeTangents.right) };
  const turn = (left.turn + right.turn) / 2;
  return {
    turn,
    faceToAxis: Math.abs(turn),
    left,
    right,
    faceToNormal,
    wedgeIfSquare: (a * s) / (outerRadius - a / 2),
  };
}
