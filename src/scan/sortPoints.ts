import { median } from "../numeric/median.js";
import type { Point } from "../numeric/point.js";
import { type FaceState, type FittedFace, fitFace } from "./fitFace.js";
import type { FootPoint, FreeFaces } from "./freeFace.js";
import type { Placement } from "./placePoints.js";

/** What a point of a scan is a point of. */
export type PointKind = "outer" | "inner" | "between" | "astray";

/** Of the median of sizes, for a normal distribution. */
const TO_DEVIATION = 1.4826;
/** Tukey's constant: points this many standard deviations off count for nothing. From memory. */
const BIWEIGHT = 4.685;
const ROBUST_TURNS = 8;
/** Relative change of the scatter that is no longer worth another fit. */
const SETTLED = 0.01;
/** Two faces lie about a wall apart: this share of it at least, with few points between. */
const APART = 0.6;
const BETWEEN = 0.2;
/** Of the wall: how far from its face a point may lie to be of it. */
export const OF_FACE = 0.3;

/**
 * Tells the points of the outer face from those of the inner one, of the ends and of nothing, by a ring of uniform pressure laid through them
 * all without regard to what lies far off.
 *
 * @param wall radial thickness, mm
 */
export function sortPoints(
  points: readonly Point[],
  placement: Placement,
  faces: FreeFaces,
  opening: number,
  wall: number,
): { kinds: PointKind[]; state: FaceState } {
  const all = robustFit(
    points,
    placement.near,
    faces,
    { motion: placement.motion, coefficients: uniform(opening) },
    opening,
  );
  const distances = all.feet.map(({ distance }) => distance);
  const sorted = distances.filter((_, i) => placement.near[i]).sort((one, other) => one - other);
  const [low, high] = [sorted[Math.floor(0.05 * sorted.length)], sorted[Math.floor(0.95 * sorted.length)]];
  const spread = high - low;
  const middle = sorted.filter((d) => d > low + spread / 3 && d < high - spread / 3).length;
  if (!(spread > APART * wall && middle < BETWEEN * sorted.length)) {
    return { kinds: placement.near.map((near) => (near ? "outer" : "astray")), state: all };
  }
  const kinds = distances.map((d, i): PointKind => {
    if (!placement.near[i] || d > high + OF_FACE * wall || d < low - OF_FACE * wall) return "astray";
    if (d > high - OF_FACE * wall) return "outer";
    return d < low + OF_FACE * wall ? "inner" : "between";
  });
  const outer = robustFit(
    points,
    kinds.map((kind) => kind === "outer"),
    faces,
    all,
    opening,
  );
  return { kinds, state: outer };
}

/** Terms of a ring of uniform pressure without a gap. */
const uniform = (opening: number) => [1 - opening, -opening, 0];

function robustFit(
  points: readonly Point[],
  near: readonly boolean[],
  faces: FreeFaces,
  start: FaceState,
  opening: number,
): FittedFace {
  let weights = near.map(Number);
  let fitted = fitFace(points, weights, faces, start, { by: "value", penalty: 1 }, opening);
  for (let turn = 0, last = 0; turn < ROBUST_TURNS; turn++) {
    const limit = BIWEIGHT * deviation(fitted.feet, near);
    if (Math.abs(limit - last) < SETTLED * limit) break;
    last = limit;
    weights = fitted.feet.map(({ distance }, i) =>
      near[i] ? Math.max(0, 1 - (distance / limit) ** 2) ** 2 : 0,
    );
    fitted = fitFace(points, weights, faces, fitted, { by: "value", penalty: 1 }, opening);
  }
  return fitted;
}

/** Standard deviation of the distances, by their median, mm. */
export function deviation(feet: readonly FootPoint[], counts: readonly boolean[]): number {
  const sizes = feet.filter((_, i) => counts[i]).map(({ distance }) => Math.abs(distance));
  return Math.max(FINEST, TO_DEVIATION * median(sizes));
}

/** No instrument measures better, mm; keeps points without any noise from being outliers of each other. */
export const FINEST = 5e-5;
