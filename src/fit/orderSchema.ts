import * as v from "valibot";
import { oneOf, positive, quantity, wholeNumber } from "../spec/fields.js";
import { someMaterial } from "../spec/schema.js";
import { heatSchema, pistonSchema } from "./fitSchema.js";
import { GAP_RULES } from "./gapRules.js";

function duties() {
  const [first, ...rest] = GAP_RULES.map(({ duty }) => duty);
  return oneOf([first, ...rest]);
}

const somePressure = positive("pressure", "contact pressure");

/** What is known before there is a ring. */
export const orderSchema = () =>
  v.strictObject({
    bore: quantity("length", { min: 1, max: 10000 }, "nominal bore diameter"),
    piston: v.pipe(pistonSchema(), v.description("piston with its groove")),
    materials: v.pipe(
      v.array(someMaterial, "must be a list of materials"),
      v.minLength(1, "must have at least one material"),
      v.maxLength(50, "must have at most 50 materials"),
      v.description("to choose from"),
    ),
    closedGap: v.optional(quantity("length", { min: 0, max: 10000 }, "closed gap, cold")),
    duty: v.optional(v.pipe(duties(), v.description("for a first closed gap; see GAP_RULES"))),
    stock: v.optional(
      v.pipe(
        v.array(
          v.strictObject({
            radialThickness: positive("length", "wall"),
            axialHeight: positive("length", "height"),
          }),
          "must be a list of wires",
        ),
        v.minLength(1, "must have at least one wire"),
        v.maxLength(500, "must have at most 500 wires"),
        v.description("wires at hand; without them walls of bore/30 to bore/20 are looked at"),
      ),
    ),
    contactPressure: v.optional(
      v.pipe(
        v.strictTuple([somePressure, somePressure], "must be [smallest, largest]"),
        v.description("smallest and largest; 0.11 and 0.37 MPa if not given"),
      ),
    ),
    axialClearance: v.optional(
      positive("length", "between ring and groove, for a height made to fit; 0.04 mm if not given"),
    ),
    heat: v.optional(v.pipe(heatSchema(), v.description("temperatures at work"))),
    most: v.optional(wholeNumber(1, 100, "proposals wanted"), 5),
  });

/** What is known before there is a ring, as a user writes it: see docs/reference/inputs.md#ring-order. */
export type RingOrder = v.InferInput<ReturnType<typeof orderSchema>>;
export type Order = v.InferOutput<ReturnType<typeof orderSchema>>;
