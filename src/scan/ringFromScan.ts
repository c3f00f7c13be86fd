import { ringOfCurvature } from "../contact/givenRing.js";
import { stationLaws } from "../curvature/lawsAlong.js";
import type { RingDesign } from "../design/ringDesign.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import { type LightReading, lightTest } from "../gauge/lightTest.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { normalQuantile } from "../numeric/normalQuantile.js";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { readBodySpec } from "../spec/readSpec.js";
import type { BodySpec } from "../spec/ringSpec.js";
import type { BodySpecInput, RingSpecInput } from "../spec/schema.js";
import { asDesign } from "./asDesign.js";
import { type ScanBand, scanBand } from "./band.js";
import type { Motion } from "./fitFace.js";
import { freeFaces } from "./freeFace.js";
import { placePoints } from "./placePoints.js";
import { curvatureTerms } from "./pressureModes.js";
import { readPoints } from "./readPoints.js";
import { MOST_POINTS, type Outlier, type ScannedFace, scannedFace } from "./scannedFace.js";
import { type ScanSettings, scanSchema } from "./scanSchema.js";
import { FINEST, sortPoints } from "./sortPoints.js";

export interface ScanOptions extends ScanSettings {
  /** The ring that it should be: bore, closed gap, section, material. Load and pressure may be there, and are not used. */
  spec: BodySpecInput | RingSpecInput;
}

/** What a scan told, beyond the ring itself. Lengths in mm, angles in radians. */
export interface Scan {
  readonly points: {
    readonly given: number;
    readonly outer: number;
    readonly inner: number;
    /** Between the faces, at the ends. */
    readonly between: number;
    /** Set aside, as they lie too far from the face; indices as given. */
    readonly outliers: Outlier[];
    /** Set aside, as they are given twice. */
    readonly duplicates: number[];
    /** Means that were fitted in the place of very many points. */
    readonly means?: number;
  };
  /** Takes the points as given, in mm, into the ring's frame; `mirrored` ones with x reversed first. */
  readonly motion: Motion;
  /** Standard deviation of the points' distance from the face: as stated, or as found, 0.05 µm at least. */
  readonly noise: number;
  /** How many numbers the points chose: two of place, three of a uniform pressure, the rest of its unevenness. */
  readonly freedom: number;
  /** Shortest wave of pressure that is looked for, as an order; how much of each the points support they decide. */
  readonly highestOrder: number;
  /** Distance between the faces, where both were scanned: the median, which the ring is taken to have all along. */
  readonly wall?: number;
  /** Closed gap that the ends of the outer face would leave in the bore, as far as the points tell. */
  readonly closedGapShown: number;
  /** Usual distance of neighbours on the outer face. */
  readonly spacing: number;
  /** Share of cases in which the band holds the truth, on average along the ring. */
  readonly confidence: number;
  readonly band: ScanBand;
  readonly light: LightReading;
}

/** A ring as it was measured: like a design, and with what its scan told. `spec.pressure` is the pressure that it makes. */
export interface ScannedRing extends RingDesign {
  readonly scan: Scan;
}

/** Terms of the series beyond those of a uniform pressure: waves up to half as high an order. */
const UNEVEN = 40;
/** Columns of place before the terms. */
const PLACE = 2;
/** K of a ring that is worth the name. */
const LEAST_OPENING = 1e-4;

/**
 * A ring from points of its outer face, or of its whole outline, free, in any order, place and direction.
 *
 * The ring's free curvature is a series whose first terms are those of a uniform pressure; the others are penalised by the unevenness of
 * the pressure that they stand for, as much as the points' own scatter asks for. So a pressure comes out as uneven as the points can prove,
 * and where they prove nothing as even as it can be.
 *
 * @param points [x, y], at least 60; of the outer face at least, from end to end
 * @param options the spec of the ring that it should be, unit, noise; `length: "points"` believes the outermost points rather than
 * the spec's closed gap
 * @returns the ring, for all that takes a design: contact, gauges, drawings
 * @throws SpecError for points that are not of such a ring, with what they seem to be instead
 *
 * @example
 * const ring = ringFromScan(points, { spec, noise: 0.001 });
 * ring.load.tangentialForce; // N, as a tape would show it
 * closeInBore(ring).contactShare;
 */
export function ringFromScan(
  points: readonly (readonly [number, number])[],
  options: ScanOptions,
): ScannedRing {
  const { spec: given, ...rest } = options ?? {};
  const settings = parse(scanSchema, rest);
  let body = bodyOf(given);
  let spec = readBodySpec(body);
  let geometry = geometryOf(spec);
  const read = readPoints(points, settings.unit, settings.mirrored);
  const sample = sampleOf(read.points);
  const few = sample.map((i) => read.points[i]);
  const placement = placePoints(few, {
    bore: spec.bore,
    radialThickness: spec.section.radialThickness,
    faceLength: 2 * geometry.outerRadius * geometry.loadLimit,
    unit: settings.unit,
  });
  const opening = (placement.gap - spec.closedGap) / (3 * Math.PI * geometry.centroidRadius);
  if (!(opening > LEAST_OPENING)) {
    throw new SpecError(
      "points",
      undefined,
      `must be of the free ring; its gap is ${placement.gap.toFixed(3)} mm, hardly wider than the closed gap of ${spec.closedGap} mm: scanned closed?`,
    );
  }
  const faces = (uneven: number) =>
    freeFaces(geometry.centroidLimit, geometry.centroidRadius, spec.section.radialThickness / 2, uneven);
  const { kinds, state } = sortPoints(few, placement, faces(0), opening, spec.section.radialThickness);
  const choice = { by: settings.smoothness, noise: settings.noise, finest: FINEST };
  const scanned = () =>
    scannedFace(
      read.points,
      sample,
      kinds,
      faces(UNEVEN),
      state,
      choice,
      opening,
      spec.section.radialThickness,
    );
  let face = scanned();
  const measured = asMeasured(body, geometry, face, settings.length === "points");
  if (measured !== body) {
    body = measured;
    spec = readBodySpec(body);
    geometry = geometryOf(spec);
    face = scanned();
  }

  checkScatter(face, spec, read.points.length);

  const { coefficients, fit, motion } = face.fitted;
  const { centroidRadius: r, centroidLimit: c, outerRadius: R } = geometry;
  const ring = ringOfCurvature(body, (theta) =>
    curvatureTerms(theta, c, UNEVEN).reduce((sum, term, j) => sum + (term * coefficients[j]) / r, 0),
  );
  const light = lightTest(ring, { sensitivity: settings.sensitivity });
  const design = asDesign(ring, spec, light.closure, tapeTest(ring).force);
  const flexibility = stationLaws(spec, r, ring.wall, ring.free.theta.length).map((law) => law.flexibility);
  const factor = normalQuantile((1 + settings.confidence) / 2);
  return {
    ...design,
    scan: {
      points: {
        given: points.length,
        ...face.counts,
        outliers: face.outliers.map(({ index, distance }) => ({ index: read.index[index], distance })),
        duplicates: read.duplicates,
        ...(face.means !== undefined && { means: face.means }),
      },
      motion,
      noise: fit.noise,
      freedom: fit.freedom,
      highestOrder: UNEVEN / 2,
      ...(face.wall !== undefined && { wall: face.wall }),
      closedGapShown: closedGapShown(geometry, face),
      spacing: (R * (face.to - face.from)) / face.counts.outer,
      confidence: settings.confidence,
      band: scanBand(design, flexibility, fit, PLACE, UNEVEN, factor),
      light,
    },
  };
}

function bodyOf(spec: ScanOptions["spec"]): BodySpecInput {
  if (typeof spec !== "object" || spec === null) {
    throw new SpecError("spec", spec, "must be given: the ring that it should be");
  }
  const { load: _load, pressure: _pressure, ...body } = spec as RingSpecInput;
  return body;
}

function geometryOf({ bore, section, closedGap }: BodySpec): Geometry {
  return closedGeometry(bore, section.radialThickness, closedGap);
}

/** Indices of the points that are sorted one by one. */
function sampleOf(points: readonly Point[]): number[] {
  const stride = Math.ceil(points.length / MOST_POINTS);
  return Array.from({ length: Math.ceil(points.length / stride) }, (_, k) => k * stride);
}

/** The body with what the points tell better than the spec; the same object if nothing. */
function asMeasured(
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

function checkScatter({ fitted, outliers }: ScannedFace, { section }: BodySpec, count: number): void {
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
function closedGapShown({ outerRadius }: Geometry, { from, to }: ScannedFace): number {
  return 2 * outerRadius * Math.sin(Math.PI - (to - from) / 2);
}
