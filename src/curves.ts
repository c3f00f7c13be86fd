/**
 * `camround/curves`: the free ring's curves in pieces that machines read: arcs, Béziers, chords. mm.
 *
 * @packageDocumentation
 */

export { type Arc, lineArcs, outlineArcs } from "./curves/arcs.js";
export { type Cubic, lineCubics, outlineCubics } from "./curves/beziers.js";
export { type OutlinePoints, outlinePoints } from "./curves/chords.js";
export type { CurveFit } from "./curves/fitContour.js";
export type { FitOptions } from "./curves/fitRing.js";
export { measureOutline } from "./curves/measures.js";
export type { AddedMetal, FreeBody } from "./curves/ringFaces.js";
