/**
 * The end faces. They carry no load, so each moves as a rigid piece with the end of the centroid line.
 * Angles in radians, lengths in mm; the left end is the mirror image.
 */
export interface Ends {
  /** Ω = ψ_free − ψ_installed at the right end; negative when the ring opens. −π·K for the uniform thin ring. */
  readonly turn: number;
  /** Angle of the free face to the symmetry axis: |Ω|, since the closed face is parallel to it. */
  readonly faceToAxis: number;
  /** δ = asin(s/(2r)), angle of the face to the section normal, in every state. */
  readonly faceToNormal: number;
  /** What a cut square to the ring would leave when closed: gap outside minus gap inside, a·s/r. */
  readonly wedgeIfSquare: number;
}

/**
 * @param freeTangent tangent angle ψ of the free ring at its right end, radians
 * @param centroidLimit θC, tangent angle there when closed, radians
 * @param a radial wall thickness, mm
 * @param s closed gap, mm
 * @param r centroid radius, mm
 */
export function freeEnds(freeTangent: number, centroidLimit: number, a: number, s: number, r: number): Ends {
  const turn = freeTangent - centroidLimit;
  return {
    turn,
    faceToAxis: Math.abs(turn),
    faceToNormal: Math.asin(s / (2 * r)),
    wedgeIfSquare: (a * s) / r,
  };
}
