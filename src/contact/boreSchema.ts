import * as v from "valibot";
import { list, quantity, wholeNumber } from "../spec/fields.js";

/** A bore as it is written; see `closeInBore`. */

/** Deviations of a radius, mm; how far is too far depends on the bore. */
const DEVIATION = { min: -1000, max: 1000 };
const deviation = (what: string) => quantity("length", DEVIATION, what);

/** Angles may be counted from −180° or from 0°; a little over, as users round π up. */
const WHOLE_TURN = { min: -6.3, max: 6.3 };
const angle = (what: string) => quantity("angle", WHOLE_TURN, what);

const harmonicSchema = () =>
  v.strictObject({
    order: wholeNumber(1, 100, "waves to a turn"),
    amplitude: deviation("amplitude of the radius"),
    phase: v.optional(angle("angle of a crest times the order"), 0),
  });

const samplesSchema = () =>
  v.strictObject({
    angle: list(
      angle("angle"),
      WHOLE_TURN,
      8,
      100000,
      "angles from the back of the ring as it stands unturned, increasing, over less than a turn",
    ),
    deviation: list(
      deviation("deviation"),
      DEVIATION,
      8,
      100000,
      "of the radius from the mean one, one an angle",
    ),
  });

export const boreSchema = () =>
  v.strictObject({
    diameter: v.optional(
      quantity("length", { min: 1, max: 10000 }, "mean diameter; by default the ring's bore"),
    ),
    harmonics: v.optional(
      v.pipe(
        v.array(harmonicSchema(), "must be a list of harmonics"),
        v.description("waves of the radius, added up"),
      ),
      [],
    ),
    samples: v.optional(v.pipe(samplesSchema(), v.description("measured radii, as a smooth curve"))),
    rotation: v.optional(angle("by which the ring is turned, counter-clockwise"), 0),
    backPressure: v.optional(
      quantity("pressure", { min: 0, max: 1000 }, "uniform pressure on the ring's inner face"),
      0,
    ),
  });

/** A bore as a user writes it: see docs/reference/inputs.md#bore. */
export type BoreInput = v.InferInput<ReturnType<typeof boreSchema>>;
