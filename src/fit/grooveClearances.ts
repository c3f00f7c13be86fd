import { SpecError } from "../spec/error.js";
import type { Piston } from "./fitSchema.js";
import type { Growths } from "./growth.js";

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
  readonly growth: Growths;
}

const scaled = ([least, most]: Limits, by: number): Limits => [least * by, most * by];
const minus = (one: Limits, other: Limits): Limits => [one[0] - other[1], one[1] - other[0]];
const half = (limits: Limits) => scaled(limits, 0.5);

/** Root diameter of a groove given by it or by its depth. */
function grooveRoot({ diameter, groove }: Piston): Limits {
  const { root, depth } = groove;
  if ((root === undefined) === (depth === undefined)) {
    throw new SpecError("piston.groove", groove, "must hold exactly one of root, depth");
  }
  if (root !== undefined) {
    if (root[1] < diameter[0]) return root;
    throw new SpecError(
      "piston.groove.root",
      root[1],
      `must be less than the piston's diameter of ${diameter[0]} mm`,
    );
  }
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

/** A piston goes into its bore cold, to be fitted, and hot, or it seizes. */
function checkPiston([, most]: Limits, [least]: Limits, growth: Growths): void {
  if (!(most < least))
    throw new SpecError("piston.diameter", most, `must be less than the bore, ${least} mm`);
  const [piston, bore] = [most * growth.piston, least * growth.bore];
  if (!(piston < bore)) {
    throw new SpecError(
      "piston.diameter",
      most,
      `must be smaller: hot it is ${piston.toFixed(3)} mm, in a bore that then is ${bore.toFixed(3)} mm`,
    );
  }
}

/**
 * The bare arithmetic: clearances by their limits.
 *
 * @throws SpecError where the piston does not go into the bore, or its groove is none
 */
export function grooveClearances(piston: Piston, { bore, wall, height, growth }: Sizes): GrooveFit {
  checkPiston(piston.diameter, bore, growth);
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

/** How a ring fails to go into its groove at the worst of its limits: it binds between the sides, bottoms at the root, or stands proud when pressed in. */
export function faultOf({
  axialClearance,
  backClearance,
  sink,
}: GrooveFit): "binds" | "bottoms" | "proud" | undefined {
  if (!(axialClearance[0] > 0)) return "binds";
  if (!(backClearance[0] >= 0)) return "bottoms";
  if (!(sink[0] >= 0)) return "proud";
  return undefined;
}
