import { tableCurve } from "../numeric/angleTable.js";
import { SpecError } from "./error.js";
import type { RelativeTable, SlotsSpec } from "./ringSpec.js";
import type { BodyOutput } from "./schema.js";
import { checkTable } from "./tables.js";

/** What the ring allows its wall to be, mm. */
interface Limits {
  readonly bore: number;
  readonly closedGap: number;
  readonly thinnest: number;
  readonly thickest: number;
}

/** Points on the ring at which a wall given as a function is tried. */
const TRIALS = 1441;
/** Depth over wall up to which the slot model is compared with finite elements. */
const DEEPEST_SLOT = 0.85;

type Section = BodyOutput["section"];
type ThicknessAt = (theta: number) => number;

/**
 * Checks the wall's variation and its slots against the ring.
 *
 * @throws SpecError for a wall that is nowhere to be made, slots wider than their pitch or too deep for the wall
 */
export function readWall(
  section: Section,
  limits: Limits,
): { wall?: RelativeTable | ThicknessAt; slots?: SlotsSpec } {
  const { wall, radialThickness } = section;
  const limit = Math.PI - Math.asin(limits.closedGap / (limits.bore - radialThickness));
  if (wall === undefined && !section.slots) return {};
  if (typeof wall === "object") checkTable("section.wall", wall, limit);
  const relativeAt = wall === undefined ? () => 1 : typeof wall === "function" ? wall : tableCurve(wall).at;
  const thicknessAt = (theta: number) => radialThickness * relativeAt(theta);
  if (wall !== undefined) checkThickness(thicknessAt, limit, limits);
  const slots = section.slots && readSlots(section.slots, thicknessAt, limit, limits.bore - radialThickness);
  return { ...(wall !== undefined && { wall }), ...(slots && { slots }) };
}

/** The values tried stand for all; a table's own points are among the likeliest extremes, so they are tried too. */
function checkThickness(thicknessAt: ThicknessAt, limit: number, { thinnest, thickest }: Limits): void {
  for (let k = 0; k < TRIALS; k++) {
    const theta = limit * ((2 * k) / (TRIALS - 1) - 1);
    const thickness = thicknessAt(theta);
    if (thickness >= thinnest && thickness <= thickest) continue;
    throw new SpecError(
      "section.wall",
      thickness,
      `must give a thickness from ${thinnest} to ${thickest} mm everywhere; this is the one at ${theta.toFixed(4)} rad from the back`,
    );
  }
}

function readSlots(
  slots: NonNullable<Section["slots"]>,
  thicknessAt: ThicknessAt,
  limit: number,
  meanDiameter: number,
): SlotsSpec {
  const { depth, width } = slots;
  const field = (name: string) => `section.slots.${name}`;
  const { from = -(slots.to ?? limit), to = limit } = slots;
  for (const [name, value] of [
    ["from", from],
    ["to", to],
  ] as const) {
    if (Math.abs(value) > limit + 1e-9) {
      throw new SpecError(
        field(name),
        value,
        `must be on the ring, within ±${limit.toFixed(4)} rad of the back`,
      );
    }
  }
  if (!(from < to)) throw new SpecError(field("to"), to, `must be beyond "from", ${from} rad`);
  const zone = ((to - from) * meanDiameter) / 2;
  const { count, pitch } = evenlySpaced(slots, zone);
  // The smallest wall of the zone decides what fits.
  let thinnest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < TRIALS; k++) {
    thinnest = Math.min(thinnest, thicknessAt(from + ((to - from) * k) / (TRIALS - 1)));
  }
  if (!(depth <= DEEPEST_SLOT * thinnest)) {
    throw new SpecError(
      field("depth"),
      depth,
      `must be at most ${DEEPEST_SLOT} of the wall, ${DEEPEST_SLOT * thinnest} mm`,
    );
  }
  const innerPitch = pitch * (1 - thinnest / meanDiameter);
  if (!(width < innerPitch)) {
    throw new SpecError(
      field("width"),
      width,
      `must be less than the pitch, ${innerPitch.toPrecision(6)} mm at the inner face`,
    );
  }
  // A pitch that does not fill the zone leaves the rest at both ends alike.
  const rest = (to - from - (2 * count * pitch) / meanDiameter) / 2;
  return { count, depth, width, from: from + rest, to: to - rest };
}

function evenlySpaced(slots: NonNullable<Section["slots"]>, zone: number): { count: number; pitch: number } {
  const { count, pitch } = slots;
  if ((count === undefined) === (pitch === undefined)) {
    throw new SpecError("section.slots", { count, pitch }, "must hold exactly one of count, pitch");
  }
  if (count !== undefined) return { count, pitch: zone / count };
  const fitting = Math.floor((pitch as number) === 0 ? 0 : zone / (pitch as number) + 1e-9);
  if (fitting < 1) {
    throw new SpecError(
      "section.slots.pitch",
      pitch,
      `must be at most the slotted zone's length, ${zone.toPrecision(6)} mm`,
    );
  }
  return { count: fitting, pitch: pitch as number };
}
