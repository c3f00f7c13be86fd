import type { RingDesign } from "../design/ringDesign.js";
import { type CurvatureChange, changedRing } from "../making/changedRing.js";
import { SpecError } from "../spec/error.js";
import { alignedDeviation } from "./alignedDeviation.js";

/** What to tell the machine the next time. */
export interface Correction {
  /**
   * The ring to be told, for `coiling`, `camTurning`, `gapCutting` and the rest. A design made anew from its `spec` is not that ring: what the
   * bore hides of its curvature is lost.
   */
  readonly ring: RingDesign;
  /** All that the machine is told beside the drawing, this correction and those before: for `planMaking`. */
  readonly fromDrawing: CurvatureChange;
  /** Share of the change that could be told; less than 1 where the whole of it would leave a ring loose in its bore. */
  readonly share: number;
  /** Change of the free curvature at each station, 1/mm; nil where the measurement does not tell. */
  readonly curvature: number[];
  /** Bend radius of the line as told before and from now on, mm. */
  readonly bendRadius: {
    /** At each station. */
    readonly before: number[];
    /** At each station. */
    readonly now: number[];
  };
  /** How far the outer face moves outward on a cam, the shapes laid over each other, mm. */
  readonly lift: number[];
  /** Share of the ring over which the error is larger than the measurement's band. */
  readonly known: number;
}

/**
 * What to tell a machine that made a ring other than drawn: as much less as it bent too much, by the part of the error that stands out of the
 * measurement's band, Δκ·(1 − (band/Δκ)²), nothing within it.
 *
 * @param commanded what it was told
 * @param error at the drawing's stations: curvature as made less as drawn, and half its band, 1/mm
 * @param gain share of the error that is taken out
 */
export function correctionFor(
  drawn: RingDesign,
  commanded: RingDesign,
  { curvature, band }: { curvature: readonly number[]; band: readonly number[] },
  gain: number,
): Correction {
  const { theta, arcLength } = drawn.free;
  const known = curvature.map((value, i) => Math.abs(value) > band[i]);
  const change = curvature.map((value, i) => (known[i] ? -gain * value * (1 - (band[i] / value) ** 2) : 0));
  const { told, share } = corrected(commanded, change);
  const { curvature: now } = told.free;
  return {
    ring: told,
    fromDrawing: {
      theta,
      curvature: now.map((value, i) => value - drawn.free.curvature[i]),
      length: arcLength[theta.length - 1] - arcLength[0],
    },
    share,
    curvature: now.map((value, i) => value - commanded.free.curvature[i]),
    bendRadius: {
      before: commanded.free.curvature.map((value) => 1 / value),
      now: now.map((value) => 1 / value),
    },
    lift: alignedDeviation(told.free, commanded.free),
    known: known.filter((yes) => yes).length / known.length,
  };
}

/** Halvings of a change that would leave no ring that presses on its bore. */
const MOST_HALVINGS = 10;

/** The commanded ring with its curvature changed; by half as much, and so on, where the whole change leaves a ring that is loose in its bore. */
function corrected(commanded: RingDesign, change: readonly number[]): { told: RingDesign; share: number } {
  const { theta } = commanded.free;
  for (let share = 1, turn = 0; ; share /= 2, turn++) {
    try {
      const told = changedRing(commanded, { theta, curvature: change.map((value) => share * value) });
      return { told, share };
    } catch (error) {
      if (!(error instanceof SpecError) || turn === MOST_HALVINGS) throw error;
    }
  }
}
