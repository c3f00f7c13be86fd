import type { Halves } from "../forces/relativeForces.js";
import type { CutRing } from "./cutRing.js";
import type { EndFace } from "./ends.js";
import { heldRing } from "./heldRing.js";

/**
 * The ends of a ring held part-closed. mm, N, radians. Turns are seen from each end's own side and counted from the
 * closed position, negative when open; angles are to the square of the pull across the gap. `turn` and `faceToAxis`
 * are the mean of both ends.
 */
export interface HeldEnds extends EndFace, Halves<EndFace> {
  /** Distance between the ends at mid wall, as asked. */
  readonly gap: number;
  /** Pull on the band that holds it, N. */
  readonly pull: number;
  /** Of the outer corners over the outer face at the back, square to the pull; mm. */
  readonly height: number;
}

/**
 * Angles of the end faces of a ring held part-closed by a band: what a cutter set up on the held ring needs.
 *
 * The band is a frictionless, inextensible tape round the outer face, its ends pulled straight across the gap. A cut
 * through ring and band gives the forces in any position: N = −T·(1 + cos ψ), V = T·sin ψ,
 * M = T·(H − y − a/2), with H the height of the pull's line. The elastica is exact for any opening.
 * A sleeve or a nest that touches the ring elsewhere turns the ends a little differently.
 *
 * Method: docs/theory/05-shape-and-ends.md.
 *
 * @param design the ring, as designed
 * @param gap opening at which it is held, mm, from the closed to the free gap
 * @throws SpecError when the gap is outside that range; NotFound with the residual when no equilibrium is found
 *
 * @example
 * endsInBand(design, 5).faceToAxis; // 0.02631, radians
 */
export function endsInBand(design: CutRing, gap: number): HeldEnds {
  const { pull, rightTangent, march, closedTangent } = heldRing(design, gap);
  const face = (turn: number): EndFace => ({ turn, faceToAxis: Math.abs(turn) });
  const right = rightTangent - closedTangent;
  const left = -march.leftTangent - closedTangent;
  const { outer } = march;
  // Stations that stand twice in the tables stand once in the march.
  const rightOfBack = new Set(design.installed.theta.filter((angle) => angle > 0)).size;
  const back = outer[rightOfBack].point;
  const height = outer[0].point[1] - back[1];
  return { gap, pull, height, ...face((left + right) / 2), left: face(left), right: face(right) };
}
