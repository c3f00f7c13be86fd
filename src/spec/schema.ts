import * as v from "valibot";
import { oneOf, plainNumber, positive, quantity, wholeNumber } from "./fields.js";
import { MATERIALS } from "./materials.js";
import { pressureSchema } from "./pressureSchema.js";
import { sectionSchema } from "./sectionSchema.js";

/**
 * The ring spec as a schema: the one definition behind the reader, the types and the published JSON Schema.
 * Ranges here are of single fields; what depends on several fields is checked in `readSpec`.
 */

export const STATIONS: { min: number; max: number; default: number } = { min: 16, max: 20000, default: 180 };

/** Coldest and hottest that a ring is thought of, °C. */
export const TEMPERATURE: { min: number; max: number } = { min: -100, max: 1200 };
const temperature = quantity("temperature", TEMPERATURE, "temperature");

/** A property over the temperature; order and lengths are checked in `readMaterial`. */
function overTemperature<
  Item extends v.GenericSchema<number | string, number> | v.GenericSchema<number, number>,
>(item: Item, what: string) {
  return v.pipe(
    v.strictObject({
      temperature: v.pipe(
        v.array(temperature, "must be a list"),
        v.minLength(1, "must not be empty"),
        v.maxLength(1000, "must have at most 1000 values"),
        v.description("increasing"),
      ),
      value: v.pipe(v.array(item, "must be a list"), v.description("one a temperature")),
    }),
    v.description(what),
  );
}

const materialSchema = v.strictObject({
  name: v.optional(v.pipe(v.string("must be a string"), v.description("what the material is called"))),
  // The bounds catch a modulus written in GPa, Pa or psi.
  youngsModulus: quantity("pressure", { min: 300, max: 1e6 }, "Young's modulus"),
  poissonRatio: v.optional(
    plainNumber(0, 0.5, "Poisson's ratio; a plane-stress ring does not depend on it"),
    0.3,
  ),
  stressLimit: v.optional(
    positive("pressure", "largest bending stress allowed; a higher closing stress raises a warning"),
  ),
  yieldStress: v.optional(positive("pressure", "yield stress of the finished ring")),
  density: v.optional(quantity("density", { min: 500, max: 25000 }, "density")),
  modulus: v.optional(
    overTemperature(
      quantity("pressure", { min: 300, max: 1e6 }, "Young's modulus"),
      "Young's modulus over the temperature",
    ),
  ),
  expansion: v.optional(
    overTemperature(
      plainNumber(1e-7, 1e-4, "mean expansion from 20 °C, 1/K"),
      "mean expansion from 20 °C, 1/K, over the temperature",
    ),
  ),
});

const materialName = v.picklist(
  Object.keys(MATERIALS) as [string, ...string[]],
  `must be an object with youngsModulus, or one of ${Object.keys(MATERIALS)
    .map((name) => `"${name}"`)
    .join(", ")}`,
);

/** A material by name or in full; chosen by kind of input rather than as a union, so that an error inside the object keeps its own path. */
export const someMaterial = v.pipe(
  v.lazy((input) => (typeof input === "object" && input !== null ? materialSchema : materialName)),
  v.description("a preset's name, or data"),
) as v.GenericSchema<
  v.InferInput<typeof materialSchema> | string,
  v.InferOutput<typeof materialSchema> | string
>;

export const loadSchema = v.strictObject({
  tangentialForce: v.optional(positive("force", "tangential force Ft")),
  contactPressure: v.optional(positive("pressure", "contact pressure p0 = 2·Ft/(d1·h1)")),
  freeGap: v.optional(positive("length", "free gap m, at mid wall")),
});

const bodyEntries = {
  // The lower bound catches a bore written in metres.
  bore: quantity("length", { min: 1, max: 10000 }, "nominal bore diameter d1"),
  closedGap: quantity(
    "length",
    { min: 0, max: 10000 },
    "distance between the parallel end faces in the bore, s1",
  ),
  section: v.pipe(sectionSchema, v.description("of the ring")),
  material: someMaterial,
  theory: v.optional(
    v.pipe(oneOf(["thin", "curved"]), v.description("of the thin or the thick curved bar")),
    "curved",
  ),
  stations: v.optional(wholeNumber(STATIONS.min, STATIONS.max, "stations per half ring"), STATIONS.default),
};

/** The body of a ring alone, for one that is given by its free curvature. */
export const bodySchema = v.strictObject(bodyEntries);

export const specSchema = v.strictObject({
  ...bodyEntries,
  load: v.pipe(loadSchema, v.description("exactly one of these")),
  pressure: v.optional(v.pipe(pressureSchema, v.description("how it varies along the ring")), {
    shape: "uniform",
  }),
});

/**
 * A ring spec as a user writes it: lengths, forces, pressures and angles as numbers or as strings with a unit. See
 * docs/reference/inputs.md#ring-spec.
 */
export type RingSpecInput = v.InferInput<typeof specSchema>;
export type SpecOutput = v.InferOutput<typeof specSchema>;
/** A ring spec without load and pressure, for a ring that is given by its free curvature: see docs/reference/inputs.md#ring-spec. */
export type BodySpecInput = v.InferInput<typeof bodySchema>;
export type BodyOutput = v.InferOutput<typeof bodySchema>;
