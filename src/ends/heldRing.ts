import { SpecError } from "../spec/error.js";
import { type BandState, holdInBand } from "./band.js";
import type { CutRing } from "./cutRing.js";

/**
 * A designed ring held by a band at an opening between closed and free.
 *
 * @param gap mm, at mid wall
 * @throws SpecError when the gap is outside that range; NotFound with the residual when no equilibrium is found
 */
export function heldRing(design: CutRing, gap: number): BandState & { readonly closedTangent: number } {
  const { closedGap } = design.spec;
  const freeGap = design.free.gap;
  if (!(gap >= closedGap && gap <= freeGap)) {
    throw new SpecError("gap", gap, `must be from the closed gap ${closedGap} to the free gap ${freeGap} mm`);
  }
  const closedTangent = design.installed.theta.at(-1) as number;
  // First trial: both unknowns in proportion to the closing.
  const share = (freeGap - gap) / (freeGap - closedGap);
  const { tangentialForce } = design.load;
  const trial = [share * tangentialForce, closedTangent + (1 - share) * design.ends.right.turn] as const;
  return { ...holdInBand(design, gap, trial, tangentialForce), closedTangent };
}
