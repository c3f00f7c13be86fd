import { describe, expect, test } from "vitest";
import {
  designRing,
  type RingDesign,
  type RingSpecInput,
  ringFromScan,
  type ScannedRing,
  tapeTest,
} from "../src/index.js";
import { SCANNED, type ScannedName, scanned } from "./scans.js";

/**
 * How often the 95 % bands of scans hold the truth: 200 scans of five rings, 180 points each, with 0.5, 2 and 5 µm of noise in turn.
 *
 * Bands of a smoothed curve hold it in the mean along the curve, not at each place (G. Wahba, J. R. Stat. Soc. B 45 (1983) 133; D. Nychka,
 * J. Am. Stat. Assoc. 83 (1988) 1134; from memory): less often where it bends most, near the gap, and more often elsewhere. So do these. Measured
 * here, in the mean along each ring: curvature 0.98 to 1.00, as waves that are looked for and not there widen the bands; pressure 0.94 to 0.96;
 * over all scans force and gap 0.93, which is 0.95 but for what 200 scans leave, 0.015 (0.96 of 300 others).
 *
 * At single places they hold less where the truth bends too sharply for the noise: the curvature at the ends of a ring with much more pressure
 * there, 0.7 of the ferry's and 0.1 of the gas engine's scans at 0.5 µm; in the mean 0.99 and 0.97 (measured over 30 scans).
 */

const NOISES = [0.0005, 0.002, 0.005];
const SCANS = 40;
const RINGS: readonly ScannedName[] = [
  "ferry 118 mm",
  "motorcycle 54 mm",
  "gas engine 340 mm",
  "ferry, more at the gap",
  "ferry, unlike halves",
];

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const held = (found: readonly number[], truth: readonly number[], band: readonly number[]) =>
  truth.map((value, i) => Number(Math.abs(found[i] - value) <= band[i]));

/** What the bands of a scan hold: shares of the ring, and 1 or 0. */
interface Held {
  readonly curvature: number;
  readonly pressure: number;
  /** Of the ring beyond 20° from the gap. */
  readonly pressureBeyond: number;
  readonly force: number;
  readonly gap: number;
}

function heldBy(design: RingDesign, ring: ScannedRing, force: number): Held {
  const { band } = ring.scan;
  const pressure = held(ring.installed.pressure, design.installed.pressure, band.pressure);
  return {
    curvature: mean(held(ring.free.curvature, design.free.curvature, band.curvature)),
    pressure: mean(pressure),
    pressureBeyond: mean(pressure.filter((_, i) => Math.abs(design.free.theta[i]) < Math.PI - 0.35)),
    force: Number(Math.abs(ring.load.tangentialForce - force) <= band.tangentialForce),
    gap: Number(Math.abs(ring.free.gap - design.free.gap) <= band.freeGap),
  };
}

/** Scans of a ring, each ring's with noise of their own; `last` as for `slice`. */
function scansOf(name: ScannedName, count: number, last?: number): Held[] {
  const spec: RingSpecInput = { ...SCANNED[name], stations: 60 };
  const design = designRing(spec);
  const force = tapeTest(design).force;
  const first = 1000 * Object.keys(SCANNED).indexOf(name);
  return Array.from({ length: count }, (_, k) => {
    const { points } = scanned(design, { count: 180, noise: NOISES[k % 3], seed: first + k });
    return heldBy(design, ringFromScan(points.slice(0, last), { spec }), force);
  });
}

describe("The 95 % bands", () => {
  const all: Held[] = [];

  test.each(RINGS)("hold curvature and pressure of the ring %s along 93 % of it", (name) => {
    const scans = scansOf(name, SCANS);
    all.push(...scans);
    expect(mean(scans.map(({ curvature }) => curvature))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ pressure }) => pressure))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ pressureBeyond }) => pressureBeyond))).toBeGreaterThan(0.98);
  });

  test("hold force and gap in 93 % of all scans", () => {
    expect(all).toHaveLength(SCANS * RINGS.length);
    expect(mean(all.map(({ force }) => force))).toBeGreaterThanOrEqual(0.93);
    expect(mean(all.map(({ gap }) => gap))).toBeGreaterThanOrEqual(0.93);
  });

  test("hold a slotted ring, whose curvature jumps", () => {
    const scans = scansOf("ferry, slotted", 15);
    expect(mean(scans.map(({ curvature }) => curvature))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ pressure }) => pressure))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ force }) => force))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ gap }) => gap))).toBeGreaterThanOrEqual(0.93);
  });

  test("hold a ring one end of which has no point, though it lies as far off as the step that is missing leaves open", () => {
    const scans = scansOf("ferry, unlike halves", 15, -1);
    expect(mean(scans.map(({ curvature }) => curvature))).toBeGreaterThanOrEqual(0.93);
    expect(mean(scans.map(({ pressure }) => pressure))).toBeGreaterThanOrEqual(0.93);
    // The worst case each time, so that force and gap lie at the edge of what the step leaves open, and the fit's scatter decides: 0.8 and 0.87.
    expect(mean(scans.map(({ force }) => force))).toBeGreaterThan(0.75);
    expect(mean(scans.map(({ gap }) => gap))).toBeGreaterThan(0.75);
  });
});
