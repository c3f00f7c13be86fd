import { tableCurve } from "../numeric/angleTable.js";
import { SpecError } from "./error.js";
import type { RelativeTable, SlotsSpec } from "./ringSpec.js";
import type { BodyOutput, BodySpecInput } from "./schema.js";
import { MOST_SLOTS } from "./sectionSchema.js";
import { checkTable } from "./tables.js";

/** What the ring allows its wall to be, mm. */
interface Limits {
  readonly bore: number;
  readonly closedGap: number;
  readonly thinnest: number;
  readonly thickest: number;
}

/** Points on the ring at which a wall given as a function is tried. */
const TRIALS = 721;
/** Depth over wall up to which the slot model is compared with finite elements. */
const DEEPEST_SLOT = 0.85;

/** A zone that ends at the back itself would let the wall jump between the halves. Radians. */
const CLEAR_OF_BACK = 1e-3;

type Section = BodyOutput["section"];
type GivenSection = BodySpecInput["section"];
type ThicknessAt = (theta: number) => number;

/**
 * Checks the wall's variation and its slots against the ring.
 *
 * @param section as read
 * @param given as written, for messages
 * @throws SpecError for a wall that is nowhere to be made, slots wider than their pitch or too deep for the wall
 */
export function readWall(
  section: Section,
  given: GivenSection,
  limits: Limits,
): { wall?: RelativeTable | ThicknessAt; slots?: SlotsSpec } {
  const { wall, slots, radialThickness } = section;
  const meanDiameter = limits.bore - radialThickness;
  const limit = Math.PI - Math.asin(limits.closedGap / meanDiameter);
  if (wall === undefined && !slots) return {};
  if (typeof wall === "object") checkTable("section.wall", wall, limit, given.wall);
  const relativeAt = wall === undefined ? () => 1 : typeof wall === "function" ? wall : tableCurve(wall).at;
  if (wall !== undefined) checkThickness(relativeAt, radialThickness, limit, limits);
  const thicknessAt = (theta: number) => radialThickness * relativeAt(theta);
  return {
    ...(wall !== undefined && { wall }),
    ...(slots && {
      slots: readSlots(slots, given.slots as Given, thicknessAt, {
        limit,
        meanDiameter,
        radialThickness,
        closedGap: limits.closedGap,
      }),
    }),
  };
}

/** The values tried stand for all; a table's own points are among the likeliest extremes, so they are tried too. */
function checkThickness(
  relativeAt: ThicknessAt,
  nominal: number,
  limit: number,
  { thinnest, thickest }: Limits,
): void {
  for (let k = 0; k < TRIALS; k++) {
    const theta = limit * ((2 * k) / (TRIALS - 1) - 1);
    const relative: unknown = relativeAt(theta);
    const thickness = typeof relative === "number" ? nominal * relative : Number.NaN;
    if (thickness >= thinnest && thickness <= thickest) continue;
    throw new SpecError(
      "section.wall",
      typeof relative === "number" ? thickness : relative,
      `must give a thickness from ${thinnest} to ${thickest} mm everywhere; this is the one at ${theta.toFixed(4)} rad from the back`,
    );
  }
}

type Slots = NonNullable<Section["slots"]>;
type Given = NonNullable<GivenSection["slots"]>;

/** Where slots can stand: θC, and sizes in mm. */
interface SlottedRing {
  readonly limit: number;
  readonly meanDiameter: number;
  readonly radialThickness: number;
  readonly closedGap: number;
}

function readSlots(
  slots: Slots,
  given: Given,
  thicknessAt: ThicknessAt,
  { limit, meanDiameter, radialThickness, closedGap }: SlottedRing,
): SlotsSpec {
  const refuse = (name: keyof Given, allowed: string): never => {
    throw new SpecError(`section.slots.${name}`, given[name], allowed);
  };
  const { depth, width } = slots;
  const { from = -limit, to = limit } = slots;
  for (const name of ["from", "to"] as const) {
    const value = slots[name];
    if (value === undefined) continue;
    if (Math.abs(value) > limit + 1e-9) {
      refuse(name, `must be on the ring, within ±${limit.toFixed(4)} rad of the back`);
    }
    if (Math.abs(value) < CLEAR_OF_BACK) {
      refuse(name, `must be ${CLEAR_OF_BACK} rad or more from the back, on either side`);
    }
  }
  if (!(from < to)) refuse(slots.to === undefined ? "from" : "to", `must be beyond "from", ${from} rad`);
  const zone = ((to - from) * meanDiameter) / 2;
  const { count, pitch } = evenlySpaced(slots, given, zone);
  // The smallest wall of the zone decides what fits.
  let thinnest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < TRIALS; k++) {
    thinnest = Math.min(thinnest, thicknessAt(from + ((to - from) * k) / (TRIALS - 1)));
  }
  if (!(depth <= DEEPEST_SLOT * thinnest)) {
    refuse("depth", `must be at most ${DEEPEST_SLOT} of the wall, ${DEEPEST_SLOT * thinnest} mm`);
  }
  // At the inner face slots must leave teeth between them and, past the outermost, wall up to the cut of the ends.
  const inner = meanDiameter / 2 - (thinnest - radialThickness / 2);
  const spacing = (2 * pitch) / meanDiameter;
  const widest = 2 * inner * Math.sin(Math.min(spacing, Math.PI) / 2);
  if (!(width < widest)) {
    refuse("width", `must be less than the pitch, ${widest.toPrecision(6)} mm at the inner face`);
  }
  const innerEnd = Math.PI - Math.asin(Math.min(1, closedGap / (2 * inner)));
  const outermost = Math.max(-from, to) - spacing / 2 + Math.asin(width / (2 * inner));
  if (!(outermost < innerEnd)) {
    refuse("width", "must be less: the outermost slot would reach the end of the ring at its inner face");
  }
  // A pitch that does not fill the zone leaves the rest at both ends alike; one that does leaves rounding.
  const rest = Math.max(0, (to - from - (2 * count * pitch) / meanDiameter) / 2);
  return { count, depth, width, from: from + rest, to: to - rest };
}

function evenlySpaced({ count, pitch }: Slots, given: Given, zone: number): { count: number; pitch: number } {
  if ((count === undefined) === (pitch === undefined)) {
    throw new SpecError("section.slots", given, "must hold exactly one of count, pitch");
  }
  if (count !== undefined) return { count, pitch: zone / count };
  const wanted = pitch as number;
  const fitting = Math.floor(zone / wanted + 1e-9);
  if (fitting >= 1 && fitting <= MOST_SLOTS) return { count: fitting, pitch: wanted };
  throw new SpecError(
    "section.slots.pitch",
    given.pitch,
    `must be from ${(zone / MOST_SLOTS).toPrecision(6)} mm, ${MOST_SLOTS} slots, to the slotted zone's length, ${zone.toPrecision(6)} mm`,
  );
}
