import type { BarLaw } from "../curvature/law.js";
import { lawAt } from "../curvature/lawsAlong.js";
import type { Geometry } from "../forces/geometry.js";
import { type WallStations, wallAt } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import type { GivenRing } from "./givenRing.js";

/** Enough for two difference formulas side by side. */
const FEWEST = 18;

/** A station; with two laws where the section jumps. */
export interface Node {
  readonly theta: number;
  readonly laws: { readonly law: BarLaw; readonly kappa0: number }[];
}

/** Checks the tables of a given ring; throws as `nodesOf`. */
export function checkTables(ring: GivenRing, geometry: Geometry): void {
  nodesOf(ring, geometry);
}

/**
 * The stations of a given ring, checked.
 *
 * @throws SpecError for tables that are unsorted, too short, not finite, or do not cover the ring
 */
export function nodesOf(
  { spec, free, wall }: GivenRing,
  { centroidLimit, centroidRadius }: Geometry,
): Node[] {
  const { theta, curvature } = free;
  if (curvature.length !== theta.length) {
    throw new SpecError(
      "free.curvature",
      curvature,
      `must have ${theta.length} values, one for each angle; has ${curvature.length}`,
    );
  }
  checkWall(wall, theta.length);
  const nodes: Node[] = [];
  for (const [i, angle] of theta.entries()) {
    const kappa0 = curvature[i];
    if (!Number.isFinite(kappa0)) {
      throw new SpecError(`free.curvature.${i}`, kappa0, "must be a finite number in 1/mm");
    }
    if (!Number.isFinite(angle))
      throw new SpecError(`free.theta.${i}`, angle, "must be a finite number of radians");
    const one = { law: lawAt(spec, centroidRadius, wallAt(spec.section.radialThickness, wall, i)), kappa0 };
    const before = nodes[nodes.length - 1];
    if (before && !(angle >= before.theta)) {
      throw new SpecError(`free.theta.${i}`, angle, `must not be below the angle before it, ${before.theta}`);
    }
    if (before?.theta === angle) before.laws.push(one);
    else nodes.push({ theta: angle, laws: [one] });
  }
  if (nodes.length < FEWEST) {
    throw new SpecError("free.theta", theta, `must have at least ${FEWEST} different angles`);
  }
  const [first, last] = [nodes[0].theta, nodes[nodes.length - 1].theta];
  const near = (angle: number, end: number) => Math.abs(angle - end) < 1e-6;
  if (!near(first, -centroidLimit) || !near(last, centroidLimit)) {
    throw new SpecError(
      "free.theta",
      near(first, -centroidLimit) ? last : first,
      `must run from end to end, -${centroidLimit.toFixed(6)} to ${centroidLimit.toFixed(6)} rad from the back`,
    );
  }
  return nodes;
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
    if (values.length !== count) {
      throw new SpecError(
        `wall.${key}`,
        values,
        `must have ${count} values, one for each angle; has ${values.length}`,
      );
    }
    const [allowed, isGood] = WALL_VALUES[key];
    const wrong = values.findIndex((value) => !isGood(value));
    if (wrong >= 0) throw new SpecError(`wall.${key}.${wrong}`, values[wrong], `must be a number ${allowed}`);
  }
}
