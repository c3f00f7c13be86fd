import * as v from "valibot";
import { sensitivityField } from "../contact/closureSchema.js";
import { angleFromBack, finiteNumber, optionalFields, quantity, wholeNumber } from "../spec/fields.js";
import type { Dimension } from "../spec/quantity.js";

/** How the rings and bores of a batch may differ from nominal, and what is asked of them. */

const HUGE = 1e6;

/** One number for limits on both sides, or lower and upper limit deviations. */
function tolerance(dimension: Dimension, what: string) {
  const deviation = (which: string) =>
    quantity(dimension, { min: -HUGE, max: HUGE }, `${which} limit deviation of ${what}`);
  const size = quantity(dimension, { min: 0, max: HUGE }, `${what}, plus or minus`);
  const limits = v.strictObject({
    lower: deviation("lower"),
    upper: deviation("upper"),
    distribution: v.optional(
      v.pipe(
        v.picklist(
          ["normal", "uniform"],
          'must be "normal", with the limits at three standard deviations, or "uniform"',
        ),
        v.description("normal with the limits at three standard deviations, or even between them"),
      ),
      "normal",
    ),
  });
  const isObject = (input: unknown) => typeof input === "object" && input !== null && !Array.isArray(input);
  return v.pipe(
    v.lazy((input) => (isObject(input) ? limits : size)),
    v.description(`${what}: plus or minus, or limit deviations`),
  ) as v.GenericSchema<v.InferInput<typeof limits> | number | string, v.InferOutput<typeof limits> | number>;
}

/** @param lowest order; a bore's of order 0 is its diameter */
const wave = (what: string, lowest: 0 | 1) =>
  v.strictObject({
    order: wholeNumber(lowest, 30, "waves to a turn"),
    tolerance: tolerance("length", what),
    phase: v.optional(angleFromBack("place of a crest, times the order"), 0),
  });

export const tolerancesSchema = () =>
  optionalFields(
    v.strictObject({
      radialThickness: v.optional(tolerance("length", "radial wall thickness")),
      axialHeight: v.optional(tolerance("length", "axial height")),
      youngsModulus: v.optional(tolerance("pressure", "Young's modulus")),
      freeGap: v.optional(tolerance("length", "free gap, the opening being more or less all along")),
      closedGap: v.optional(tolerance("length", "closed gap in the nominal bore, as the ring is cut")),
      bore: v.optional(tolerance("length", "diameter of the bore")),
      bendRadius: v.optional(
        v.pipe(
          v.array(wave("bend radius", 0), "must be a list of waves"),
          v.description("waves of the bend radius along the wire"),
        ),
        [],
      ),
      lobes: v.optional(
        v.pipe(
          v.array(wave("radius of the bore", 1), "must be a list of waves"),
          v.description("waves of the bore round its mean circle"),
        ),
        [],
      ),
    }),
  );

const LIMIT = v.pipe(
  optionalFields(
    v.strictObject({
      min: v.optional(v.pipe(finiteNumber, v.description("least that is good"))),
      max: v.optional(v.pipe(finiteNumber, v.description("most that is good"))),
    }),
  ),
  v.description("in the library's unit of the outcome"),
);

/** What is computed of each variant, in the library's units; pressures at more than 10° from either end. */
export const OUTCOMES = [
  "tangentialForce",
  "freeGap",
  "closedGap",
  "lowestPressure",
  "highestPressure",
  "contactShare",
  "closingStress",
] as const;
/**
 * What is computed of each variant: `tangentialForce` in the tape, N; `freeGap` and `closedGap` as it comes out in the bore, mm; `lowestPressure` and
 * `highestPressure` at more than 10° from either end, MPa; `contactShare` that lets no light past, 0 to 1; `closingStress`, MPa.
 */
export type Outcome = (typeof OUTCOMES)[number];

function limits() {
  return optionalFields(
    v.strictObject(
      Object.fromEntries(OUTCOMES.map((outcome) => [outcome, v.optional(LIMIT)])) as {
        [key in Outcome]: v.OptionalSchema<typeof LIMIT, undefined>;
      },
    ),
  );
}

export const variationSchema = () =>
  v.strictObject({
    samples: v.optional(
      wholeNumber(8, 1_000_000, "pairs of independent variants; powers of two serve best"),
      256,
    ),
    seed: v.optional(wholeNumber(0, 2 ** 31 - 1, "of the sequence"), 1),
    sensitivity: sensitivityField(),
    limits: v.optional(v.pipe(limits(), v.description("asked of the outcomes")), {}),
  });

/** So that errors name fields as `tolerances.bore`: the spec has one of that name too. */
export const namedTolerances = () => v.strictObject({ tolerances: tolerancesSchema() });

/** Tolerances as a user writes them: see docs/reference/inputs.md#tolerances. */
export type TolerancesInput = v.InferInput<ReturnType<typeof tolerancesSchema>>;
/** How a study is made, as a user writes it: see docs/reference/inputs.md#study. */
export type VariationSettings = v.InferInput<ReturnType<typeof variationSchema>>;
