import type { Geometry } from "../forces/geometry.js";

/** Sizes hot over sizes at 20 °C. */
export interface Growth {
  /** Of the ring. */
  readonly ring: number;
  /** Of the bore. */
  readonly bore: number;
}

/**
 * Gap between the ends of a ring that is warmer than it was measured, in a bore that is, too: chord at mid wall, mm; negative where the ends
 * would overlap.
 *
 * The line keeps its length but for its own growth, and lies half a grown wall inside the grown bore.
 *
 * @param geometry of the ring in its own bore at 20 °C
 * @param growth of ring and bore over those; a bore that is another size counts as one that has grown
 */
export function hotGap(
  { outerRadius: R, centroidRadius: r, centroidLimit }: Geometry,
  growth: Growth,
): number {
  const wall = 2 * (R - r);
  const radius = R * growth.bore - (wall / 2) * growth.ring;
  const open = 2 * Math.PI - (2 * centroidLimit * r * growth.ring) / radius;
  return 2 * radius * Math.sin(open / 2);
}
