import type { AddedMetal, FreeBody } from "../curves/ringFaces.js";
import { SpecError } from "../spec/error.js";

/**
 * Checks metal on the faces of a ring: it is finite and leaves some of the ring.
 *
 * @throws SpecError naming the face
 */
export function checkAdded({ spec }: Pick<FreeBody, "spec">, added: AddedMetal): void {
  if (typeof added !== "object" || added === null) {
    throw new SpecError("added", added, "must be lengths in mm: outer, inner, sides, ends");
  }
  for (const face of ["outer", "inner", "sides", "ends"] as const) {
    if (Number.isFinite(added[face])) continue;
    throw new SpecError(`added.${face}`, added[face], "must be a finite length, mm");
  }
  const { radialThickness, axialHeight } = spec.section;
  if (radialThickness + added.outer + added.inner > 0 && axialHeight + 2 * added.sides > 0) return;
  throw new SpecError("added", added, "must leave some of the ring");
}
