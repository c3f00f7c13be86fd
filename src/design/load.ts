import { SpecError } from "../spec/error.js";
import type { RingSpec } from "../spec/readSpec.js";

/**
 * Largest stiffness parameter K. At K = ½ the back of a uniform thin ring is straight when free, and beyond it
 * the free ring would be bent the other way: no coil, cam or turned blank of that kind exists.
 */
const LARGEST_K = 0.5;

const WHY = `for this ring, where K = Ft·r²/(E·I) reaches ${LARGEST_K} and its back would be straight when free`;

/**
 * K from whichever load is given; Ft = K·E·I/r² = p₀·R·h.
 *
 * @param spec load and closed gap
 * @param faceArea R·h, mm²
 * @param forcePerK E·I/r², N
 * @param r centroid radius, mm
 * @param gapAt free gap in mm for a K; asked only when the load is a free gap
 * @throws SpecError when K would pass {@link LARGEST_K}
 */
export function stiffnessParameter(
  { load, closedGap }: RingSpec,
  faceArea: number,
  forcePerK: number,
  r: number,
  gapAt: (K: number) => number,
): number {
  if ("freeGap" in load) return solveFreeGap(gapAt, load.freeGap, closedGap, r);
  const [field, value, perK, unit] =
    "tangentialForce" in load
      ? (["load.tangentialForce", load.tangentialForce, forcePerK, "N"] as const)
      : (["load.contactPressure", load.contactPressure, forcePerK / faceArea, "MPa"] as const);
  const K = value / perK;
  if (!(K <= LARGEST_K)) {
    throw new SpecError(field, value, `must be at most ${(LARGEST_K * perK).toPrecision(6)} ${unit} ${WHY}`);
  }
  return K;
}

/**
 * Finds the K whose free gap is the wanted one, by the secant method kept inside a bracket; the gap grows with K.
 *
 * @param gapAt free gap in mm for a K
 * @param wanted free gap, mm
 * @param closedGap mm, the gap at K = 0
 * @param r centroid radius, mm
 * @returns K, good to rounding
 * @throws SpecError when no K up to {@link LARGEST_K} opens the ring that far
 */
function solveFreeGap(gapAt: (K: number) => number, wanted: number, closedGap: number, r: number): number {
  const widest = gapAt(LARGEST_K);
  if (!(wanted <= widest)) {
    throw new SpecError("load.freeGap", wanted, `must be at most ${widest.toFixed(3)} mm ${WHY}`);
  }
  let [low, high] = [0, LARGEST_K];
  let [K0, gap0] = [0, closedGap];
  // Small-K limit m − s = 3π·K·r as the first trial.
  let K = Math.min((wanted - closedGap) / (3 * Math.PI * r), LARGEST_K / 2);
  for (let turn = 0; turn < 100; turn++) {
    const gap = gapAt(K);
    if (gap > wanted) high = K;
    else low = K;
    const slope = (gap - gap0) / (K - K0);
    [K0, gap0] = [K, gap];
    const next = K + (wanted - gap) / slope;
    if (!(Math.abs(next - K) > 4e-16 * K)) return K;
    K = next > low && next < high ? next : (low + high) / 2;
    if (K === K0) return K;
  }
  return K;
}
