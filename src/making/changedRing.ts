import { asDesign } from "../contact/asDesign.js";
import { closeInBore } from "../contact/closeInBore.js";
import { NoContact } from "../contact/noContact.js";
import type { RingDesign } from "../design/ringDesign.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { SpecError } from "../spec/error.js";

/** A change of the free curvature along a ring, as from its drawing to what a machine is told. */
export interface CurvatureChange {
  /** Angle of each place from the back when closed, radians, non-decreasing from end to end. */
  readonly theta: readonly number[];
  /** Change of the free curvature there, 1/mm, as many. */
  readonly curvature: readonly number[];
  /** Free length of the ring's line that it is for, mm, if known: a ring of another one is refused. */
  readonly length?: number;
}

/** Fewest places, as tables are read through eight. */
const FEWEST = 8;
/** How far ends and length of a change may lie from those of the ring, as a share: a coating's worth. */
const SAME_RING = 0.01;

/**
 * The ring of another free curvature, with all that a design has. `installed` and `load` are those that it would have itself in its bore.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param design the ring to change
 * @param change by share of the length: ends stay ends
 * @throws SpecError for tables that are none, a change for another ring, or one so large that the ring would be loose in its bore or not close into it
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const { theta } = design.free;
 * const change = { theta, curvature: theta.map(() => -1e-5) };
 * changedRing(design, change).free.gap - design.free.gap; // 0.2114, mm
 */
export function changedRing(design: RingDesign, change: CurvatureChange): RingDesign {
  const { theta, curvature, arcLength } = design.free;
  const last = theta.length - 1;
  const by = readChange(change, theta[last], arcLength[last] - arcLength[0]);
  const added = atStations(by, theta);
  const ring = { ...design, free: { theta, curvature: curvature.map((value, i) => value + added[i]) } };
  try {
    return asDesign(ring, design.spec, closeInBore(ring), tapeTest(ring).force);
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    // Bore and free curvature, which the error names, are not what the caller gave.
    const largest = added.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);
    throw new SpecError("correction.curvature", largest, `${TOO_MUCH}: ${reasonOf(error)}`);
  }
}

const TOO_MUCH = "must change the curvature by less than this largest change, 1/mm";

function reasonOf(error: SpecError): string {
  if (!(error instanceof NoContact)) return "no ring that closes into its bore would be left";
  return error.reason === "loose"
    ? "the ring would be loose in its bore"
    : "the ring's ends would overlap in its bore";
}

/** Angles written into a table and read back differ by less than this. */
const SAME_PLACE = 1e-9;

function atStations(change: CurvatureChange, theta: readonly number[]): readonly number[] {
  // At the same stations as they stand: where slots begin a station stands twice.
  const sameStations =
    change.theta.length === theta.length &&
    theta.every((angle, i) => Math.abs(angle - change.theta[i]) < SAME_PLACE);
  if (sameStations) return change.curvature;
  const scale = change.theta[change.theta.length - 1] / theta[theta.length - 1];
  return interpolateTable(
    change.theta,
    change.curvature,
    theta.map((angle) => scale * angle),
  );
}

function readChange(change: CurvatureChange, limit: number, wanted: number): CurvatureChange {
  if (typeof change !== "object" || change === null) {
    throw new SpecError("correction", change, "must be a change of curvature: theta and curvature");
  }
  const { theta, curvature, length = wanted } = change;
  for (const [name, list] of Object.entries({ theta, curvature })) {
    if (!(Array.isArray(list) && list.length >= FEWEST && list.every(Number.isFinite)))
      throw new SpecError(
        `correction.${name}`,
        list,
        `must be a list of at least ${FEWEST} finite numbers, end to end`,
      );
  }
  if (theta.length !== curvature.length) {
    throw new SpecError(
      "correction.curvature",
      curvature.length,
      `must have as many values as theta, ${theta.length}`,
    );
  }
  const unsorted = theta.findIndex((angle, i) => angle < (theta[i - 1] ?? angle));
  if (unsorted >= 0) {
    throw new SpecError(`correction.theta.${unsorted}`, theta[unsorted], "must not decrease");
  }
  const off = Math.max(Math.abs(theta[0] + limit), Math.abs(theta[theta.length - 1] - limit));
  if (off > SAME_RING * limit) {
    throw new SpecError(
      "correction.theta",
      [theta[0], theta[theta.length - 1]],
      `must go from end to end of the ring, −${limit.toFixed(4)} to ${limit.toFixed(4)} rad: of another ring?`,
    );
  }
  if (!(Math.abs(length - wanted) <= SAME_RING * wanted)) {
    throw new SpecError(
      "correction.length",
      length,
      `must be the free length of the ring's line, ${wanted.toFixed(3)} mm: of another ring?`,
    );
  }
  return change;
}
