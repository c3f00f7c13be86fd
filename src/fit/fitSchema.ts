import * as v from "valibot";
import { optionalFields, plainNumber, positive, quantity } from "../spec/fields.js";
import { someMaterial, TEMPERATURE } from "../spec/schema.js";

/** What surrounds the ring, as schemas: bore, piston with its groove, temperatures; and the ring's own tolerances. */

const length = (what: string) => positive("length", what);

/** A dimension as one number, or as [smallest, largest] with its tolerance; always a pair after reading. */
export const toleranced = (what: string) =>
  v.pipe(
    v.lazy((input) =>
      Array.isArray(input)
        ? v.strictTuple(
            [length(`smallest ${what}`), length(`largest ${what}`)],
            "must be [smallest, largest]",
          )
        : length(what),
    ) as v.GenericSchema<number | string | [number | string, number | string], number | [number, number]>,
    v.description(`${what} (mm)`),
    v.transform((value): [number, number] => (typeof value === "number" ? [value, value] : value)),
    v.check(([least, most]) => least <= most, "must be [smallest, largest], in that order"),
  );

const temperature = (what: string) => v.optional(quantity("temperature", TEMPERATURE, what), 20);

/** Bore of the cylinder: what it is made of, how warm and how wide it is. */
const boreSideSchema = () =>
  v.strictObject({
    material: v.optional(someMaterial),
    temperature: temperature("temperature of the bore's wall"),
    diameter: v.optional(toleranced("bore diameter at 20 °C")),
  });

export const pistonSchema = () =>
  v.strictObject({
    diameter: toleranced("piston diameter at the ring"),
    groove: v.pipe(
      v.strictObject({
        width: toleranced("groove width"),
        root: v.optional(toleranced("root diameter of the groove")),
        depth: v.optional(toleranced("depth of the groove from the piston's diameter")),
      }),
      v.description("exactly one of root and depth"),
    ),
    material: v.optional(someMaterial),
    temperature: temperature("temperature of the piston at the groove"),
  });

export const heatSchema = () =>
  v.strictObject({
    ring: v.pipe(
      v.strictObject({ temperature: temperature("mean temperature of the ring") }),
      v.description("the ring at work"),
    ),
    bore: v.pipe(boreSideSchema(), v.description("the bore at work")),
    keepGap: v.optional(quantity("length", { min: 0, max: 10000 }, "hot gap to be kept"), 0),
    factor: v.optional(
      plainNumber(1, 5, "by which the difference of expansions may be larger than computed"),
      1.2,
    ),
  });

const tolerance = (what: string) => v.optional(quantity("length", { min: 0, max: 10 }, what), 0);

export const toleranceSchema = () =>
  optionalFields(
    v.strictObject({
      wall: tolerance("of the ring's wall, either way"),
      height: tolerance("of its height, either way"),
    }),
  );

export type Piston = v.InferOutput<ReturnType<typeof pistonSchema>>;
/** A piston with its groove as a user writes it: see `piston` in docs/reference/inputs.md#engine. */
export type PistonInput = v.InferInput<ReturnType<typeof pistonSchema>>;
/**
 * Temperatures as a user writes them: see `heat` in docs/reference/inputs.md#engine. Of `bore.diameter`, the smallest is the bore that the hot ring
 * closes in, and both are those of the groove's clearances.
 */
export type HeatInput = v.InferInput<ReturnType<typeof heatSchema>>;
export type Heat = v.InferOutput<ReturnType<typeof heatSchema>>;
