import * as v from "valibot";
import { SpecError } from "../spec/error.js";
import { optionalFields, plainNumber, quantity } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { growthAt, ROOM } from "../spec/materialAt.js";
import type { BodySpec } from "../spec/ringSpec.js";
import { TEMPERATURE } from "../spec/schema.js";
import { type Piston, type PistonInput, pistonSchema, toleranced, toleranceSchema } from "./fitSchema.js";
import { faultOf, type GrooveFit, grooveClearances, type Limits } from "./grooveClearances.js";
import { type Growths, growthOf } from "./growth.js";

/** Tolerances of the ring itself, mm or with a unit; half the width of the range either way, 0 to 10 mm. */
export interface RingTolerance {
  /** Of the radial thickness, less than it. Default 0. */
  readonly wall?: number | string;
  /** Of the axial height, less than it. Default 0. */
  readonly height?: number | string;
}

/** What surrounds a ring in its groove, besides the piston. */
export interface GrooveOptions {
  /** Of the ring. Default none. */
  readonly tolerance?: RingTolerance;
  /** Bore at 20 °C, one length or [smallest, largest], mm or with a unit; by default the ring's. */
  readonly bore?: number | string | readonly [least: number | string, most: number | string];
  /** −100 to 1200 °C; by default the ring has not grown, and needs no expansion. */
  readonly ringTemperature?: number | string;
  /** Size of the bore over that at 20 °C, 0.9 to 1.2. Default 1. */
  readonly boreGrowth?: number;
}

const optionsSchema = () =>
  optionalFields(
    v.strictObject({
      tolerance: v.optional(toleranceSchema(), {}),
      bore: v.optional(toleranced("bore")),
      ringTemperature: v.optional(quantity("temperature", TEMPERATURE, "temperature of the ring"), ROOM),
      boreGrowth: v.optional(plainNumber(0.9, 1.2, "size of the bore over that at 20 °C"), 1),
    }),
  );

/** So that errors name the piston's fields apart from the ring's. */
const named = () => v.strictObject({ piston: pistonSchema() });

/**
 * Axial and back clearance of a ring in its groove, cold or hot, by the limits of the tolerances; worked.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring spec of the ring, or a design's
 * @param piston its diameter, groove width and root diameter or depth, each one length or [smallest, largest]; its material and temperature
 * @param options ring tolerances (mm), limits of the bore (mm), temperature of the ring (°C) and growth of the bore
 * @throws SpecError when a value is out of range, the piston does not go into the bore, cold or hot, or the ring would bind between the sides of
 * its groove, bottom at its root or stand proud of the piston
 *
 * @example
 * grooveFit(design.spec, { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } }).backClearance; // [1.1, 1.1], mm
 */
export function grooveFit(
  ring: Pick<BodySpec, "bore" | "section" | "material">,
  piston: PistonInput,
  options: GrooveOptions = {},
): GrooveFit {
  const read = parse(named, { piston }).piston;
  const { tolerance, bore, ringTemperature, boreGrowth } = parse(optionsSchema, options, "options");
  return fitInGroove(ring, read, {
    tolerance,
    bore,
    growth: {
      ring: growthAt(ring.material, ringTemperature, "ring", "material", "ringTemperature"),
      piston: growthOf(read, "piston"),
      bore: boreGrowth,
    },
  });
}

/** The same, of what has been read. */
export function fitInGroove(
  { bore: nominal, section }: Pick<BodySpec, "bore" | "section">,
  piston: Piston,
  {
    tolerance,
    bore = [nominal, nominal],
    growth,
  }: {
    readonly tolerance: { readonly wall: number; readonly height: number };
    readonly bore?: Limits | undefined;
    readonly growth: Growths;
  },
): GrooveFit {
  const { radialThickness, axialHeight } = section;
  const around = (field: "wall" | "height", size: number): Limits => {
    const off = tolerance[field];
    if (off < size) return [size - off, size + off];
    throw new SpecError(`tolerance.${field}`, off, `must be less than the ring's ${field}, ${size} mm`);
  };
  const fit = grooveClearances(piston, {
    bore,
    wall: around("wall", radialThickness),
    height: around("height", axialHeight),
    growth,
  });
  const fault = faultOf(fit);
  if (fault === "binds") {
    throw new SpecError(
      "section.axialHeight",
      axialHeight,
      `must be lower: it would bind in the groove, with ${fit.axialClearance[0].toFixed(4)} mm of clearance at the least`,
    );
  }
  if (fault) {
    const how = {
      bottoms: "bottom in the groove",
      proud: "stand proud of the piston, pressed into the groove",
    }[fault];
    throw new SpecError(
      "section.radialThickness",
      radialThickness,
      `must be at most ${fit.largestWall.toFixed(4)} mm: it would ${how}`,
    );
  }
  return fit;
}
