import * as v from "valibot";
import { boreSchema } from "../contact/boreSchema.js";
import { optionalFields, plainNumber, positive, quantity } from "../spec/fields.js";

/** What may be wanted of rings in bores; see `matchRings`. */

const gap = (what: string) => quantity("length", { min: 0, max: Number.MAX_VALUE }, what);

const wanted = () => ({
  closedGap: v.optional(gap("wanted gap in the bore; by default the mean of the rings' closed gaps")),
  gapTolerance: v.optional(
    positive("length", "deviation of the gap that weighs as much as one of the force by `forceTolerance`"),
    0.05,
  ),
  tangentialForce: v.optional(
    positive("force", "wanted tangential force; by default the rings' mean in the tape"),
  ),
  forceTolerance: v.optional(
    positive(
      "force",
      "deviation of the force that weighs as much as one of the gap by `gapTolerance`; by default a tenth of the wanted force",
    ),
  ),
  leastGap: v.optional(gap("least gap in the bore; a ring that has less is never put there"), 0),
  leastContactShare: v.optional(
    plainNumber(0, 1, "least light-tight share in the bore; a ring that has less is never put there"),
    0,
  ),
});

export const matchSchema = () => optionalFields(v.strictObject(wanted()));

/** A file of bores, of which `matchRings` reads the two parts. */
export const boresSchema = () =>
  v.strictObject({
    bores: v.pipe(
      v.array(boreSchema(), "must be a list of bores"),
      v.minLength(1, "must be a list with at least one"),
      v.description("the bores of one engine, as measured"),
    ),
    ...wanted(),
  });

/** What is wanted of rings in bores: see docs/reference/inputs.md#matching. */
export type MatchOptions = v.InferInput<ReturnType<typeof matchSchema>>;
