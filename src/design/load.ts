import { SpecError } from "../spec/error.js";
import type { RingSpec } from "../spec/ringSpec.js";

/** What turns a load into the ring's tangential force. */
export interface LoadCase {
  /** R·h, mm². */
  readonly faceArea: number;
  /** r, mm. */
  readonly radius: number;
  /**
   * Largest Ft, N: some place of the ring would there be straight when free, and beyond it bent the other way. No
   * coil, cam or turned blank of that kind exists. For the uniform ring that is the back, at K = Ft·r²/(E·I) = ½.
   */
  readonly largestForce: number;
  /** That place, radians from the back, and K there. */
  readonly straightAt: number;
  readonly largestK: number;
  /** Free gap in mm for an Ft; asked only when the load is a free gap. */
  gapAt(force: number): number;
}

/**
 * Ft from whichever load is given; Ft = p₀·R·h.
 *
 * @throws SpecError when Ft would pass the largest
 */
export function tangentialForceOf({ load, closedGap }: RingSpec, ring: LoadCase): number {
  if ("freeGap" in load) return solveFreeGap(load.freeGap, closedGap, ring);
  const [field, value, area, unit] =
    "tangentialForce" in load
      ? (["load.tangentialForce", load.tangentialForce, 1, "N"] as const)
      : (["load.contactPressure", load.contactPressure, ring.faceArea, "MPa"] as const);
  if (!(value * area <= ring.largestForce)) {
    const largest = (ring.largestForce / area).toPrecision(6);
    throw new SpecError(field, value, `must be at most ${largest} ${unit} ${why(ring)}`);
  }
  return value * area;
}

function why({ straightAt, largestK }: LoadCase): string {
  const place = straightAt === 0 ? "its back" : `it, ${straightAt.toFixed(3)} rad from the back,`;
  return `for this ring, where K = Ft·r²/(E·I) reaches ${largestK.toFixed(3)} and ${place} would be straight when free`;
}

/**
 * Finds the Ft whose free gap is the wanted one, by the secant method kept inside a bracket; the gap grows with Ft.
 *
 * @returns Ft in N, good to rounding
 * @throws SpecError when no allowed Ft opens the ring that far
 */
function solveFreeGap(wanted: number, closedGap: number, ring: LoadCase): number {
  const widest = ring.gapAt(ring.largestForce);
  if (!(wanted <= widest)) {
    throw new SpecError("load.freeGap", wanted, `must be at most ${widest.toFixed(3)} mm ${why(ring)}`);
  }
  let [low, high] = [0, ring.largestForce];
  let [force0, gap0] = [0, closedGap];
  // Small openings grow in proportion to the force, m − s = 3π·K·r; for the uniform ring K = ½ at the largest.
  let force = ring.largestForce * Math.min((wanted - closedGap) / (1.5 * Math.PI * ring.radius), 0.5);
  for (let turn = 0; turn < 100; turn++) {
    const gap = ring.gapAt(force);
    if (gap > wanted) high = force;
    else low = force;
    const slope = (gap - gap0) / (force - force0);
    [force0, gap0] = [force, gap];
    const next = force + (wanted - gap) / slope;
    if (!(Math.abs(next - force) > 4e-16 * force)) return force;
    force = next > low && next < high ? next : (low + high) / 2;
    if (force === force0) return force;
  }
  return force;
}
