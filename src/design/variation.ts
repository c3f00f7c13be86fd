import type { HalfBar } from "../curvature/lawsAlong.js";
import { joinedBy } from "../forces/mirror.js";
import type { Halves, RelativeForces } from "../forces/relativeForces.js";
import { integralFromBack, type Stations } from "../forces/stations.js";
import type { WallStations } from "../section/wall.js";
import type { RingSpec, SlotsSpec } from "../spec/ringSpec.js";

/** The wall of both halves as arrays, end to end. */
export function wallStations(bars: Halves<HalfBar>, slots: SlotsSpec | undefined): WallStations {
  return {
    thickness: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.thickness), 1),
    taper: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.taper ?? 0), 1),
    netShare: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.slotted?.share ?? 0), 1),
    slotDepth: slots?.depth ?? 0,
  };
}

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

/** The spec with the wall as a table of its stations, so that one given as a function survives as data. */
export function specOfWall(spec: RingSpec, theta: readonly number[], wall: WallStations): RingSpec {
  const once = theta.map((_, i) => i).filter((i) => i === 0 || theta[i] !== theta[i - 1]);
  const nominal = spec.section.radialThickness;
  const table = {
    angle: once.map((i) => theta[i]),
    relative: once.map((i) => wall.thickness[i] / nominal),
  };
  return { ...spec, section: { ...spec.section, wall: table } };
}
