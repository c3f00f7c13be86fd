import * as v from "valibot";
import {
  angleFromBack,
  anglesAndValues,
  byShape,
  oneOf,
  plainNumber,
  positive,
  quantity,
  wholeNumber,
} from "./fields.js";

const wallTableSchema = v.strictObject(anglesAndValues("thickness over radialThickness"));

/** Relative thickness over the angle from the back, as a table or, in a program, as a function of radians. */
type WallTable = v.InferInput<typeof wallTableSchema>;
type WallShape = v.InferOutput<typeof wallTableSchema> | ((theta: number) => number);

/** As many slots as a ring may have. */
export const MOST_SLOTS = 10000;

const slotsSchema = v.strictObject({
  count: v.optional(wholeNumber(1, MOST_SLOTS, "number of slots")),
  pitch: v.optional(positive("length", "from slot to slot along mid wall")),
  depth: positive("length", "radial depth from the inner face"),
  width: positive("length", "width along the ring"),
  from: v.optional(angleFromBack("start of the slotted zone, from the back")),
  to: v.optional(angleFromBack("end of the slotted zone, from the back")),
});

/** Steeper no running face or side is made. */
const steepest = { above: 0, max: Math.PI / 4 };

const faceSchema = byShape({
  taper: v.strictObject({
    shape: v.literal("taper"),
    angle: quantity("angle", steepest, "of the face to the axis"),
  }),
  barrel: v.strictObject({
    shape: v.literal("barrel"),
    drop: positive("length", "of the face's edges behind its middle"),
  }),
});

/** As many corners as a section may have. */
const MOST_CORNERS = 400;
const along = (what: string) => quantity("length", { min: 0, max: 10000 }, what);
const cornerSchema = v.strictObject({
  x: along("along the axis from the bottom side"),
  y: along("outward from the inner face"),
  bulge: v.optional(plainNumber(-1, 1, "tangent of a quarter of the angle of the arc that follows")),
});

export const sectionSchema = v.strictObject({
  shape: v.optional(
    v.pipe(oneOf(["rectangle", "profile"]), v.description("profile for one with features")),
    "rectangle",
  ),
  face: v.optional(v.pipe(faceSchema, v.description("running face"))),
  undercut: v.optional(
    v.pipe(
      v.strictObject({
        depth: positive("length", "radial depth of the undercut"),
        height: positive("length", "axial height of the undercut"),
      }),
      v.description("below the face"),
    ),
  ),
  inner: v.optional(
    v.pipe(
      v.strictObject({
        shape: v.pipe(oneOf(["bevel", "step"]), v.description("of the cut")),
        side: v.pipe(oneOf(["top", "bottom"]), v.description("top: towards combustion")),
        depth: positive("length", "radial depth of the bevel or step"),
        height: positive("length", "axial height of the bevel or step"),
      }),
      v.description("inner edge"),
    ),
  ),
  sides: v.optional(
    v.pipe(
      v.strictObject({
        shape: v.pipe(oneOf(["keystone", "halfKeystone"]), v.description("both sides, or the top one")),
        angle: quantity("angle", steepest, "between the sides"),
      }),
      v.description("inclined sides"),
    ),
  ),
  outline: v.optional(
    v.pipe(
      v.array(cornerSchema, "must be a list of corners"),
      v.minLength(2, "must have at least 2 corners"),
      v.maxLength(MOST_CORNERS, `must have at most ${MOST_CORNERS} corners`),
      v.description('corners of the section, counter-clockwise; for shape "profile"'),
    ),
  ),
  radialThickness: positive("length", "radial wall thickness a1"),
  axialHeight: positive("length", "axial height h1"),
  wall: v.optional(
    v.pipe(
      v.lazy((input) =>
        typeof input === "function"
          ? v.custom<(theta: number) => number>((value) => typeof value === "function")
          : wallTableSchema,
      ),
      v.description("thickness along the ring"),
    ) as v.GenericSchema<WallTable | ((theta: number) => number), WallShape>,
  ),
  slots: v.optional(v.pipe(slotsSchema, v.description("inner slots"))),
});
