import type { Geometry } from "../forces/geometry.js";
import type { WallStations } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import { checkLength } from "../spec/tables.js";
import type { GivenRing } from "./givenRing.js";

/** Free curvature times the closed radius: no ring is bent farther. */
const MOST_BENT = 10;

/** Enough for two difference formulas side by side. */
const FEWEST = 18;

/**
 * Checks the tables of a given ring.
 *
 * @throws SpecError for tables that are unsorted, too short, not finite, or do not cover the ring
 */
export function checkTables({ free, wall }: GivenRing, { centroidLimit, centroidRadius: r }: Geometry): void {
  const { theta, curvature } = free;
  checkLength("free.curvature", curvature, theta.length);
  checkWall(wall, theta.length);
  let different = 0;
  for (const [i, angle] of theta.entries()) {
    if (!(Math.abs(curvature[i] * r) <= MOST_BENT)) {
      throw new SpecError(
        `free.curvature.${i}`,
        curvature[i],
        `must be a finite number in 1/mm, from -${(MOST_BENT / r).toPrecision(3)} to ${(MOST_BENT / r).toPrecision(3)}`,
      );
    }
    if (!Number.isFinite(angle)) {
      throw new SpecError(`free.theta.${i}`, angle, "must be a finite number of radians");
    }
    if (i > 0 && !(angle >= theta[i - 1])) {
      throw new SpecError(`free.theta.${i}`, angle, `must not be below the angle before it, ${theta[i - 1]}`);
    }
    if (i === 0 || angle > theta[i - 1]) different++;
  }
  if (different < FEWEST) {
    throw new SpecError("free.theta", theta, `must have at least ${FEWEST} different angles`);
  }
  const [first, last] = [theta[0], theta[theta.length - 1]];
  const near = (angle: number, end: number) => Math.abs(angle - end) < 1e-6;
  if (!near(first, -centroidLimit) || !near(last, centroidLimit)) {
    throw new SpecError(
      "free.theta",
      near(first, -centroidLimit) ? last : first,
      `must run from end to end, -${centroidLimit.toFixed(6)} to ${centroidLimit.toFixed(6)} rad from the back`,
    );
  }
}

const WALL_VALUES = {
  thickness: ["above 0 mm", (value: number) => value > 0],
  taper: ["from -1 to 1", (value: number) => value >= -1 && value <= 1],
  netShare: ["from 0 to 1", (value: number) => value >= 0 && value <= 1],
} as const;

function checkWall(wall: WallStations | undefined, count: number): void {
  if (!wall) return;
  for (const key of ["thickness", "taper", "netShare"] as const) {
    const values = wall[key];
    checkLength(`wall.${key}`, values, count);
    const [allowed, isGood] = WALL_VALUES[key];
    const wrong = values.findIndex((value) => !isGood(value));
    if (wrong >= 0) throw new SpecError(`wall.${key}.${wrong}`, values[wrong], `must be a number ${allowed}`);
  }
}
