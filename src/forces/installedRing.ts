import type { Geometry } from "./geometry.js";
import type { RelativeForces } from "./internalForces.js";
import { mirrored } from "./mirror.js";

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
  /** V, N: the part beyond the section (towards +θ) pushes it inward with V. Odd in θ. */
  readonly shear: number[];
}

/**
 * Relative forces of the right half brought to their size and mirrored to the whole ring.
 *
 * @param contactPressure p₀, MPa
 * @param tangentialForce Ft = p₀·h·R, N
 */
export function installedRing(
  { centroidRadius, outerRadius }: Geometry,
  forces: RelativeForces,
  theta: number[],
  contactPressure: number,
  tangentialForce: number,
): InstalledRing {
  return {
    centroidRadius,
    outerRadius,
    theta,
    pressure: mirrored(forces.pressure, 1, contactPressure),
    moment: mirrored(forces.moment, 1, tangentialForce * centroidRadius),
    normal: mirrored(forces.moment, 1, -tangentialForce),
    shear: mirrored(forces.shear, -1, tangentialForce),
  };
}
