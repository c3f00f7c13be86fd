import * as v from "valibot";
import { sensitivityField } from "../contact/closureSchema.js";
import { oneOf, plainNumber, quantity, wholeNumber } from "../spec/fields.js";
import { UNITS } from "../spec/quantity.js";

/** What may be said of a scan. */

function lengthUnit() {
  return oneOf(Object.keys(UNITS.length) as [keyof typeof UNITS.length, ...(keyof typeof UNITS.length)[]]);
}

export const scanSchema = () =>
  v.strictObject({
    unit: v.optional(v.pipe(lengthUnit(), v.description("of the points")), "mm"),
    noise: v.optional(
      quantity(
        "length",
        { above: 0, max: 1 },
        "standard deviation of a point's distance from the face, if it is known",
      ),
    ),
    smoothness: v.optional(
      v.pipe(
        oneOf(["likelihood", "crossValidation"]),
        v.description("by what it is chosen how even the pressure comes out"),
      ),
      "likelihood",
    ),
    length: v.optional(
      v.pipe(
        oneOf(["spec", "points"]),
        v.description("what tells the closed gap: the spec, or the outermost points"),
      ),
      "spec",
    ),
    mirrored: v.optional(
      v.pipe(v.boolean("must be true or false"), v.description("the ring lay the other way up")),
      false,
    ),
    confidence: v.optional(
      plainNumber(0.5, 0.9999, "share of cases in which the band holds the truth"),
      0.95,
    ),
    draws: v.optional(
      wholeNumber(0, 10000, "rings drawn at random within the band, for the chance of passing"),
      0,
    ),
    sensitivity: sensitivityField(),
  });

/** Options of a scan as a user writes them, without the spec: see docs/reference/inputs.md#scan. */
export type ScanSettings = v.InferInput<ReturnType<typeof scanSchema>>;
