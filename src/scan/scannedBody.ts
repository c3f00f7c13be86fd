import type { Geometry } from "../forces/geometry.js";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import type { BodySpec } from "../spec/ringSpec.js";
import type { BodySpecInput, RingSpecInput } from "../spec/schema.js";
import type { Refuse } from "./refuse.js";
import { MOST_POINTS, type ScannedFace } from "./scannedFace.js";
import { deviation } from "./sortPoints.js";

/** The body of a scanned ring: as ordered, and with what its points tell better. */

export function bodyOf(spec: BodySpecInput | RingSpecInput): BodySpecInput {
  if (typeof spec !== "object" || spec === null) {
    throw new SpecError("spec", spec, "must be given: the ring that it should be");
  }
  const { load: _load, pressure: _pressure, ...body } = spec as RingSpecInput;
  return body;
}

/** Indices of the points that are sorted one by one. */
export function sampleOf(points: readonly Point[]): number[] {
  const stride = Math.ceil(points.length / MOST_POINTS);
  return Array.from({ length: Math.ceil(points.length / stride) }, (_, k) => k * stride);
}

/** The body with what the points tell better than the spec; the same object if nothing. */
export function asMeasured(
  body: BodySpecInput,
  geometry: Geometry,
  face: ScannedFace,
  byPoints: boolean,
): BodySpecInput {
  const wall = face.wall;
  if (wall === undefined && !byPoints) return body;
  return {
    ...body,
    ...(byPoints && { closedGap: Math.max(0, closedGapShown(geometry, face)) }),
    ...(wall !== undefined && { section: { ...body.section, radialThickness: wall } }),
  };
}

/** Points that scatter by more than this share of the wall, or are outliers more often than this, are not of one ring. */
const MOST_SCATTER = 0.05;
const MOST_OUTLIERS = 0.25;

/** Scatter over the noise that was stated. */
const MOST_NOISE = 3;

export function checkScatter(
  { fitted, outliers, counts }: ScannedFace,
  { section }: BodySpec,
  count: number,
  stated: number | undefined,
  refuse: Refuse,
): void {
  const { fit, feet } = fitted;
  const share = outliers.length / count;
  if (!Number.isFinite(fit.noise) || counts.outer === 0) {
    const orNoise = stated === undefined ? "" : `, or points good to more than ${stated} mm`;
    refuse(`be of one ring; none could be laid through them: another ring, two${orNoise}?`);
  }
  if (!(fit.noise <= MOST_SCATTER * section.radialThickness && share <= MOST_OUTLIERS)) {
    refuse(
      `be of one ring; about the best one they scatter by ${fit.noise.toPrecision(3)} mm, and ${(100 * share).toFixed(0)} % lie far off: two rings?`,
    );
  }
  if (stated === undefined) return;
  const scatter = deviation(
    feet,
    feet.map(({ distance }) => Math.abs(distance) < section.radialThickness / 2),
  );
  if (scatter > MOST_NOISE * stated) {
    throw new SpecError(
      "noise",
      stated,
      `must be about what the points show; they scatter by ${scatter.toPrecision(3)} mm about the best ring: two rings?`,
    );
  }
}

/** Of the wall by the spec. */
const MOST_WALL_ERROR = 0.2;
/** Of the bore, and of the points' spacing: how far the ends may overlap before it is another ring. */
const MOST_OVERLAP = { bore: 0.01, spacing: 3 };

export function checkSizes(
  face: ScannedFace,
  { bore, section }: BodySpec,
  geometry: Geometry,
  refuse: Refuse,
): void {
  const { wall, to, from, counts } = face;
  if (wall !== undefined && Math.abs(wall / section.radialThickness - 1) > MOST_WALL_ERROR) {
    refuse(
      `be of a ring ${section.radialThickness} mm thick; the two faces lie ${wall.toFixed(3)} mm apart: two rings, or another wall?`,
    );
  }
  const gap = closedGapShown(geometry, face);
  const spacing = (geometry.outerRadius * (to - from)) / counts.outer;
  if (gap < -Math.max(MOST_OVERLAP.bore * bore, MOST_OVERLAP.spacing * spacing)) {
    refuse(
      `be of a ring that goes into a bore of ${bore} mm; its ends would overlap there by ${(-gap).toFixed(2)} mm: another ring?`,
    );
  }
}

export const closedScan = (gap: number, closedGap: number) =>
  `be of the free ring; its gap is ${gap.toFixed(3)} mm, hardly wider than the closed gap of ${closedGap} mm: scanned closed?`;

/** Gap between the ends of the outer face in the bore, as far as the outermost points tell, mm. */
export function closedGapShown({ outerRadius }: Geometry, { from, to }: ScannedFace): number {
  return 2 * outerRadius * Math.sin(Math.PI - (to - from) / 2);
}
