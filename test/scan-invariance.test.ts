import { describe, expect, test } from "vitest";
import { ringFaces } from "../src/curves/ringFaces.js";
import { outlineArcs } from "../src/curves.js";
import {
  camTurning,
  closeInBore,
  coiling,
  designRing,
  endsInBand,
  type Point,
  type RingDesign,
  readSpec,
  ringFromScan,
  type ScannedRing,
  type ScanOptions,
  spreadRing,
  tapeTest,
} from "../src/index.js";
import { renderRing } from "../src/svg.js";
import { DEMO_RINGS, relativeError } from "./rings.js";
import { designOf, type FacePlace, outerFace, SCANNED, scanned, taken } from "./scans.js";

/** Scans that differ in nothing that matters, scans of whole outlines and of unknown gaps, and what a scanned ring serves for. */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));
const differ = (one: readonly number[], other: readonly number[]) =>
  largest(one.map((value, i) => value - other[i]));
const reversed = (values: readonly number[]) => [...values].reverse();

describe("A scan of a ring with unlike halves", () => {
  const design = designOf("ferry, unlike halves");
  const taking = { noise: 0.002, seed: 3, astray: 0.05 };
  const { points, astray } = scanned(design, taking);
  const read = (given: readonly Point[], more: Partial<ScanOptions> = {}) =>
    ringFromScan(given, { spec: SCANNED["ferry, unlike halves"], ...more });
  const ring = read(points);
  const p0 = ring.load.contactPressure;

  /** The search ends where κ·r changes by less than 1e-7 of the opening, K = 0.02; pressure is a second derivative, of waves up to order 20. */
  function expectSame(other: ScannedRing, back: (values: readonly number[]) => readonly number[]) {
    expect(relativeError(other.load.tangentialForce, ring.load.tangentialForce)).toBeLessThan(1e-9);
    expect(Math.abs(other.free.gap - ring.free.gap)).toBeLessThan(1e-9);
    expect(differ(back(other.free.curvature), ring.free.curvature)).toBeLessThan(1e-10);
    expect(differ(back(other.installed.pressure), ring.installed.pressure)).toBeLessThan(1e-6 * p0);
    expect(differ(back(other.scan.band.pressure), ring.scan.band.pressure)).toBeLessThan(1e-6 * p0);
    expect(relativeError(other.scan.noise, ring.scan.noise)).toBeLessThan(1e-8);
    expect(relativeError(other.scan.band.tangentialForce, ring.scan.band.tangentialForce)).toBeLessThan(1e-8);
    expect(other.scan.points.outer).toBe(ring.scan.points.outer);
  }
  const asIs = (values: readonly number[]) => values;

  test.each([
    [1, [100, 33]],
    [3, [-5000, 0]],
    [-2.5, [0, 1e4]],
  ] as const)("gives the same ring turned by %d and shifted by %j", (turn, shift) => {
    const moved = scanned(design, { ...taking, turn, shift: [...shift] });
    const found = read(moved.points);
    expectSame(found, asIs);
    expect(found.scan.points.outliers.map(({ index }) => index)).toEqual(astray);
    // The motion takes every point to where the unmoved one is taken.
    const place = ({ motion }: ScannedRing["scan"], [x, y]: Point): Point => {
      const [c, s] = [Math.cos(motion.turn), Math.sin(motion.turn)];
      return [c * x - s * y + motion.shift[0], s * x + c * y + motion.shift[1]];
    };
    for (const i of [0, 100, 360, 719]) {
      const [one, other] = [place(found.scan, moved.points[i]), place(ring.scan, points[i])];
      // A turn good to 1e-9 of 1 at 59 mm, and rounding of 1e4 mm.
      expect(Math.hypot(one[0] - other[0], one[1] - other[1])).toBeLessThan(1e-7);
    }
  });

  test("gives the same ring in any order, with the outliers by their new places", () => {
    const found = read([...points].reverse());
    expectSame(found, asIs);
    const last = points.length - 1;
    expect(found.scan.points.outliers.map(({ index }) => last - index).reverse()).toEqual(astray);
  });

  test.each([
    ["in", 1 / 25.4],
    ["µm", 1000],
    ["cm", 0.1],
  ] as const)("gives the same ring in %s", (unit, scale) => {
    expectSame(
      read(
        points.map(([x, y]) => [scale * x, scale * y]),
        { unit },
      ),
      asIs,
    );
  });

  test("that lay the other way up gives the same ring if that is said, and the halves changed over if not", () => {
    const mirror = points.map(([x, y]): Point => [-x, y]);
    expectSame(read(mirror, { mirrored: true }), asIs);
    expectSame(read(mirror), reversed);
    expect(differ(reversed(ring.free.curvature), ring.free.curvature)).toBeGreaterThan(1e-6);
  });

  test("puts outliers at their distances, and counts all points", () => {
    const { outliers, given, outer, inner, between, duplicates } = ring.scan.points;
    expect(outliers.map(({ index }) => index)).toEqual(astray);
    const clean = scanned(design, { ...taking, noise: 0 });
    const face = outerFace(design, 720);
    for (const { index, distance } of outliers) {
      const [dx, dy] = [0, 1].map((k) => clean.points[index][k] - face[index].point[k]);
      // Put there without noise; within 4.5 standard deviations.
      expect(Math.abs(distance - (dx * face[index].out[0] + dy * face[index].out[1]))).toBeLessThan(0.009);
    }
    expect([given, outer + outliers.length, inner, between, duplicates]).toEqual([720, 720, 0, 0, []]);
  });

  test("takes a stated noise for true, and cross-validation finds nearly the same ring", () => {
    const stated = read(points, { noise: "2 µm" });
    expect(stated.scan.noise).toBe(0.002);
    expect(relativeError(stated.load.tangentialForce, ring.load.tangentialForce)).toBeLessThan(2e-5);
    const other = read(points, { smoothness: "crossValidation" });
    expect(Math.abs(other.free.gap - ring.free.gap)).toBeLessThan(other.scan.band.freeGap);
  });

  test("has bands in proportion to the normal quantile of its confidence", () => {
    // 2.5758 / 1.9600: two-sided 99 and 95 % (any table of the normal distribution); what the outermost points leave open does not grow.
    const wide = read(points, { confidence: 0.99 });
    expect(wide.scan.band.freeGap / ring.scan.band.freeGap).toBeCloseTo(2.5758 / 1.96, 2);
    expect(wide.scan.band.tangentialForce / ring.scan.band.tangentialForce).toBeCloseTo(2.5758 / 1.96, 2);
  });
});

/** Inner face and end faces, twenty points on each of these. */
function otherFaces(design: RingDesign, count: number): FacePlace[] {
  const { bore, closedGap, section } = design.spec;
  const { inner } = ringFaces(design);
  const limit = Math.PI - Math.asin(closedGap / (bore - 2 * section.radialThickness));
  const face = Array.from({ length: count }, (_, i): FacePlace => {
    const { x, y, cos, sin } = inner.at(limit * ((2 * i) / (count - 1) - 1));
    return { point: [x, y], out: [-sin, cos] };
  });
  const ends = [0, design.outline.outer.length - 1].flatMap((i) =>
    Array.from({ length: 20 }, (_, k): FacePlace => {
      const [from, to] = [design.outline.outer[i], design.outline.inner[i]];
      const share = (k + 1) / 21;
      return {
        point: [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])],
        out: [1, 0],
      };
    }),
  );
  return [...face, ...ends];
}

describe("A scan of the whole outline", () => {
  test.each([4.4, 4.46, 4.32])("measures a wall of %d mm to 1 µm, whatever was ordered", (wall) => {
    const design = designRing({ ...FERRY, section: { ...FERRY.section, radialThickness: wall } });
    const places = [...outerFace(design, 720), ...otherFaces(design, 720)];
    for (const noise of [0, 0.001, 0.003]) {
      const { points } = taken(places, { noise, seed: 2, turn: 1, shuffled: true });
      const { scan, spec, load, free } = ringFromScan(points, { spec: FERRY });
      // 1 µm is asked for; the median of 720 is good to 1.25/√720 of the noise times √2, four times that at 3 µm is 0.8 µm; measured 0.1.
      expect(Math.abs((scan.wall as number) - wall)).toBeLessThan(1e-6 + 0.1 * noise);
      // The wall is measured once more about the face that it leads to; that changes it by a few nanometres at most (measured 2.7).
      expect(Math.abs(spec.section.radialThickness - (scan.wall as number))).toBeLessThan(5e-6);
      expect(scan.points.outer).toBe(720);
      // Points of the end faces within 0.3 of the wall of the inner face count as its.
      expect(scan.points.inner + scan.points.between).toBe(760);
      expect(scan.points.inner).toBeGreaterThanOrEqual(720);
      expect(scan.points.inner).toBeLessThanOrEqual(734);
      expect(scan.points.outliers).toEqual([]);
      // Stiffness goes with the third power of the wall: 3·0.1 µm/4.4 mm besides the points' own 7e-5 to a µm.
      expect(relativeError(load.tangentialForce, tapeTest(design).force)).toBeLessThan(1e-6 + 0.15 * noise);
      expect(Math.abs(free.gap - design.free.gap)).toBeLessThan(3e-6 + 0.8 * noise);
    }
  });
});

describe('A scan with length: "points"', () => {
  test.each([0.3, 0.45, 0.6])("finds a closed gap of %d mm by the outermost points", (closedGap) => {
    const design = designRing({ ...FERRY, closedGap });
    for (const noise of [0, 0.001, 0.005]) {
      const { points } = scanned(design, { noise, seed: 4 });
      const ring = ringFromScan(points, { spec: FERRY, length: "points" });
      // Each end by one point, along the face: √2 of the noise, four times that.
      expect(Math.abs(ring.spec.closedGap - closedGap)).toBeLessThan(1e-5 + 5.7 * noise);
      expect(Math.abs(ring.free.gap - design.free.gap)).toBeLessThan(1e-5 + 5.7 * noise);
      expect(relativeError(ring.load.tangentialForce, tapeTest(design).force)).toBeLessThan(
        1e-5 + 0.1 * noise,
      );
    }
    const asOrdered = ringFromScan(scanned(design).points, { spec: FERRY });
    expect(asOrdered.spec.closedGap).toBe(0.45);
    expect(Math.abs(asOrdered.scan.closedGapShown - closedGap)).toBeLessThan(1e-5);
  });

  test("shows the closed gap of a slotted ring", () => {
    const { scan } = ringFromScan(scanned(designOf("ferry, slotted")).points, {
      spec: SCANNED["ferry, slotted"],
    });
    expect(Math.abs(scan.closedGapShown - 0.45)).toBeLessThan(1e-5);
  });
});

describe("A scanned ring", () => {
  const design = designRing(FERRY);
  const ring = ringFromScan(scanned(design, { noise: 0.002, seed: 6 }).points, { spec: FERRY });

  test("survives JSON whole", () => {
    const text = JSON.stringify(ring);
    const back: ScannedRing = JSON.parse(text);
    expect(text).not.toContain("null");
    expect(JSON.stringify(back)).toBe(text);
    expect(Object.keys(back)).toEqual(Object.keys(ring));
    expect(closeInBore(back)).toEqual(closeInBore(ring));
    expect(Array.isArray(back.scan.band.curvature)).toBe(true);
  });

  test("serves all that takes a design, with nearly the design's answers", () => {
    // Gap and forces to the 1e-4 that 2 µm of noise costs; lengths to a µm.
    const near = (of: (ring: RingDesign) => number, within: number) =>
      expect(relativeError(of(ring), of(design))).toBeLessThan(within);
    near((one) => endsInBand(one, 5).pull, 3e-4);
    near((one) => spreadRing(one, { diameter: 117.4 }).opened, 1e-4);
    near((one) => spreadRing(one, { diameter: 117.4, by: "pliers" }).stress.max, 1e-3);
    near((one) => closeInBore(one).force, 3e-4);
    near((one) => coiling(one).blankLength, 1e-7);
    near((one) => camTurning(one).outer.largestLift, 3e-4);
    expect(readSpec(ring.spec)).toEqual(ring.spec);
    expect(renderRing(ring).startsWith("<svg ")).toBe(true);
    const { pieces, deviation } = outlineArcs(ring, { tolerance: 0.002 });
    expect(pieces.length).toBeGreaterThan(10);
    expect(deviation).toBeLessThanOrEqual(0.002);
  });
});
