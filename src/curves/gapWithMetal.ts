import type { Halves } from "../forces/relativeForces.js";
import type { AddedMetal, FreeBody } from "./ringFaces.js";

/** How far each end of a free ring is turned from closed, radians. */
export const turnsOf = ({ ends }: Pick<FreeBody, "ends">): Halves<number> => ({
  left: ends.left.turn,
  right: ends.right.turn,
});

/**
 * Distance across a gap at the middle of its faces when they carry metal, mm.
 *
 * @param gap without it, at the middle of the faces, mm
 * @param turns of the ends from closed, radians, negative where they open: `turn` of their faces
 * @param metal on each end face, outer and inner face, mm
 */
export function gapWithMetal(
  gap: number,
  { left, right }: Halves<number>,
  { ends, outer, inner }: Pick<AddedMetal, "ends" | "outer" | "inner">,
): number {
  // The middle of the made faces lies outside that of the bare ones by half the difference of what stands on them.
  const outward = (outer - inner) / 2;
  return gap - ends * (Math.cos(left) + Math.cos(right)) - outward * (Math.sin(left) + Math.sin(right));
}
