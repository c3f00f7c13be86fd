import { mirrored } from "../forces/mirror.js";
import type { HalfRing } from "./halfRing.js";

/**
 * The free centroid line, end to end: counter-clockwise from the left end (−θC) over the back to the right end
 * (+θC), 2·stations + 1 points; the first point is not repeated. mm, radians, 1/mm.
 */
export interface FreeRing {
  /** Distance between the ends at mid wall, mm. */
  readonly gap: number;
  /** Installed angle of each station, from the back. */
  readonly theta: number[];
  readonly x: number[];
  readonly y: number[];
  /** Angle of the tangent to +x; 0 at the back. */
  readonly tangent: number[];
  readonly curvature: number[];
  /** From the left end. */
  readonly arcLength: number[];
}

/** The whole free ring from its right half. */
export function joinHalves(half: HalfRing, theta: number[]): FreeRing {
  const last = half.x.length - 1;
  const halfLength = half.arcLength[last];
  const arcLength = mirrored(half.arcLength, -1);
  for (let i = 0; i < arcLength.length; i++) arcLength[i] += halfLength;
  return {
    gap: 2 * half.x[last],
    theta,
    x: mirrored(half.x, -1),
    y: mirrored(half.y, 1),
    tangent: mirrored(half.tangent, -1),
    curvature: mirrored(half.curvature, 1),
    arcLength,
  };
}
