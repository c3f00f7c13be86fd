/**
 * `camround`, the library itself. Numbers are in mm, N, MPa, radians, °C and kg/m³ everywhere; inputs may be strings with a unit instead, as
 * in `"3.5 in"` or `"0.15 MPa"`. The origin is the centre of the bore, the gap at +y, the back of the ring at −y; angles run from the back,
 * counter-clockwise positive, and arrays from the left end over the back to the right end. A moment that closes the ring and a pressure inward
 * are positive. What is read from files, and by functions as options, stands field by field in docs/reference/inputs.md; the method in docs/theory/README.md.
 *
 * Examples are all of one ring; `// 11.114` beside a line is what it gives, rounded to the digits shown:
 *
 * ```ts
 * const spec: RingSpecInput = {
 *   bore: "118 mm",
 *   closedGap: 0.45,
 *   section: { radialThickness: 4.4, axialHeight: 2 },
 *   material: { youngsModulus: 205000 },
 *   load: { contactPressure: 0.15 },
 * };
 * const design = designRing(spec);
 * ```
 *
 * @packageDocumentation
 */

// In the order of the calculation.

// The order, as it is written and as it is read.

export { SpecError } from "./spec/error.js";
export { MATERIALS, type Material, type OverTemperature } from "./spec/materials.js";
export { readSpec } from "./spec/readSpec.js";
export type {
  BodySpec,
  Load,
  OutlineCorner,
  PressureSpec,
  ProfileFeatures,
  RelativeTable,
  RingSpec,
  SlotsSpec,
} from "./spec/ringSpec.js";
export type { BodySpecInput, RingSpecInput } from "./spec/schema.js";

// What is found, and what is not.

export { NotFound } from "./numeric/notFound.js";
export type { Point } from "./numeric/point.js";

// The ring.

export { type DesignOptions, designRing } from "./design/designRing.js";
export type { RingDesign, Warning } from "./design/ringDesign.js";
export type { CutRing } from "./ends/cutRing.js";
export type { EndFace, Ends } from "./ends/ends.js";
export type { InstalledRing } from "./forces/installedRing.js";
export type { Halves } from "./forces/relativeForces.js";
export type { Corner, Profile } from "./section/profile.js";
export type { SectionProperties } from "./section/sectionProperties.js";
export type { WallStations } from "./section/wall.js";
export type { FreeRing } from "./shape/freeRing.js";
export type { Outline } from "./shape/outline.js";
export type { ClosingStress } from "./stress/closing.js";
export type { FibreStress } from "./stress/fibreStress.js";

// Proof.

export { type ClosureProof, proveClosure } from "./proof/proveClosure.js";

// What the ring is like.

export {
  type Conformability,
  type ConformabilityLimit,
  conformability,
  fullContactAmplitude,
  semiEmpiricalAmplitude,
} from "./assess/conformability.js";
export {
  describePressure,
  type PressureDescription,
  type PressureHarmonic,
} from "./assess/describePressure.js";
export {
  describeSection,
  type SectionDescription,
  type Twist,
  type WornFace,
} from "./assess/describeSection.js";

// Its ends as it is closed.

export { endsInBand, type HeldEnds } from "./ends/endsInBand.js";
export { type PartClosed, partClosed } from "./ends/partClosed.js";

// A given free shape: its pressure, and its contact in any bore.

export type { BoreInput } from "./contact/boreSchema.js";
export { type Closure, type ClosureOptions, closeInBore } from "./contact/closeInBore.js";
export { type ContactMap, type ContactMapOptions, contactMap } from "./contact/contactMap.js";
export { type GivenRing, ringOfCurvature } from "./contact/givenRing.js";
export type { LightGap } from "./contact/lightGaps.js";
export { NoContact } from "./contact/noContact.js";
export type { PointForce } from "./contact/pointForces.js";
export { type EndCondition, type MadePressure, pressureOf } from "./contact/pressureOf.js";

// The virtual gauges.

export { type DiametralOptions, type DiametralReading, diametralTest } from "./gauge/diametralTest.js";
export { type LightReading, type LightTestOptions, lightTest } from "./gauge/lightTest.js";
export { type TapeOptions, type TapeReading, tapeTest } from "./gauge/tapeTest.js";

// Making it.

export type { AddedMetal, FreeBody } from "./curves/ringFaces.js";
export {
  type FinishedRing,
  finishedFrom,
  type MetalOptions,
  type MetalToMake,
  metalFrom,
  metalToMake,
} from "./making/allowances.js";
export { type CamFace, type CamTurning, camTurning } from "./making/camTurning.js";
export { type CurvatureChange, changedRing } from "./making/changedRing.js";
export { type Coiling, type CoilingTable, coiling, type Springback } from "./making/coiling.js";
export {
  type CutSetup,
  type FilingStep,
  type GapCutting,
  gapCutting,
  type Hold,
} from "./making/gapCutting.js";
export { curvatureAfterSoak, type HeatSet, heatSet, mandrelCurvature } from "./making/heatSet.js";
export type {
  AllowancesInput,
  CamInput,
  CoilingInput,
  GapInput,
  HeatSetInput,
  Making,
  MakingInput,
} from "./making/makingSchema.js";
export { type MakingPlan, planMaking } from "./making/planMaking.js";
export { curvatureAfter, curvatureBefore, type SpringbackWire, yieldCurvature } from "./making/springback.js";

// The ring in its engine.

export type { Proposal } from "./fit/candidate.js";
export { type EngineFit, type EngineInput, engineFit } from "./fit/engineFit.js";
export type { HeatInput, PistonInput } from "./fit/fitSchema.js";
export { GAP_RULES, type GapRule } from "./fit/gapRules.js";
export type { GrooveFit, Limits } from "./fit/grooveClearances.js";
export { type GrooveOptions, grooveFit, type RingTolerance } from "./fit/grooveFit.js";
export type { Growth } from "./fit/hotGap.js";
export { type HotRing, hotRing } from "./fit/hotRing.js";
export type { LimitMet } from "./fit/limitMet.js";
export type { RingOrder } from "./fit/orderSchema.js";
export { proposeRing } from "./fit/proposeRing.js";
export { type RoomError, roomError } from "./fit/roomError.js";
export { type Spread, type SpreadBy, type SpreadOptions, spreadRing } from "./fit/spreadRing.js";
export { type StressTradeOff, stressTradeOff, type TradeOffOptions } from "./fit/stressTradeOff.js";

// The ring as measured.

export type { ScanBand } from "./scan/band.js";
export {
  type Comparison,
  type ComparisonOptions,
  compareRings,
  type DrawnAndMade,
} from "./scan/compareRings.js";
export type { Correction } from "./scan/correction.js";
export type { Motion } from "./scan/fitFace.js";
export type { LightChance } from "./scan/lightChance.js";
export { ringFromScan, type ScanOptions } from "./scan/ringFromScan.js";
export type { Outlier } from "./scan/scannedFace.js";
export type { Scan, ScannedRing } from "./scan/scannedRing.js";
export type { ScanSettings } from "./scan/scanSchema.js";

// Batches.

export type { Factor } from "./batch/factors.js";
export { type Match, type Matching, matchRings } from "./batch/matchRings.js";
export type { MatchOptions } from "./batch/matchSchema.js";
export { mergeVariation } from "./batch/mergeVariation.js";
export type { OutcomeVariation, Variation } from "./batch/summary.js";
export type { VariantOutcome } from "./batch/variants.js";
export { type VariationOptions, variation } from "./batch/variation.js";
export { planVariation, type VariationPlan } from "./batch/variationPlan.js";
export type { Outcome, TolerancesInput, VariationSettings } from "./batch/variationSchema.js";
export { type Shard, type VariationSlice, variationSlice } from "./batch/variationSlice.js";
export type { Distribution } from "./numeric/distribution.js";
export type { SobolIndex } from "./numeric/sobolIndices.js";

// All of it at once.

export { type RingOverview, ringOverview } from "./overview/ringOverview.js";
