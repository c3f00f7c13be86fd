import type { Refuse } from "./refuse.js";

/** A gap is at least this many times as wide as the points' usual distance, */
const GAP_TO_STEP = 3;
/** or, of points so evenly spread that it is twice as wide as any other step, this many times. */
const GAP_TO_EVEN_STEP = 2.2;
/** Stray points that may lie in the gap. */
const MOST_STRAYS = 3;
/** Two steps whose lengths differ by less than this share of the ring's are not told apart. */
const ALIKE = 0.01;
/** Of the wider one: a step narrower than this is not taken for it. */
const AS_WIDE = 0.7;

/** From one point of a ring to the next one, radians. */
interface Step {
  readonly from: number;
  readonly width: number;
}

/** A ring's gap among its points. */
export interface FoundGap extends Step {
  /** Width of a second hole, which is not the gap; 0 without one. */
  readonly hidden: number;
}

/**
 * Finds the gap of a free ring.
 *
 * @param angles of its points, increasing, radians
 * @param radius of the circle through them, mm
 * @param faceLength of the ring's outer face, mm
 * @param refuse for points that show none, or two alike
 */
export function gapOf(
  angles: readonly number[],
  radius: number,
  faceLength: number,
  refuse: Refuse,
): FoundGap {
  const gap = likelierGap(angles, radius, faceLength, refuse);
  const steps = (gap.width * angles.length) / (2 * Math.PI);
  if (!(steps > GAP_TO_STEP || (steps > GAP_TO_EVEN_STEP && gap.width > 2 * secondStep(angles)))) {
    refuse(
      `show the free ring's gap; the widest step between neighbours is ${(gap.width * radius).toFixed(3)} mm: closed when scanned, or too few points?`,
    );
  }
  return gap;
}

/** The widest step between neighbours but for one. */
function secondStep(angles: readonly number[]): number {
  const steps = angles.map((angle, i) =>
    i === 0 ? angle + 2 * Math.PI - angles[angles.length - 1] : angle - angles[i - 1],
  );
  return steps.sort((one, other) => other - one)[1];
}

/** Of the two widest steps the one that leaves the ring its length: the other is a hole that a clamp has left. */
function likelierGap(
  angles: readonly number[],
  radius: number,
  faceLength: number,
  refuse: Refuse,
): FoundGap {
  const best = widestGap(angles);
  const rival = { from: 0, width: (GAP_TO_STEP * 2 * Math.PI) / angles.length };
  for (const [i, from] of angles.entries()) {
    const width = (angles[i + 1] ?? angles[0] + 2 * Math.PI) - from;
    const after = (from - best.from + 4 * Math.PI) % (2 * Math.PI);
    if (width > rival.width && after >= best.width - 1e-9) Object.assign(rival, { from, width });
  }
  if (!(rival.width > (GAP_TO_STEP * 2 * Math.PI) / angles.length)) return { ...best, hidden: 0 };
  const [one, other] = [best, rival].map(({ width }) => radius * width);
  const alike = Math.abs(one - other) < ALIKE * faceLength;
  if (alike && other > AS_WIDE * one) {
    refuse(
      `leave one gap; there are two alike, ${one.toFixed(1)} and ${other.toFixed(1)} mm along the ring: is part of it hidden?`,
    );
  }
  const off = (gap: number) => Math.abs(2 * Math.PI * radius - gap - faceLength);
  return !alike && off(other) < off(one)
    ? { ...rival, hidden: best.width }
    : { ...best, hidden: rival.width };
}

/** The widest step in a ring of angles, looking past a few strays. */
function widestGap(angles: readonly number[]): Step {
  const count = angles.length;
  const usual = (2 * Math.PI) / count;
  let best = { from: 0, width: 0 };
  for (let strays = 0; strays <= MOST_STRAYS; strays++) {
    let widest = { from: 0, width: 0 };
    for (let i = 0; i < count; i++) {
      const next = i + strays + 1;
      const width = angles[next % count] - angles[i] + 2 * Math.PI * Math.floor(next / count);
      if (width > widest.width) widest = { from: angles[i], width };
    }
    // Passing over a point of the ring itself widens a gap by a step or two.
    if (strays === 0 || widest.width > best.width + 4 * (strays + 1) * usual) best = widest;
  }
  return best;
}
