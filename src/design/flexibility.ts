import type { HalfBar } from "../curvature/lawsAlong.js";
import type { Halves, RelativeForces } from "../forces/relativeForces.js";
import { integralFromBack, type Stations } from "../forces/stations.js";

/** Where the ring bends most: M/(E·I) for a unit Ft and r, 1/(N·mm²), without sign, and the angle from the back. */
export function largestBending(
  forces: Halves<RelativeForces>,
  bars: Halves<HalfBar>,
  { theta }: Stations,
): { bending: number; theta: number } {
  let largest = { bending: 0, theta: 0 };
  // The right half first, so that of two equal places the right one is named.
  for (const side of ["right", "left"] as const) {
    const { moment } = forces[side];
    const { laws } = bars[side];
    for (let i = 0; i < theta.length; i++) {
      const bending = Math.abs(moment[i]) * laws[i].flexibility;
      if (bending > largest.bending) largest = { bending, theta: side === "right" ? theta[i] : -theta[i] };
    }
    if (forces.left === forces.right && bars.left === bars.right) break;
  }
  return largest;
}

/**
 * Mean of the flexibility 1/(E·I) weighted with (1 + cos θ)², as it opens the gap of a ring under uniform pressure,
 * 1/(N·mm²).
 */
export function meanFlexibility({ left, right }: Halves<HalfBar>, stations: Stations): number {
  const { laws } = right;
  if (!right.shearSlope) return laws[0].flexibility;
  const weight = stations.cosine.map((c) => (1 + c) ** 2);
  const total = (values: number[]) => integralFromBack(values, stations).at(-1) as number;
  const opening = (half: HalfBar) => total(half.laws.map((law, i) => law.flexibility * weight[i]));
  return (opening(left) + opening(right)) / 2 / total(weight);
}
