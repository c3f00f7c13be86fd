import * as v from "valibot";
import { MATERIALS } from "./materials.js";
import { type Dimension, OWN_UNIT, readQuantity, waysToWrite } from "./quantity.js";

/**
 * The ring spec as a schema: the one definition behind the reader, the types and the published JSON Schema.
 * Ranges here are of single fields; what depends on several fields is checked in `readSpec`.
 */

/** Range of a number; `above` excludes its bound, `min` and `max` include theirs. */
export type Range = { above?: number; min?: number; max: number };

/** What `v.metadata` carries so that the JSON Schema can tell the same range. */
export type QuantityMetadata = { dimension: Dimension; range: Range };

export const STATIONS: { min: number; max: number; default: number } = { min: 16, max: 20000, default: 180 };

function inRange(value: number, { above, min, max }: Range): boolean {
  return (above === undefined || value > above) && (min === undefined || value >= min) && value <= max;
}

function rangeInWords({ above, min, max }: Range, unit: string): string {
  const from = above === undefined ? `from ${min}` : `above ${above}`;
  const to = max < Number.MAX_VALUE ? ` to ${max}` : "";
  return `${from}${to}${unit}`;
}

/** A finite number in the library's unit, or a string with a unit; always a number in the library's unit after reading. */
function quantity(dimension: Dimension, range: Range, what: string) {
  const words = `must be ${rangeInWords(range, ` ${OWN_UNIT[dimension]}`)}, as ${waysToWrite(dimension)}`;
  return v.pipe(
    v.custom<number | string>((value) => typeof value === "number" || typeof value === "string", words),
    v.metadata({ description: `${what} (${OWN_UNIT[dimension]})`, quantity: { dimension, range } }),
    v.rawTransform(({ dataset, addIssue, NEVER }) => {
      const read = readQuantity(dataset.value, dimension);
      if (typeof read !== "number") {
        addIssue({ message: read.reason });
        return NEVER;
      }
      if (!(Number.isFinite(read) && inRange(read, range))) {
        addIssue({ message: words });
        return NEVER;
      }
      return read;
    }),
  );
}

function plainNumber(min: number, max: number, what: string) {
  const words = `must be a number ${rangeInWords({ min, max }, "")}`;
  return v.pipe(
    v.number(words),
    v.finite(words),
    v.minValue(min, words),
    v.maxValue(max, words),
    v.description(what),
  );
}

function positive(dimension: Dimension, what: string) {
  return quantity(dimension, { above: 0, max: Number.MAX_VALUE }, what);
}

/** Values at angles from the back; what depends on the ring and on neighbours is checked in `tables`. */
const TABLE_LENGTH = { min: 3, max: 100000 };
/** A little over half a turn: users round π up. */
const HALF_TURN = 3.15;

function list<Item extends v.GenericSchema>(item: Item, min: number, max: number, what: string) {
  const words = `must be a list of ${min} to ${max} numbers`;
  return v.pipe(v.array(item, words), v.minLength(min, words), v.maxLength(max, words), v.description(what));
}

const finiteNumber = v.pipe(v.number("must be a finite number"), v.finite("must be a finite number"));

function anglesAndValues(what: string) {
  return {
    angle: list(
      quantity("angle", { min: -HALF_TURN, max: HALF_TURN }, "angle from the back"),
      TABLE_LENGTH.min,
      TABLE_LENGTH.max,
      "angles from the back, increasing: from 0 on for a ring whose halves are alike, or for the whole ring",
    ),
    relative: list(finiteNumber, TABLE_LENGTH.min, TABLE_LENGTH.max, `${what}, one an angle`),
  };
}

export const wallTableSchema = v.strictObject(anglesAndValues("thickness over radialThickness"));

/** Relative thickness over the angle from the back, as a table or, in a program, as a function of radians. */
type WallTable = v.InferInput<typeof wallTableSchema>;
type WallShape = v.InferOutput<typeof wallTableSchema> | ((theta: number) => number);

const slotsSchema = v.strictObject({
  count: v.optional(
    v.pipe(plainNumber(1, 10000, "number of slots"), v.integer("must be a whole number from 1 to 10000")),
  ),
  pitch: v.optional(positive("length", "from slot to slot along mid wall")),
  depth: positive("length", "radial depth from the inner face"),
  width: positive("length", "width along the ring"),
  from: v.optional(
    quantity("angle", { min: -HALF_TURN, max: HALF_TURN }, "start of the slotted zone, from the back"),
  ),
  to: v.optional(
    quantity("angle", { min: -HALF_TURN, max: HALF_TURN }, "end of the slotted zone, from the back"),
  ),
});

const sectionSchema = v.strictObject({
  shape: v.optional(v.literal("rectangle", 'must be "rectangle"'), "rectangle"),
  radialThickness: positive("length", "radial wall thickness a1"),
  axialHeight: positive("length", "axial height h1"),
  wall: v.optional(
    v.lazy((input) =>
      typeof input === "function"
        ? v.custom<(theta: number) => number>((value) => typeof value === "function")
        : wallTableSchema,
    ) as v.GenericSchema<WallTable | ((theta: number) => number), WallShape>,
  ),
  slots: v.optional(slotsSchema),
});

export const materialSchema = v.strictObject({
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
});

export const materialName = v.picklist(
  Object.keys(MATERIALS) as [string, ...string[]],
  `must be an object with youngsModulus, or one of ${Object.keys(MATERIALS)
    .map((name) => `"${name}"`)
    .join(", ")}`,
);

const loadSchema = v.strictObject({
  tangentialForce: v.optional(positive("force", "tangential force Ft")),
  contactPressure: v.optional(positive("pressure", "contact pressure p0 = 2·Ft/(d1·h1)")),
  freeGap: v.optional(positive("length", "free gap m, at mid wall")),
});

/** Amplitudes relative to p0; the bound catches per cent. */
const amplitudes = (what: string) => list(plainNumber(-10, 10, "relative amplitude"), 0, 400, what);

const strength = (max: number) => plainNumber(0, max, "how much more or less than p0 at the gap, over p0");

export const PRESSURE_SCHEMAS = {
  uniform: v.strictObject({ shape: v.literal("uniform") }),
  moreAtGap: v.strictObject({ shape: v.literal("moreAtGap"), strength: strength(10) }),
  lessAtGap: v.strictObject({ shape: v.literal("lessAtGap"), strength: strength(1) }),
  harmonics: v.strictObject({
    shape: v.literal("harmonics"),
    cosine: amplitudes("c2, c3, …: p = p0·(1 + Σ ci·cos iθ + si·sin iθ), θ from the back"),
    sine: v.optional(amplitudes("s2, s3, …; only for a ring whose halves differ")),
  }),
  sampled: v.strictObject({
    shape: v.literal("sampled"),
    ...anglesAndValues("pressure, in any unit; p0 is its mean"),
  }),
};

type PressureSchema = (typeof PRESSURE_SCHEMAS)[keyof typeof PRESSURE_SCHEMAS];

const shapeNames = Object.keys(PRESSURE_SCHEMAS) as (keyof typeof PRESSURE_SCHEMAS)[];
const someShape = v.looseObject({
  shape: v.picklist(shapeNames, `must be one of ${shapeNames.map((name) => `"${name}"`).join(", ")}`),
});

/** Chosen by the shape named, so that an error inside keeps its own path. */
const pressureSchema = v.lazy((input) => {
  const shape =
    typeof input === "object" && input !== null ? (input as { shape?: unknown }).shape : undefined;
  return shapeNames.find((name) => name === shape) ? PRESSURE_SCHEMAS[shape as "uniform"] : someShape;
}) as v.GenericSchema<v.InferInput<PressureSchema>, v.InferOutput<PressureSchema>>;

const bodyEntries = {
  // The lower bound catches a bore written in metres.
  bore: quantity("length", { min: 1, max: 10000 }, "nominal bore diameter d1"),
  closedGap: quantity(
    "length",
    { min: 0, max: 10000 },
    "distance between the parallel end faces in the bore, s1",
  ),
  section: sectionSchema,
  // Chosen by kind of input rather than as a union, so that an error inside the object keeps its own path.
  material: v.lazy((input) =>
    typeof input === "object" && input !== null ? materialSchema : materialName,
  ) as v.GenericSchema<
    v.InferInput<typeof materialSchema> | string,
    v.InferOutput<typeof materialSchema> | string
  >,
  theory: v.optional(v.picklist(["thin", "curved"], 'must be "thin" or "curved"'), "curved"),
  stations: v.optional(
    v.pipe(
      plainNumber(STATIONS.min, STATIONS.max, "stations per half ring"),
      v.integer(`must be a whole number from ${STATIONS.min} to ${STATIONS.max}`),
    ),
    STATIONS.default,
  ),
};

/** The body of a ring alone, for one that is given by its free curvature. */
export const bodySchema = v.strictObject(bodyEntries);

export const specSchema = v.strictObject({
  ...bodyEntries,
  load: loadSchema,
  pressure: v.optional(pressureSchema, { shape: "uniform" }),
});

/** A ring spec as a user writes it: lengths, forces, pressures and angles as numbers or as strings with a unit. */
export type RingSpecInput = v.InferInput<typeof specSchema>;
export type SpecOutput = v.InferOutput<typeof specSchema>;
export type BodySpecInput = v.InferInput<typeof bodySchema>;
export type BodyOutput = v.InferOutput<typeof bodySchema>;
