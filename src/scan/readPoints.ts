import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { UNITS } from "../spec/quantity.js";

/** Points as a user gives them, checked, in mm. */
export interface ReadPoints {
  readonly points: Point[];
  /** Index of each, as given. */
  readonly index: readonly number[];
  /** Indices of points that are the same as one before, and left out; among very many they are not looked for. */
  readonly duplicates: number[];
}

const FEWEST = 60;
const MOST = 5e6;
/** With more points than this duplicates do no harm and take long to find. */
const MOST_COMPARED = 50000;

/**
 * @param given pairs of coordinates
 * @param unit of their length
 * @param mirrored whether the ring lay the other way up
 * @throws SpecError naming the first point that is none
 */
export function readPoints(
  given: readonly (readonly [number, number])[],
  unit: keyof typeof UNITS.length,
  mirrored: boolean,
): ReadPoints {
  if (!Array.isArray(given)) throw new SpecError("points", given, "must be a list of points [x, y]");
  if (!(given.length <= MOST)) throw new SpecError("points", given.length, `must be at most ${MOST} points`);
  const scale = UNITS.length[unit];
  const toX = mirrored ? -scale : scale;
  const seen = given.length <= MOST_COMPARED ? new Set<string>() : undefined;
  const points: Point[] = [];
  const index: number[] = [];
  const duplicates: number[] = [];
  for (let i = 0; i < given.length; i++) {
    const point = given[i];
    if (
      !(Array.isArray(point) && point.length === 2 && Number.isFinite(point[0]) && Number.isFinite(point[1]))
    ) {
      throw new SpecError(`points.${i}`, point, "must be a pair of finite numbers [x, y]");
    }
    const x: number = point[0];
    const y: number = point[1];
    if (seen) {
      const key = `${x} ${y}`;
      if (seen.has(key)) {
        duplicates.push(i);
        continue;
      }
      seen.add(key);
    }
    points.push([toX * x, scale * y]);
    index.push(i);
  }
  if (points.length < FEWEST) {
    throw new SpecError(
      "points",
      points.length,
      `must be at least ${FEWEST} different points, well spread over the outer face`,
    );
  }
  return { points, index, duplicates };
}
