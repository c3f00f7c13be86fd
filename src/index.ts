// In the order of the calculation.

// The ring
export { type DesignOptions, designRing } from "./design/designRing.js";
export type { RingDesign, Warning } from "./design/ringDesign.js";
export type { CutRing } from "./ends/cutRing.js";
export type { Ends } from "./ends/ends.js";
export { endsInBand, type HeldEnds } from "./ends/endsInBand.js";
export type { InstalledRing } from "./forces/installedRing.js";
export type { Point } from "./numeric/point.js";
// Proof
export { type ClosureProof, proveClosure } from "./proof/proveClosure.js";
export type { FreeRing } from "./shape/freeRing.js";
export type { Outline } from "./shape/outline.js";
// The order
export { SpecError } from "./spec/error.js";
export { MATERIALS, type Material } from "./spec/materials.js";
export { type Load, type RingSpec, readSpec } from "./spec/readSpec.js";
export type { RingSpecInput } from "./spec/schema.js";
export type { ClosingStress } from "./stress/closing.js";
