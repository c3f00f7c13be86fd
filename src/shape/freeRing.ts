import { joinedBy } from "../forces/mirror.js";
import type { Halves } from "../forces/relativeForces.js";
import type { HalfRing } from "./halfRing.js";

/**
 * The free ring's line, end to end: counter-clockwise from the left end (−θC) over the back to the right end (+θC); the
 * first point is not repeated. It is the centroid line where the wall has its nominal thickness; elsewhere it runs
 * at half that thickness inside the outer face. Where slots begin or end a station stands twice, with the curvature
 * before and beyond. mm, radians, 1/mm.
 */
export interface FreeRing {
  /** Distance between the ends at mid wall, mm. */
  readonly gap: number;
  /** Installed angle of each station, from the back. */
  readonly theta: number[];
  /** Of the line, to the right, mm. */
  readonly x: number[];
  /** Of the line, towards the gap, mm; −r at the back. */
  readonly y: number[];
  /** Angle of the tangent to +x; 0 at the back. */
  readonly tangent: number[];
  /** Of the unloaded line, 1/mm. */
  readonly curvature: number[];
  /** Along the unloaded line from the left end, mm. */
  readonly arcLength: number[];
}

/** The whole free ring from its halves. */
export function joinHalves(halves: Halves<HalfRing>, theta: number[], gap: number): FreeRing {
  const { left } = halves;
  const leftLength = left.arcLength[left.arcLength.length - 1];
  const arcLength = joinedBy(halves, (half) => half.arcLength, -1);
  for (let i = 0; i < arcLength.length; i++) arcLength[i] += leftLength;
  return {
    gap,
    theta,
    x: joinedBy(halves, (half) => half.x, -1),
    y: joinedBy(halves, (half) => half.y, 1),
    tangent: joinedBy(halves, (half) => half.tangent, -1),
    curvature: joinedBy(halves, (half) => half.curvature, 1),
    arcLength,
  };
}
