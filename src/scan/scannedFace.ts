import { median } from "../numeric/median.js";
import type { PenaltyChoice } from "../numeric/penalizedFit.js";
import type { Point } from "../numeric/point.js";
import { type FaceState, type FittedFace, fitFace, footFinder } from "./fitFace.js";
import type { FootPoint, FreeFaces } from "./freeFace.js";
import { deviation, OF_FACE, type PointKind } from "./sortPoints.js";

/** A point set aside: which one, as given, and how far it lies from the face, mm. */
export interface Outlier {
  /** Which point, as given, from 0. */
  readonly index: number;
  /** Outward of the face, mm. */
  readonly distance: number;
}

/** The outer face as the points show it. */
export interface ScannedFace {
  readonly fitted: FittedFace;
  readonly outliers: Outlier[];
  /** Points on the outer face, on the inner one and between the two. */
  readonly counts: { readonly outer: number; readonly inner: number; readonly between: number };
  /** Between which places of the line the outer face has points, as arc length over r from the middle. */
  readonly from: number;
  readonly to: number;
  /** Usual distance between the faces, mm, where points lie on both. */
  readonly wall?: number;
  /** Of how many means the fit was made, where there were too many points. */
  readonly means?: number;
}

/** Points farther from the face than this many standard deviations are set aside: of 10 000 normal ones less than one. */
const OUTLIER = 4.5;
/** At first, before the ring's own shape is known. */
const OUTLIER_AT_FIRST = 12;
const MOST_TURNS = 12;
/** As many points as are fitted one by one; more are fitted as means over so many stretches. */
export const MOST_POINTS = 2880;
const STRETCHES = 1440;

/**
 * Fits the outer face to some of the points, again and again without those that lie too far off, then to all of them.
 *
 * @param points all, mm
 * @param sample indices of those that are sorted
 * @param kinds of the sample
 * @param wall expected distance between the faces, mm
 */
export function scannedFace(
  points: readonly Point[],
  sample: readonly number[],
  kinds: readonly PointKind[],
  faces: FreeFaces,
  start: FaceState,
  choice: PenaltyChoice,
  opening: number,
  wall: number,
): ScannedFace {
  const few = sample.map((i) => points[i]);
  const outer = kinds.map((kind) => kind === "outer");
  const padded = {
    ...start,
    coefficients: Array.from({ length: faces.terms }, (_, j) => start.coefficients[j] ?? 0),
  };
  const within = (feet: readonly FootPoint[], limit: number) =>
    feet.map(({ distance }, i) => outer[i] && Math.abs(distance) <= limit);
  const first = faces.of(padded.coefficients);
  const feet = few.map(footFinder(first, padded.motion));
  let kept = within(feet, OUTLIER_AT_FIRST * deviation(feet, outer));
  let fitted = fitFace(few, kept.map(Number), faces, padded, choice, opening);
  let limit = 0;
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    limit = OUTLIER * deviation(fitted.feet, kept);
    const next = within(fitted.feet, limit);
    if (next.every((keep, i) => keep === kept[i])) break;
    kept = next;
    fitted = fitFace(few, kept.map(Number), faces, fitted, choice, opening);
  }
  const both = kinds.includes("inner");
  const sorted = sortAll(points, fitted, limit, both ? wall : undefined);
  if (sample.length === points.length) return { fitted, ...sorted.report };
  const { means, weights } = sorted;
  fitted = fitFace(
    means,
    weights,
    faces,
    { motion: { turn: 0, shift: [0, 0] }, coefficients: fitted.coefficients },
    choice,
    opening,
  );
  return { fitted, ...sorted.report, means: means.length };
}

/** Goes through all points once: outliers, the faces' distance, and means of the outer face over short stretches. */
function sortAll(
  points: readonly Point[],
  { face, motion }: FittedFace,
  limit: number,
  wall: number | undefined,
) {
  const last = face.u.length - 1;
  const c = face.u[last];
  const sums = Array.from({ length: STRETCHES }, () => ({ count: 0, u: 0, distance: 0 }));
  const outliers: Outlier[] = [];
  const counts = { outer: 0, inner: 0, between: 0 };
  const depths: number[] = [];
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const footOf = footFinder(face, motion);
  for (let index = 0; index < points.length; index++) {
    const { u, distance } = footOf(points[index]);
    if (Math.abs(distance) <= limit) {
      counts.outer++;
      if (u < from) from = u;
      if (u > to) to = u;
      const k = Math.floor((STRETCHES * (u + c)) / (2 * c));
      const sum = sums[Math.max(0, Math.min(STRETCHES - 1, k))];
      sum.count++;
      sum.u += u;
      sum.distance += distance;
    } else if (wall !== undefined && Math.abs(distance + wall) <= OF_FACE * wall) {
      counts.inner++;
      depths.push(-distance);
    } else if (
      wall !== undefined &&
      distance < 0 &&
      distance > -wall &&
      Math.abs(u) > c - wall / face.radius[0]
    ) {
      counts.between++;
    } else outliers.push({ index, distance });
  }
  const filled = sums.filter(({ count }) => count > 0);
  const means = filled.map(({ count, u, distance }): Point => {
    // On the circle that osculates the face at the node nearest to the mean place.
    const i = Math.max(0, Math.min(last, Math.round((last * (u / count + c)) / (2 * c))));
    const turn = (u / count - face.u[i]) / face.pace[i];
    const radius = face.radius[i] + distance / count;
    const [along, outward] = [radius * Math.sin(turn), radius * Math.cos(turn) - face.radius[i]];
    return [
      face.x[i] + along * face.cos[i] + outward * face.sin[i],
      face.y[i] + along * face.sin[i] - outward * face.cos[i],
    ];
  });
  return {
    report: {
      outliers,
      counts,
      from,
      to,
      // The median keeps the corners of the ends out of it.
      ...(depths.length > 0 && { wall: median(depths) }),
    },
    means,
    weights: filled.map(({ count }) => count),
  };
}
