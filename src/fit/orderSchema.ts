import * as v from "valibot";
import { oneOf, positive, quantity, wholeNumber } from "../spec/fields.js";
import { someMaterial } from "../spec/schema.js";
import { heatSchema, pistonSchema } from "./fitSchema.js";
import { GAP_RULES } from "./hotRing.js";

function duties() {
  const [first, ...rest] = GAP_RULES.map(({ duty }) => duty);
  return oneOf([first, ...rest]);
}

const somePressure = positive("pressure", "contact pressure");

/** What is known before there is a ring. */
export const orderSchema = () =>
  v.strictObject({
    bore: quantity("length", { min: 1, max: 10000 }, "nominal bore diameter"),
    piston: pistonSchema(),
    materials: v.pipe(
      v.array(someMaterial, "must be a list of materials"),
      v.minLength(1, "must have at least one material"),
      v.maxLength(50, "must have at most 50 materials"),
    ),
    closedGap: v.optional(quantity("length", { min: 0, max: 10000 }, "closed gap, cold")),
    duty: v.optional(duties()),
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
      ),
    ),
    contactPressure: v.optional(v.strictTuple([somePressure, somePressure], "must be [smallest, largest]")),
    axialClearance: v.optional(positive("length", "between ring and groove, for a height made to fit")),
    heat: v.optional(heatSchema()),
    most: v.optional(wholeNumber(1, 100, "proposals wanted"), 5),
  });

export type RingOrder = v.InferInput<ReturnType<typeof orderSchema>>;
export type Order = v.InferOutput<ReturnType<typeof orderSchema>>;
