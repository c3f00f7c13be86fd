import * as v from "valibot";
import { angleFromBack, anglesAndValues, plainNumber, positive } from "./fields.js";

export const wallTableSchema = v.strictObject(anglesAndValues("thickness over radialThickness"));

/** Relative thickness over the angle from the back, as a table or, in a program, as a function of radians. */
type WallTable = v.InferInput<typeof wallTableSchema>;
type WallShape = v.InferOutput<typeof wallTableSchema> | ((theta: number) => number);

/** As many slots as a ring may have. */
export const MOST_SLOTS = 10000;

const slotsSchema = v.strictObject({
  count: v.optional(
    v.pipe(
      plainNumber(1, MOST_SLOTS, "number of slots"),
      v.integer(`must be a whole number from 1 to ${MOST_SLOTS}`),
    ),
  ),
  pitch: v.optional(positive("length", "from slot to slot along mid wall")),
  depth: positive("length", "radial depth from the inner face"),
  width: positive("length", "width along the ring"),
  from: v.optional(angleFromBack("start of the slotted zone, from the back")),
  to: v.optional(angleFromBack("end of the slotted zone, from the back")),
});

export const sectionSchema = v.strictObject({
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
