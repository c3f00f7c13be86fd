import { shortening } from "../curvature/law.js";
import { lawAt } from "../curvature/lawsAlong.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import type { BodySpec } from "../spec/ringSpec.js";
import type { BodySpecInput, RingSpecInput } from "../spec/schema.js";
import { MOST_POINTS, type ScannedFace } from "./scannedFace.js";

/** The body of a scanned ring: as ordered, and with what its points tell better. */

export function bodyOf(spec: BodySpecInput | RingSpecInput): BodySpecInput {
  if (typeof spec !== "object" || spec === null) {
    throw new SpecError("spec", spec, "must be given: the ring that it should be");
  }
  const { load: _load, pressure: _pressure, ...body } = spec as RingSpecInput;
  return body;
}

export function geometryOf({ bore, section, closedGap }: BodySpec): Geometry {
  return closedGeometry(bore, section.radialThickness, closedGap);
}

/** Half the free line's length over r: what closing shortens it by is nearly that of a uniform pressure. */
export function freeReach(
  spec: BodySpec,
  { centroidLimit: c, centroidRadius: r }: Geometry,
  opening: number,
): number {
  const law = lawAt(spec, r, { thickness: spec.section.radialThickness });
  const steps = 32;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const theta = (c * (i + 0.5)) / steps;
    sum += shortening(law, (1 - opening * (1 + Math.cos(theta))) / r, r) / steps;
  }
  return c * (1 + sum / r);
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

export function checkScatter({ fitted, outliers }: ScannedFace, { section }: BodySpec, count: number): void {
  const { noise } = fitted.fit;
  const share = outliers.length / count;
  if (noise <= MOST_SCATTER * section.radialThickness && share <= MOST_OUTLIERS) return;
  throw new SpecError(
    "points",
    undefined,
    `must be of one ring; about the best one they scatter by ${noise.toPrecision(3)} mm, and ${(100 * share).toFixed(0)} % lie far off: two rings?`,
  );
}

/** Gap between the ends of the outer face in the bore, as far as the outermost points tell, mm. */
export function closedGapShown({ outerRadius }: Geometry, { from, to }: ScannedFace): number {
  return 2 * outerRadius * Math.sin(Math.PI - (to - from) / 2);
}
