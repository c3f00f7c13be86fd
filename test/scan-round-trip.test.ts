import { describe, expect, test } from "vitest";
import {
  lightTest,
  type Point,
  type RingSpecInput,
  ringFromScan,
  ringOfCurvature,
  tapeTest,
} from "../src/index.js";
import { DEMO_RINGS, relativeError } from "./rings.js";
import {
  designOf,
  type FacePlace,
  SCANNED,
  SCANNED_NAMES,
  type ScannedName,
  scanned,
  taken,
} from "./scans.js";

/**
 * Rings from points of their own outer faces: force, free gap and light verdict of the design come back. The faces are the library's own (for
 * the rings at the end they are not); that these close to circles with the wanted pressure is proved elsewhere. Noises in µm.
 */

/** What a scan of 720 points may be off by, whatever the ring, as a share of the force, and the gap in mm. */
const PROMISED = { "0.5": 0.003, "2": 0.01, "5": 0.03 } as const;
const PROMISED_GAP = 0.01;
const NOISES = Object.keys(PROMISED) as (keyof typeof PROMISED)[];

/**
 * What it is off by at most: some three times what was measured with these seeds. By the points' scatter the gap is off by 0.27 µm to a µm of
 * noise and the force by the share that this is of the opening; worst of 40 seeds 0.73 µm. What waves leave of
 * the place where slots begin is 0.07 µm. Where the point at one end is astray the ring is taken to lie half a
 * step off; that matters where the halves are unlike: 1.1e-4 of the force, 0.4 µm.
 */
const REACHED: Record<ScannedName, { force: number; left?: { force: number; gap: number } }> = {
  "ferry 118 mm": { force: 7e-5 },
  "motorcycle 54 mm": { force: 12e-5 },
  "gas engine 340 mm": { force: 1.2e-5 },
  "ferry, more at the gap": { force: 7e-5 },
  "ferry, unlike halves": { force: 7e-5, left: { force: 2e-4, gap: 0.0012 } },
  "ferry, slotted": { force: 5e-5, left: { force: 1e-5, gap: 0.0002 } },
  "ferry, wall from a table": { force: 7e-5 },
  "ferry, thin theory": { force: 7e-5 },
};
const REACHED_GAP = 0.0008;

function reached(name: ScannedName, noise: number, count = 720) {
  // Twice the points, 1/√2 of the error.
  const by = noise * Math.sqrt(720 / count);
  const { force, left } = REACHED[name];
  return { force: by * force + (left?.force ?? 3e-6), gap: by * REACHED_GAP + (left?.gap ?? 0.00006) };
}

describe.each(SCANNED_NAMES)("A scan of the ring %s", (name) => {
  const design = designOf(name);
  const spec: RingSpecInput = SCANNED[name];
  const force = tapeTest(design).force;
  const verdict = lightTest(design).passes;

  test.each(NOISES)(
    "with %s µm of noise and 5 % of points astray, wherever it lies, gives back force, gap and verdict",
    (noise) => {
      const limit = reached(name, Number(noise));
      expect(limit.force).toBeLessThan(PROMISED[noise]);
      expect(limit.gap).toBeLessThan(PROMISED_GAP);
      for (const seed of [1, 2].map((k) => k + 10 * Number(noise))) {
        const turn = 1.3 * seed;
        const { points, astray } = scanned(design, {
          noise: Number(noise) / 1000,
          seed,
          astray: 0.05,
          turn,
          shift: [10 * seed, -7],
          shuffled: true,
        });
        const ring = ringFromScan(points, { spec });
        const what = `seed ${seed}`;
        const off = relativeError(ring.load.tangentialForce, force);
        const gapOff = Math.abs(ring.free.gap - design.free.gap);
        expect(off, what).toBeLessThan(PROMISED[noise]);
        expect(gapOff, what).toBeLessThan(PROMISED_GAP);
        expect(off, what).toBeLessThan(limit.force);
        expect(gapOff, what).toBeLessThan(limit.gap);
        expect(ring.scan.light.passes, what).toBe(verdict);
        // Of 720 scattered numbers the standard deviation is good to 1/√1440, 2.6 %; four times that.
        expect(relativeError(1000 * ring.scan.noise, Number(noise)), what).toBeLessThan(0.11);
        // All that are 50 µm off or more; and of 150 000 normal numbers one beyond 4.5 standard deviations, 0.2 in all of these scans.
        const found = ring.scan.points.outliers.map(({ index }) => index);
        expect(found).toEqual(expect.arrayContaining(astray));
        expect(found.length, what).toBeLessThanOrEqual(astray.length + 1);
        expect(ring.scan.points.outer + found.length).toBe(points.length);
      }
    },
  );

  test("without noise gives them back to what is no noise, and its curvature", () => {
    const ring = ringFromScan(scanned(design).points, { spec });
    const limit = reached(name, 0);
    expect(relativeError(ring.load.tangentialForce, force)).toBeLessThan(limit.force);
    expect(Math.abs(ring.free.gap - design.free.gap)).toBeLessThan(limit.gap);
    expect(ring.scan.light.passes).toBe(verdict);
    // As much as no instrument's scatter is taken for, 0.05 µm, and nothing of the ring's own shape.
    expect(ring.scan.noise).toBe(5e-5);
    // 1/mm, where 1/r is 6e-3 to 4e-2. At the ends, which hardly tell how they are bent, three times the worst, of more pressure at the gap; slots
    // begin with a jump, which waves round off.
    const off = ring.free.curvature.map((value, i) => Math.abs(value - design.free.curvature[i]));
    expect(Math.max(...off)).toBeLessThan(name === "ferry, slotted" ? 3e-5 : 1.3e-5);
    const inner = off.filter((_, i) => Math.abs(ring.free.theta[i]) < 2.6);
    expect(Math.max(...inner)).toBeLessThan(name === "ferry, slotted" ? 3e-6 : 4e-7);
  });
});

describe.each(SCANNED_NAMES)("However many points of the ring %s there are", (name) => {
  const design = designOf(name);

  test.each(name in DEMO_RINGS ? [100, 100000] : [100])(
    "%d, it comes out as well as so many can tell",
    (count) => {
      const { points, astray } = scanned(design, {
        count,
        noise: 0.002,
        seed: 5,
        astray: count > 1000 ? 0.05 : 0,
      });
      const ring = ringFromScan(points, { spec: SCANNED[name] });
      const limit = reached(name, 2, count);
      expect(relativeError(ring.load.tangentialForce, tapeTest(design).force)).toBeLessThan(limit.force);
      expect(Math.abs(ring.free.gap - design.free.gap)).toBeLessThan(limit.gap);
      expect(ring.scan.light.passes).toBe(true);
      // Means of many points scatter so that their number over its root is the points' own noise: 1440 means, or 100 points, four times 1/√(2·n).
      expect(relativeError(ring.scan.noise, 0.002)).toBeLessThan(4 / Math.sqrt(2 * Math.min(count, 1440)));
      expect(ring.scan.points.means).toBe(count > 1000 ? 1440 : undefined);
      expect(ring.scan.points.outliers.map(({ index }) => index)).toEqual(astray);
    },
  );
});

/** The outer face of a thin ring of any free curvature κ₀·r, by Simpson's rule; places at equal steps from corner to corner of its line. */
function thinFace(r: number, toFace: number, limit: number, bend: (theta: number) => number, count: number) {
  const fine = 40;
  const half = (side: 1 | -1): FacePlace[] => {
    const places: FacePlace[] = [];
    let [angle, x, y] = [0, 0, -r];
    for (let i = 0; ; i++) {
      const out: Point = [Math.sin(angle), -Math.cos(angle)];
      if (i % fine === 0) places.push({ point: [x + toFace * out[0], y + toFace * out[1]], out });
      if (i === (fine * (count - 1)) / 2) return places;
      const step = (side * 2 * limit) / (fine * (count - 1));
      const at = (side * 2 * limit * i) / (fine * (count - 1));
      const [first, mid, last] = [bend(at), bend(at + step / 2), bend(at + step)];
      const middle = angle + (step / 24) * (5 * first + 8 * mid - last);
      const next = angle + (step / 6) * (first + 4 * mid + last);
      const mean = (f: (angle: number) => number) => (step / 6) * (f(angle) + 4 * f(middle) + f(next));
      x += r * mean(Math.cos);
      y += r * mean(Math.sin);
      angle = next;
    }
  };
  return [...half(-1).reverse(), ...half(1).slice(1)];
}

describe("A ring that lets light past keeps its verdict:", () => {
  const { load: _, ...body } = { ...DEMO_RINGS["ferry 118 mm"], theory: "thin" as const };
  const r = (body.bore - body.section.radialThickness) / 2;
  const limit = Math.PI - Math.asin(body.closedGap / (2 * r));
  const even = (theta: number) => 1 - 0.0196 * (1 + Math.cos(theta));

  // The light-tight share is within 0.03 of the true one: a gap's edge, where clearance grows with the third power of the way, lies where it is
  // 2 µm; and 2 µm of noise moves it so (measured 0.019 at most).
  test.each([
    ["round when free", () => r / 59.2, 0.385],
    ["with a wave of order 5", (theta: number) => even(theta) + 0.004 * Math.cos(5 * theta), 0.354],
    [
      "with a wave of order 3 that makes the halves unlike",
      (theta: number) => even(theta) + 0.004 * Math.sin(3 * theta),
      0.705,
    ],
    ["with tips that stand off", (theta: number) => even(theta) + 0.002 * Math.cos(2 * theta), 0.972],
  ] as const)("%s", (_, bend, share) => {
    const ring = ringOfCurvature(body, (theta) => bend(theta) / r);
    const truth = lightTest(ring);
    const tape = tapeTest(ring);
    expect(truth.passes).toBe(false);
    expect(truth.closure.contactShare).toBeCloseTo(share, 2);
    const face = thinFace(r, body.section.radialThickness / 2, limit, bend, 721);
    for (const [noise, within] of [
      [0, 0.0005],
      [0.002, 0.03],
    ]) {
      const { points } = taken(face, { noise, seed: 9, astray: noise > 0 ? 0.05 : 0, turn: 2 });
      const found = ringFromScan(points, { spec: body });
      expect(found.scan.light.passes).toBe(false);
      expect(found.scan.light.closure.lightGaps).toHaveLength(truth.closure.lightGaps.length);
      expect(Math.abs(found.scan.light.closure.contactShare - truth.closure.contactShare)).toBeLessThan(
        within,
      );
      const expected = reached("ferry, thin theory", 1000 * noise);
      expect(relativeError(found.load.tangentialForce, tape.force)).toBeLessThan(expected.force);
      expect(Math.abs(found.free.gap - tape.freeGap)).toBeLessThan(expected.gap);
    }
  });
});
