import { asDesign } from "../contact/asDesign.js";
import { gaugedRing } from "../gauge/freeLine.js";
import { lightTest } from "../gauge/lightTest.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { normalQuantile } from "../numeric/normalQuantile.js";
import { parse } from "../spec/issues.js";
import { readBodySpec } from "../spec/readSpec.js";
import type { BodySpecInput, RingSpecInput } from "../spec/schema.js";
import { scanBand } from "./band.js";
import { PLACE } from "./fitFace.js";
import { freeFaces } from "./freeFace.js";
import { lightChance } from "./lightChance.js";
import { momentSeries } from "./momentSeries.js";
import { placePoints } from "./placePoints.js";
import { readPoints } from "./readPoints.js";
import { type Refuse, refusing } from "./refuse.js";
import {
  asMeasured,
  bodyOf,
  checkScatter,
  checkSizes,
  closedGapShown,
  closedScan,
  sampleOf,
} from "./scannedBody.js";
import { scannedFace } from "./scannedFace.js";
import type { ScannedRing } from "./scannedRing.js";
import { type ScanSettings, scanSchema } from "./scanSchema.js";
import { FINEST, sortPoints } from "./sortPoints.js";

/** What is known of a scan: the ring that it should be, and docs/reference/inputs.md#scan. */
export interface ScanOptions extends ScanSettings {
  /** The ring that it should be: bore, closed gap, section, material. Load and pressure may be there, and are not used. */
  spec: BodySpecInput | RingSpecInput;
}

/** Terms of the series beyond those of a uniform pressure: waves up to half as high an order. */
const UNEVEN = 40;
/** K of a ring that is worth the name. */
const LEAST_OPENING = 1e-4;

/**
 * A ring from points of its outer face, or of its whole outline, free, in any order, place and direction.
 *
 * The moment that the ring will have in its bore is a series whose first terms are those of a uniform pressure; the others are penalised by the unevenness of
 * the pressure that they stand for, as much as the points' own scatter asks for. So a pressure comes out as uneven as the points can prove,
 * and where they prove nothing as even as it can be.
 *
 * Method: docs/theory/11-measured-rings.md.
 *
 * @param points [x, y], at least 60; of the outer face at least, from end to end
 * @param options the spec of the ring that it should be, unit, noise; `length: "points"` believes the outermost points rather than
 * the spec's closed gap
 * @returns the ring, for all that takes a design: contact, gauges, drawings
 * @throws SpecError for points that are not of such a ring, with what they seem to be instead
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const ring = ringFromScan(design.outline.outer, { spec, noise: 0.001 });
 * ring.load.tangentialForce; // 17.69, N, as a tape would show it
 * ring.scan.points.outer; // 361
 */
export function ringFromScan(
  points: readonly (readonly [number, number])[],
  options: ScanOptions,
): ScannedRing {
  const { spec: given, ...rest } = options ?? {};
  const settings = parse(scanSchema, rest);
  let body = bodyOf(given);
  let spec = readBodySpec(body);
  let series = momentSeries(body, spec, UNEVEN);
  const read = readPoints(points, settings.unit, settings.mirrored);
  const sample = sampleOf(read.points);
  const few = sample.map((i) => read.points[i]);
  const refuse: Refuse = refusing(points.length);
  const placement = placePoints(
    few,
    {
      bore: spec.bore,
      radialThickness: spec.section.radialThickness,
      faceLength: 2 * series.geometry.outerRadius * series.geometry.loadLimit,
      unit: settings.unit,
    },
    refuse,
  );
  const opening = (placement.gap - spec.closedGap) / (3 * Math.PI * series.geometry.centroidRadius);
  if (!(opening > LEAST_OPENING)) {
    refuse(closedScan(placement.gap, spec.closedGap));
  }
  const { kinds, state } = sortPoints(
    few,
    placement,
    freeFaces(series, 0),
    opening,
    spec.section.radialThickness,
  );
  const choice = { by: settings.smoothness, noise: settings.noise, finest: FINEST };
  const scanned = () =>
    scannedFace(
      read.points,
      sample,
      kinds,
      freeFaces(series),
      state,
      choice,
      opening,
      spec.section.radialThickness,
    );
  let face = scanned();
  checkScatter(face, spec, read.points.length, settings.noise, refuse);
  checkSizes(face, spec, series.geometry, refuse);
  const measured = asMeasured(body, series.geometry, face, settings.length === "points");
  if (measured !== body) {
    body = measured;
    spec = readBodySpec(body);
    series = momentSeries(body, spec, UNEVEN);
    face = scanned();
    checkScatter(face, spec, read.points.length, settings.noise, refuse);
  }

  const { coefficients, fit, motion } = face.fitted;
  const { geometry, ringOf } = series;
  const { centroidRadius: r, outerRadius: R } = geometry;
  const ring = ringOf(coefficients);
  const { freeGap } = gaugedRing(ring);
  if (!(freeGap - spec.closedGap > LEAST_OPENING * 3 * Math.PI * r))
    refuse(closedScan(freeGap, spec.closedGap));
  const light = lightTest(ring, { sensitivity: settings.sensitivity });
  const design = asDesign(ring, spec, light.closure, tapeTest(ring).force);
  const slack = Math.max(0, geometry.loadLimit - (face.to - face.from) / 2);
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
      band: scanBand(design, series, face.fitted, slack, factor),
      light,
      ...(settings.draws > 0 && {
        chance: lightChance(settings.draws, settings.sensitivity, fit.coefficients.length, (normals) =>
          ringOf(fit.drawn(normals).slice(PLACE)),
        ),
      }),
    },
  };
}
