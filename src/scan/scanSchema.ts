import * as v from "valibot";
import { oneOf, plainNumber, quantity, wholeNumber } from "../spec/fields.js";
import { UNITS } from "../spec/quantity.js";

/** What may be said of a scan. */

function lengthUnit() {
  return oneOf(Object.keys(UNITS.length) as [keyof typeof UNITS.length, ...(keyof typeof UNITS.length)[]]);
}

export const scanSchema = () =>
  v.strictObject({
    unit: v.optional(lengthUnit(), "mm"),
    noise: v.optional(
      quantity(
        "length",
        { above: 0, max: 1 },
        "standard deviation of a point's distance from the face, if it is known",
      ),
    ),
    smoothness: v.optional(
      v.picklist(["likelihood", "crossValidation"], 'must be "likelihood" or "crossValidation"'),
      "likelihood",
    ),
    length: v.optional(v.picklist(["spec", "points"], 'must be "spec" or "points"'), "spec"),
    mirrored: v.optional(v.boolean("must be true or false"), false),
    confidence: v.optional(
      plainNumber(0.5, 0.9999, "share of cases in which the band holds the truth"),
      0.95,
    ),
    draws: v.optional(
      wholeNumber(0, 10000, "rings drawn at random within the band, for the chance of passing"),
      0,
    ),
    sensitivity: v.optional(
      quantity("length", { above: 0, max: 1 }, "narrowest slit that shows light"),
      0.002,
    ),
  });

/** Options of a scan as a user writes them, without the spec. */
export type ScanSettings = v.InferInput<ReturnType<typeof scanSchema>>;
