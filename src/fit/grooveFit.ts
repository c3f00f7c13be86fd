import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { growthAt } from "../spec/materialAt.js";
import type { BodySpec } from "../spec/ringSpec.js";
import { type Piston, type PistonInput, pistonSchema } from "./fitSchema.js";
import { growthOf } from "./growth.js";

/** From the smallest to the largest that the tolerances allow, mm. */
export type Limits = readonly [least: number, most: number];

/** How a ring fits its groove, ring and piston concentric with the bore. mm. */
export interface GrooveFit {
  /** Groove width less ring height. */
  readonly axialClearance: Limits;
  /** Between the ring's inner face and the root of the groove. */
  readonly backClearance: Limits;
  /** How far the ring can sink below the piston's surface when it is pressed in; it stands proud where this is negative. */
  readonly sink: Limits;
  /** Thickest nominal wall that, with its tolerance, neither bottoms nor stands proud. */
  readonly largestWall: number;
}

/** What a fit is worked from: sizes of the ring, and how much each part has grown. */
interface Sizes {
  readonly bore: Limits;
  readonly wall: Limits;
  readonly height: Limits;
  readonly growth: { readonly ring: number; readonly piston: number; readonly bore: number };
}

/** Tolerances of the ring itself, mm; half the width of the range either way. */
export interface RingTolerance {
  /** Of the radial thickness, from 0. Default 0. */
  readonly wall?: number;
  /** Of the axial height, from 0. Default 0. */
  readonly height?: number;
}

const scaled = ([least, most]: Limits, by: number): Limits => [least * by, most * by];
const minus = (one: Limits, other: Limits): Limits => [one[0] - other[1], one[1] - other[0]];
const half = (limits: Limits) => scaled(limits, 0.5);

/** Root diameter of a groove given by it or by its depth. */
export function grooveRoot({ diameter, groove }: Piston): Limits {
  const { root, depth } = groove;
  if ((root === undefined) === (depth === undefined)) {
    throw new SpecError("piston.groove", groove, "must hold exactly one of root, depth");
  }
  if (root !== undefined) return root;
  const limits = depth as Limits;
  if (!(2 * limits[1] < diameter[0])) {
    throw new SpecError(
      "piston.groove.depth",
      limits[1],
      `must be less than half the piston's diameter of ${diameter[0]} mm`,
    );
  }
  return minus(diameter, scaled(limits, 2));
}

/** The bare arithmetic: clearances by their limits. */
export function grooveClearances(piston: Piston, { bore, wall, height, growth }: Sizes): GrooveFit {
  const ring = { wall: scaled(wall, growth.ring), height: scaled(height, growth.ring) };
  const root = scaled(grooveRoot(piston), growth.piston);
  const space = half(minus(scaled(bore, growth.bore), root));
  const depth = piston.groove.depth
    ? scaled(piston.groove.depth, growth.piston)
    : half(minus(scaled(piston.diameter, growth.piston), root));
  /** How much thicker than nominal a wall may come out. */
  const over = (wall[1] - wall[0]) / 2;
  return {
    axialClearance: minus(scaled(piston.groove.width, growth.piston), ring.height),
    backClearance: minus(space, ring.wall),
    sink: minus(depth, ring.wall),
    largestWall: Math.min(space[0], depth[0]) / growth.ring - over,
  };
}

/**
 * Axial and back clearance of a ring in its groove, cold or hot, by the limits of the tolerances; worked.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring spec of the ring, or a design's
 * @param input piston diameter, groove width and root diameter or depth, each one length or [smallest, largest]; its material and temperature
 * @param options ring tolerances (mm), limits of the bore, temperature of ring and growth of the bore
 * @throws SpecError where the ring would bind between the sides of its groove, bottom at its root or stand proud of the piston
 *
 * @example
 * grooveFit(design.spec, { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } }).backClearance; // [1.1, 1.1], mm
 */
export function grooveFit(
  ring: Pick<BodySpec, "bore" | "section" | "material">,
  input: PistonInput,
  options: {
    /** Of the ring. Default none. */
    readonly tolerance?: RingTolerance;
    /** Smallest and largest bore, mm, cold; by default the ring's. */
    readonly bore?: Limits;
    /** °C; by default the ring has not grown, and needs no expansion. */
    readonly ringTemperature?: number;
    /** Size of the bore over that at 20 °C. Default 1. */
    readonly boreGrowth?: number;
  } = {},
): GrooveFit {
  const piston = parse(pistonSchema, input);
  const { section, material } = ring;
  const { tolerance = {}, ringTemperature, boreGrowth = 1 } = options;
  for (const name of ["wall", "height"] as const) {
    const off = tolerance[name] ?? 0;
    if (!(typeof off === "number" && off >= 0 && off < ring.bore)) {
      throw new SpecError(`tolerance.${name}`, off, "must be a number from 0 mm up");
    }
  }
  const bore = options.bore ?? [ring.bore, ring.bore];
  if (!(piston.diameter[1] < bore[0])) {
    throw new SpecError("piston.diameter", input.diameter, `must be less than the bore, ${bore[0]} mm`);
  }
  const around = (size: number, off = 0): Limits => [size - off, size + off];
  const fit = grooveClearances(piston, {
    bore,
    wall: around(section.radialThickness, tolerance.wall),
    height: around(section.axialHeight, tolerance.height),
    growth: {
      ring: ringTemperature === undefined ? 1 : growthAt(material, ringTemperature, "ring", "material"),
      piston: growthOf(piston, "piston"),
      bore: boreGrowth,
    },
  });
  const refuse = (field: string, value: number, allowed: string) => {
    throw new SpecError(field, value, allowed);
  };
  if (!(fit.axialClearance[0] > 0)) {
    refuse(
      "section.axialHeight",
      section.axialHeight,
      `must be lower: it would bind in the groove, with ${fit.axialClearance[0].toFixed(4)} mm of clearance at the least`,
    );
  }
  if (!(fit.backClearance[0] >= 0)) {
    refuse(
      "section.radialThickness",
      section.radialThickness,
      `must be at most ${fit.largestWall.toFixed(4)} mm: it would bottom in the groove`,
    );
  }
  if (!(fit.sink[0] >= 0)) {
    refuse(
      "section.radialThickness",
      section.radialThickness,
      `must be at most ${fit.largestWall.toFixed(4)} mm: it would stand proud of the piston, pressed into the groove`,
    );
  }
  return fit;
}
