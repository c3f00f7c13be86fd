import { type Circle, fitCircle } from "../numeric/fitCircle.js";
import { median } from "../numeric/median.js";
import type { Point } from "../numeric/point.js";
import { UNITS } from "../spec/quantity.js";
import type { Motion } from "./fitFace.js";
import { gapOf } from "./gapOf.js";
import type { Refuse } from "./refuse.js";

/** A first guess of how a ring lies among its points. */
export interface Placement {
  readonly motion: Motion;
  /** Distance across the gap, mm. */
  readonly gap: number;
  /** Which points lie near the ring at all. */
  readonly near: boolean[];
}

/** The ring that the points should be of. */
export interface ExpectedRing {
  readonly bore: number;
  readonly radialThickness: number;
  /** Length of the outer face, mm. */
  readonly faceLength: number;
  /** Unit in which the points were given. */
  readonly unit: keyof typeof UNITS.length;
}

/** Points within this share of the circle's radius from it may be the ring's. */
const NEAR = 0.15;
/** Of all points. */
const MOST_ASTRAY = 0.3;
/** Diameter of the circle through a free ring over the bore. */
const SIZES = { min: 0.8, max: 1.8 };
/** Points of an outer face about the circle through an inner one: of all points, and of the wall how near they lie. */
const OUTSIDE = { share: 0.1, within: 0.3 };
/** Length along the points over that of the ring. */
const COVERAGE = { min: 0.93, max: 1.07 };

/**
 * Finds circle, gap and direction of a ring's points.
 *
 * @param points mm
 * @param refuse for points that are not of one free ring of this size
 * @throws SpecError for points that are not of one free ring of this size, with what they seem to be instead
 */
export function placePoints(points: readonly Point[], expected: ExpectedRing, refuse: Refuse): Placement {
  let circle = trimmedCircle(points);
  const distances = points.map(([x, y]) => Math.hypot(x - circle.x, y - circle.y));
  // The inner face may have more points than the outer one.
  const { radialThickness: wall } = expected;
  const outside = distances.filter(
    (distance) => Math.abs(distance - circle.radius - wall) < OUTSIDE.within * wall,
  );
  if (outside.length > OUTSIDE.share * points.length) circle = { ...circle, radius: circle.radius + wall };
  const near = distances.map((distance) => Math.abs(distance / circle.radius - 1) <= NEAR);
  const astray = near.filter((isNear) => !isNear).length / points.length;
  if (astray > MOST_ASTRAY) {
    refuse(
      `lie along one ring; ${percent(astray)} of them are far from the circle through the others: two rings, or not a ring?`,
    );
  }
  checkSize(2 * circle.radius, expected, refuse);
  const angles = points
    .filter((_, i) => near[i])
    .map(([x, y]) => Math.atan2(y - circle.y, x - circle.x))
    .sort((one, other) => one - other);
  const { from, width, hidden } = gapOf(angles, circle.radius, expected.faceLength, refuse);
  const covered = ((2 * Math.PI - width) * circle.radius) / expected.faceLength;
  const seen = covered - (hidden * circle.radius) / expected.faceLength;
  if (!(seen >= COVERAGE.min)) {
    refuse(
      `go all along the ring; they cover ${percent(seen)} of its outer face, ${expected.faceLength.toFixed(1)} mm by the spec`,
    );
  }
  if (!(covered <= COVERAGE.max)) {
    refuse(
      `be of one ring of this length; they go along ${(covered * expected.faceLength).toFixed(1)} mm, its outer face is ${expected.faceLength.toFixed(1)} mm long by the spec: another ring?`,
    );
  }
  // The middle of the gap comes to stand over the centre.
  const turn = Math.PI / 2 - (from + width / 2);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const shift: Point = [
    -(c * circle.x - s * circle.y),
    -(s * circle.x + c * circle.y) + circle.radius - expected.bore / 2,
  ];
  return { motion: { turn, shift }, gap: 2 * circle.radius * Math.sin(width / 2), near };
}

const percent = (share: number) => `${(100 * share).toFixed(0)} %`;

/** The circle through most of the points. */
function trimmedCircle(points: readonly Point[]): Circle {
  let circle = { x: median(points.map(([x]) => x)), y: median(points.map(([, y]) => y)), radius: 0 };
  let kept = points;
  for (let turn = 0; turn < 20; turn++) {
    const distance = ([x, y]: Point) => Math.hypot(x - circle.x, y - circle.y);
    const radius = median(points.map(distance));
    const usual = median(points.map((point) => Math.abs(distance(point) - radius)));
    const limit = Math.max(4 * usual, 0.02 * radius);
    const next = points.filter((point) => Math.abs(distance(point) - radius) <= limit);
    circle = fitCircle(next);
    if (turn > 2 && next.length === kept.length) break;
    kept = next;
  }
  return circle;
}

function checkSize(diameter: number, { bore, radialThickness, unit }: ExpectedRing, refuse: Refuse): void {
  const fits = (size: number) => size >= SIZES.min * bore && size <= SIZES.max * bore;
  if (!fits(diameter)) {
    const given = diameter / UNITS.length[unit];
    const other = Object.entries(UNITS.length).find(([, scale]) => fits(given * scale))?.[0];
    const hint = other === undefined ? "is this another ring?" : `in the unit "${other}" it would fit`;
    refuse(
      `lie along a ring for a bore of ${bore} mm; the circle through them is ${diameter.toPrecision(4)} mm across: ${hint}`,
    );
  }
  if (diameter < bore - radialThickness) {
    refuse(
      `be of the outer face; the circle through them is ${diameter.toFixed(2)} mm across, less than the bore of ${bore} mm: the inner face?`,
    );
  }
}
