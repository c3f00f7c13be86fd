import * as v from "valibot";
import { DEFAULT_TOLERANCE, FINEST } from "../curves/fitRing.js";
import { oneOf, optionalFields, plainNumber, positive, quantity, wholeNumber } from "../spec/fields.js";

/** What the shop does, as schemas: one an operation, and all of them together for `camround make`. */

/** No face carries more stock or coating than this, mm; it catches micrometres given as millimetres. */
const MOST_STOCK = 5;
const stock = (what: string) => v.optional(quantity("length", { min: 0, max: MOST_STOCK }, what), 0);
const faces = (what: string) =>
  v.optional(
    v.pipe(
      optionalFields(
        v.strictObject({
          outer: stock(`${what} the outer face`),
          inner: stock(`${what} the inner face`),
          sides: stock(`${what} each side face`),
          ends: stock(`${what} each end face`),
        }),
      ),
      v.description(`${what} each kind of face`),
    ),
    {},
  );

export const allowancesSchema = () =>
  optionalFields(
    v.strictObject({
      coating: faces("coating put on"),
      lapping: faces("after coating, stock lapped or ground off"),
      coatingStiffness: v.optional(
        v.pipe(
          v.picklist(["counted", "neglected"], 'must be "counted" or "neglected"'),
          v.description("whether the coating bends as metal does, or adds no stiffness"),
        ),
        "counted",
      ),
    }),
  );

export const coilingSchema = () =>
  optionalFields(
    v.strictObject({
      yieldStress: v.optional(
        positive("pressure", "yield stress of the wire as it is coiled, for springback"),
      ),
      density: v.optional(
        quantity("density", { min: 500, max: 25000 }, "density of the wire; the material's if not given"),
      ),
      batch: v.optional(wholeNumber(1, 1e7, "rings in the batch"), 1),
      kerf: stock("lost to the cut between two rings"),
      grinding: stock("ground off each end"),
      rows: v.optional(wholeNumber(2, 20001, "rows of the table"), 181),
    }),
  );

/** Where a cam's radius is counted from. */
const centreSchema = () =>
  v.lazy((input) =>
    Array.isArray(input)
      ? v.strictTuple([coordinate("x"), coordinate("y")], "must be two lengths, x and y")
      : v.picklist(["bore", "minimumZone"], 'must be "bore", "minimumZone" or [x, y]'),
  ) as v.GenericSchema<
    "bore" | "minimumZone" | [number | string, number | string],
    "bore" | "minimumZone" | [number, number]
  >;

export const camSchema = () =>
  optionalFields(
    v.strictObject({
      centre: v.optional(
        v.pipe(
          centreSchema(),
          v.description(
            "that radii are counted from: of the bore, of least lift, or a point from that of the bore",
          ),
        ),
        "bore",
      ),
      step: v.optional(quantity("angle", { min: 1e-4, max: 0.2 }, "angle between rows"), "1 deg"),
      spindleSpeed: v.optional(plainNumber(0, 1e5, "spindle speed, revolutions a minute"), 60),
      noseRadius: v.optional(quantity("length", { min: 0, max: 1000 }, "radius of the tool's nose"), 0),
    }),
  );

const STRAIGHT_OR_RADIUS =
  'must be "straight" or the radius at mid wall, as a number in mm or a string with a unit';
const radiusBefore = positive("length", "radius of the wire at mid wall before it is put on the mandrel");

export const heatSetSchema = () =>
  v.strictObject({
    remaining: plainNumber(0, 0.95, "share of the elastic curvature that remains after the soak"),
    before: v.pipe(
      v.lazy((input) => {
        if (input === "straight") return v.literal("straight");
        // A string without a number is a misspelt word.
        return typeof input === "string" && !/\d/.test(input)
          ? v.literal("straight", STRAIGHT_OR_RADIUS)
          : radiusBefore;
      }),
      v.description("the wire before it is put on the mandrel: straight, or its radius at mid wall"),
    ) as v.GenericSchema<number | string, number | "straight">,
    uncertainty: v.optional(plainNumber(0, 0.5, "how far off `remaining` may be, either way"), 0.02),
  });

export const gapSchema = () =>
  optionalFields(
    v.strictObject({
      filingStock: stock("left to file on each end"),
      heldGap: v.optional(
        quantity("length", { min: 0, max: 10000 }, "opening at which the ring is held for cutting"),
      ),
      gapTolerance: v.optional(
        positive("length", "how much the closed gap may be off either way, for its gauge"),
      ),
    }),
  );

/** As of the largest bore; of its own ring a tolerance is read with the curves. mm. */
const LARGEST = 10;

export const PAGES = ["A4", "A3", "Letter"] as const;

/** Everything the shop says of how a ring is made. */
export const makingSchema = () =>
  v.strictObject({
    tolerance: v.optional(
      quantity(
        "length",
        { min: FINEST, max: LARGEST },
        "largest distance of arcs and Béziers from the curve; at most a hundredth of the bore",
      ),
      DEFAULT_TOLERANCE,
    ),
    allowances: v.optional(v.pipe(allowancesSchema(), v.description("metal put on and taken off")), {}),
    coiling: v.optional(v.pipe(coilingSchema(), v.description("of wire")), {}),
    cam: v.optional(v.pipe(camSchema(), v.description("turning of a closed blank")), {}),
    gap: v.optional(v.pipe(gapSchema(), v.description("cutting and filing of the ends")), {}),
    heatSet: v.optional(v.pipe(heatSetSchema(), v.description("shape setting on a mandrel"))),
    page: v.optional(v.pipe(oneOf(PAGES), v.description("sheet of the template")), "A4"),
  });

function coordinate(axis: string) {
  return quantity("length", { min: -10000, max: 10000 }, `${axis} of the centre, from that of the bore`);
}

/** Something on each kind of face, mm. */
export type Faces = v.InferOutput<ReturnType<typeof allowancesSchema>>["coating"];
/** Coating and stock on each face as a user writes them: see `allowances` in docs/reference/inputs.md#making. */
export type AllowancesInput = v.InferInput<ReturnType<typeof allowancesSchema>>;
/** How wire is coiled, as a user writes it: see `coiling` in docs/reference/inputs.md#making. */
export type CoilingInput = v.InferInput<ReturnType<typeof coilingSchema>>;
/** How a blank is turned, as a user writes it: see `cam` in docs/reference/inputs.md#making. */
export type CamInput = v.InferInput<ReturnType<typeof camSchema>>;
/** How a shape is set, as a user writes it: see `heatSet` in docs/reference/inputs.md#making. */
export type HeatSetInput = v.InferInput<ReturnType<typeof heatSetSchema>>;
/** How a gap is cut, as a user writes it: see `gap` in docs/reference/inputs.md#making. */
export type GapInput = v.InferInput<ReturnType<typeof gapSchema>>;
/** How the shop makes a ring, as a user writes it: see docs/reference/inputs.md#making. */
export type MakingInput = v.InferInput<ReturnType<typeof makingSchema>>;
/** How the shop makes a ring, as read: {@link MakingInput} with defaults filled in, lengths in mm, stresses in MPa, angles in radians. */
export type Making = v.InferOutput<ReturnType<typeof makingSchema>>;
