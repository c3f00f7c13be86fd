import { toleranceFor } from "../curves/fitRing.js";
import type { AddedMetal } from "../curves/ringFaces.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type MetalOptions, type MetalToMake, metalToMake } from "./allowances.js";
import { type CamTurning, camTurning } from "./camTurning.js";
import { type Coiling, coiling } from "./coiling.js";
import { type GapCutting, gapCutting } from "./gapCutting.js";
import { type HeatSet, heatSet } from "./heatSet.js";
import { type Making, type MakingInput, makingSchema } from "./makingSchema.js";

/** All that the shop needs to make one ring. */
export interface MakingPlan {
  /** What the shop does, defaults filled in. */
  readonly making: Making;
  /** What to make under coating and stock. */
  readonly metal: MetalToMake;
  /** Metal on the faces of `metal.design` as the ring comes off the machines, filing stock included. mm. */
  readonly added: AddedMetal;
  /** For coiled wire. */
  readonly coiling: Coiling;
  /** For a turned blank. */
  readonly cam: CamTurning;
  /** For cutting the gap. */
  readonly gap: GapCutting;
  /** For shape setting, where it is asked for. */
  readonly heatSet?: HeatSet;
}

/**
 * Plans the making of a ring: the metal to make under coating and stock, then coiling, cam turning, cutting the gap and, if asked for, shape
 * setting of that metal.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param spec the finished ring, as of `designRing`
 * @param input what the shop does; every part has defaults. `page` and `gap.gapTolerance` are checked here and stand in the result, but only the files of
 * `camround make` are made by them: template and gauge
 * @param options as of `designRing`; with `correction`, coiling, cam and mandrel are those of the ring that the
 * machine is to be told; the gap is cut into the ring that comes out
 * @throws SpecError when a value is out of range or values contradict each other
 * @throws NotFound as the functions for each part
 *
 * @example
 * planMaking(spec, { coiling: { kerf: 0.3 } }).coiling.blankLength; // 356.8, mm
 */
export function planMaking(
  spec: RingSpecInput,
  input: MakingInput = {},
  options: MetalOptions = {},
): MakingPlan {
  const making = parse(makingSchema, input, "making");
  const metal = metalToMake(spec, making.allowances, options);
  const { design, told, finished } = metal;
  const tolerance = toleranceFor(design, making);
  checkGauge(making.gap.gapTolerance, finished.spec.closedGap);
  const gap = inSection("gap", () => gapCutting(design, making.gap, metal.added.ends));
  const heating = making.heatSet;
  const added = { ...metal.added, ends: metal.added.ends + making.gap.filingStock };
  return {
    making,
    metal,
    added,
    coiling: inSection("coiling", () => coiling(told, making.coiling, added)),
    cam: inSection("cam", () => camTurning(told, making.cam, added)),
    gap,
    ...(heating && { heatSet: inSection("heatSet", () => heatSet(told, heating, added, tolerance)) }),
  };
}

/** A gauge's blade goes into the smallest gap allowed. */
function checkGauge(gapTolerance: number | undefined, closedGap: number): void {
  if (gapTolerance === undefined || gapTolerance < closedGap) return;
  throw new SpecError("gap.gapTolerance", gapTolerance, `must be below the closed gap, ${closedGap} mm`);
}

/** Names the section that a refused field stands in. */
function inSection<T>(section: string, part: () => T): T {
  try {
    return part();
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    throw new SpecError(`${section}.${error.field}`, error.value, error.allowed);
  }
}
