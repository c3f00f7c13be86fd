import type { BarLaw } from "../curvature/law.js";
import { stationLaws } from "../curvature/lawsAlong.js";
import type { Geometry } from "../forces/geometry.js";
import { checkTables } from "./checkTables.js";
import type { GivenRing } from "./givenRing.js";

/** A station; with two laws where the section jumps. */
export interface Node {
  readonly theta: number;
  readonly laws: { readonly law: BarLaw; readonly kappa0: number }[];
}

/** The stations of a given ring, its tables checked; throws as `checkTables`. */
export function nodesOf(ring: GivenRing, geometry: Geometry): Node[] {
  checkTables(ring, geometry);
  const { theta, curvature } = ring.free;
  const laws = stationLaws(ring.spec, geometry.centroidRadius, ring.wall, theta.length);
  const nodes: Node[] = [];
  for (const [i, angle] of theta.entries()) {
    const one = { law: laws[i], kappa0: curvature[i] };
    const before = nodes[nodes.length - 1];
    if (before?.theta === angle) before.laws.push(one);
    else nodes.push({ theta: angle, laws: [one] });
  }
  return nodes;
}
