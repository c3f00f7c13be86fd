import type { Geometry } from "./geometry.js";
import { joinedBy } from "./mirror.js";
import type { Halves, RelativeForces } from "./relativeForces.js";

/** The closed ring and its internal forces at the stations, end to end from −θC to θC. */
export interface InstalledRing {
  /** r, mm. */
  readonly centroidRadius: number;
  /** R, mm. */
  readonly outerRadius: number;
  /** Radians from the back. */
  readonly theta: number[];
  /** p, MPa, inward positive. */
  readonly pressure: number[];
  /** M, N·mm, closing positive. */
  readonly moment: number[];
  /** N, N, tension positive. */
  readonly normal: number[];
  /** V, N: the part beyond the section (towards +θ) pushes it inward with V. Odd in θ for a symmetric ring. */
  readonly shear: number[];
}

/**
 * Relative forces of both halves brought to their size and joined.
 *
 * @param contactPressure p₀, MPa
 * @param tangentialForce Ft = p₀·h·R, N
 */
export function installedRing(
  { centroidRadius, outerRadius }: Geometry,
  forces: Halves<RelativeForces>,
  theta: number[],
  contactPressure: number,
  tangentialForce: number,
): InstalledRing {
  return {
    centroidRadius,
    outerRadius,
    theta,
    pressure: joinedBy(forces, (half) => half.pressure, 1, contactPressure),
    moment: joinedBy(forces, (half) => half.moment, 1, tangentialForce * centroidRadius),
    normal: joinedBy(forces, (half) => half.moment, 1, -tangentialForce),
    shear: joinedBy(forces, (half) => half.shear, -1, tangentialForce),
  };
}
