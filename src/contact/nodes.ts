import type { BarLaw } from "../curvature/law.js";
import { lawAt } from "../curvature/lawsAlong.js";
import type { Geometry } from "../forces/geometry.js";
import { wallAt } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import type { GivenRing } from "./givenRing.js";

/** Enough for two difference formulas side by side. */
const FEWEST = 18;

/** A station; with two laws where the section jumps. */
export interface Node {
  readonly theta: number;
  readonly laws: { readonly law: BarLaw; readonly kappa0: number }[];
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
  const nodes: Node[] = [];
  for (const [i, angle] of theta.entries()) {
    const kappa0 = curvature[i];
    if (!Number.isFinite(kappa0)) {
      throw new SpecError(`free.curvature.${i}`, kappa0, "must be a finite number in 1/mm");
    }
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
