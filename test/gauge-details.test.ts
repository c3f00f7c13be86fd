import { describe, expect, test } from "vitest";
import { diametralTest } from "../src/gauge/diametralTest.js";
import { gaugedRing } from "../src/gauge/freeLine.js";
import { lightTest } from "../src/gauge/lightTest.js";
import { reach, tapeTest } from "../src/gauge/tapeTest.js";
import { SpecError } from "../src/spec/error.js";
import { assembled } from "./assembled.js";

/** The gauges on rings for which statics tell what they read. */

const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

const [E, a, h, R, FORCE] = [205000, 4.4, 2, 59, 20];
const r = R - a / 2;
const section = { shape: "rectangle", radialThickness: a, axialHeight: h } as const;
const material = { youngsModulus: E, poissonRatio: 0.3 };
interface Order {
  theory?: "thin" | "curved";
  closedGap?: number;
  extra?: object;
  force?: number;
}
const ringOf = ({ theory = "curved", closedGap = 0, extra = {}, force = FORCE }: Order = {}) => {
  const spec = { section: { ...section, ...extra }, material, theory, closedGap, bore: 2 * R };
  return { ...assembled(spec, 2 * R, force, { steps: 24 }), spec };
};
const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);
const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
const kinds = [
  ["one section", {}],
  ["a varying wall", { wall }],
  ["slots on one side", { slots }],
] as const;

describe("a tape", () => {
  test.each(kinds)("reads Ft and no ovality of a uniform pressure without a gap: %s", (_, extra) => {
    // It presses uniformly itself, with T/(h·R).
    const ring = ringOf({ extra });
    const reading = tapeTest(ring);
    near(reading.force, FORCE, 1e-7);
    near(reading.ovality, 0, 3e-5);
    near(reading.diameterThroughGap, 2 * R, 1e-6);
    near(reading.diameterAcross, 2 * R, 1e-6);
    expect(reading.gap).toBe(0);
    near(reading.freeGap, ring.free.gap, 1e-4);
  });

  test("needs no pull at the free gap, and reads the free ring's diameters", () => {
    const ring = ringOf({ closedGap: 3 });
    const { freeGap } = tapeTest(ring);
    near(freeGap, ring.free.gap, 1e-7);
    const reading = tapeTest(ring, { gap: freeGap });
    near(reading.force, 0, 1e-6);
    // Across: as far as the face reaches to either side. Through the gap: the circle by both corners and the back.
    const { outer } = ring.outline;
    const across = 2 * Math.max(...outer.map(([x]) => x));
    // Between stations 3° apart an arc rises by R·(1.5°)²/2 = 0.08 at the most.
    expect(reading.diameterAcross).toBeGreaterThan(across - 1e-9);
    expect(reading.diameterAcross).toBeLessThan(across + 0.2);
    const [[left, top], [, bottom]] = [outer[0], outer[(outer.length - 1) / 2]];
    const height = top - bottom;
    near(reading.diameterThroughGap, height + left ** 2 / height, 1e-6);
    near(reading.ovality, reading.diameterThroughGap - reading.diameterAcross, 1e-12);
  });

  test("closes to the closed gap by default, or to the one asked for", () => {
    const ring = ringOf({ closedGap: 3 });
    const [closed, half] = [tapeTest(ring), tapeTest(ring, { gap: 8 })];
    expect([closed.gap, half.gap]).toEqual([3, 8]);
    // Nearly uniform pressure: the tape lacks the balance, of the order of s/(π·R) = 1.6 %.
    near(closed.force, FORCE, 0.02);
    // Linear bending, to the order of K.
    near(half.force / closed.force, (ring.free.gap - 8) / (ring.free.gap - 3), 0.05);
    expect(tapeTest(ring, { gap: 0 }).force).toBeGreaterThan(closed.force);
  });

  test("needs no arc lengths", () => {
    const { free, ...rest } = ringOf({ extra: { wall }, closedGap: 1 });
    const full = tapeTest({ ...rest, free });
    const bare = tapeTest({ ...rest, free: { theta: free.theta, curvature: free.curvature } });
    near(bare.force, full.force, 1e-5);
    near(bare.freeGap, full.freeGap, 1e-4);
    near(
      gaugedRing({ ...rest, free: { theta: free.theta, curvature: free.curvature } }).ring.free.arcLength[10],
      free.arcLength[10],
      1e-5,
    );
  });

  test("closes neither past nil nor beyond the free gap", () => {
    const ring = ringOf({ closedGap: 3 });
    for (const gap of [-0.001, ring.free.gap + 0.001, Number.NaN, "1" as unknown as number]) {
      expect(() => tapeTest(ring, { gap })).toThrow(SpecError);
      expect(() => tapeTest(ring, { gap })).toThrow(
        /^gap.*must be a number from 0 to the free gap, \d+\.\d{4} mm/,
      );
    }
  });
});

test("the reach of a face is its support: R and its centre's, or √(p²·sin² + q²·cos²) of an ellipse", () => {
  const places = Array.from({ length: 121 }, (_, i) => (Math.PI * (60 - i)) / 61);
  const circle = places.map((t) => ({
    point: [3 + 50 * Math.sin(t), 2 - 50 * Math.cos(t)] as [number, number],
    tangent: t,
  }));
  for (const t of [0, 0.33, Math.PI / 2, -Math.PI / 2, -2])
    near(reach(circle, t), 50 + 3 * Math.sin(t) - 2 * Math.cos(t), 1e-13);
  // Half axes 50 and 48: from the nearest station the face is an arc by the next one.
  const ellipse = places.map((t) => {
    const support = Math.hypot(50 * Math.sin(t), 48 * Math.cos(t));
    return {
      point: [(2500 * Math.sin(t)) / support, (-2304 * Math.cos(t)) / support] as [number, number],
      tangent: t,
    };
  });
  for (const t of [0, 0.33, Math.PI / 2, -Math.PI / 2, -2])
    near(reach(ellipse, t), Math.hypot(50 * Math.sin(t), 48 * Math.cos(t)), 1e-6);
  // Also where the nearest one is the first or the last that counts.
  near(
    reach(circle, places[0] + 0.01),
    50 + 3 * Math.sin(places[0] + 0.01) - 2 * Math.cos(places[0] + 0.01),
    1e-13,
  );
  near(reach(circle, places[120]), 50 + 3 * Math.sin(places[120]) - 2 * Math.cos(places[120]), 1e-13);
});

describe("two plates", () => {
  // By hand (worked): unit pulls at the ends bend by r·(1 + cos θ), unit pushes of the plates by r·cos θ between them. In
  // r³/(E·I) per N the pull moves the gap by 3π and the width by 2 + π/2, the push the gap by 2 + π/2 and the width by π/2.
  const soft = ringOf({ theory: "thin", force: 0.02 });

  test("press a soft ring to its bore's width with (4 + π)/π of Ft", () => {
    const { force, width, gap } = diametralTest(soft);
    // Off by the order of K = 1e-5 and what that does to an opening of 0.008.
    near(force / 0.02, (4 + Math.PI) / Math.PI, 1e-3);
    expect(width).toBeCloseTo(2 * R, 9);
    expect(gap).toBeLessThan(soft.free.gap);
  });

  test("press it to its closed gap with 3π/(2 + π/2) of Ft", () => {
    const { force, width, gap } = diametralTest(soft, { gap: 0 });
    near(force / 0.02, (3 * Math.PI) / (2 + Math.PI / 2), 1e-3);
    near(gap, 0, 1e-9);
    // Then Fd·π/2 narrows it past the bore.
    expect(width).toBeLessThan(2 * R);
  });

  test.each(kinds.slice(0, 2))(
    "press a soft ring the harder the more they close it, in proportion: %s",
    (_, extra) => {
      const ring = ringOf({ extra, force: 0.02 });
      const { freeGap } = gaugedRing(ring);
      const [one, two, three] = [0.2, 0.5, 0.8].map((share) => diametralTest(ring, { gap: share * freeGap }));
      near((one.force - two.force) / (two.force - three.force), 1, 1e-3);
      near((one.width - two.width) / (two.width - three.width), 1, 1e-3);
      // The same state by its width.
      const byWidth = diametralTest(ring, { width: one.width });
      near(byWidth.force / one.force, 1, 1e-5);
      near(byWidth.gap, one.gap, 1e-7);
      // Betti: a newton of the plates moves the gap as far as a newton of the tape moves the width.
      const tapes = [0.2, 0.8].map((share) => tapeTest(ring, { gap: share * freeGap }));
      const gapByPlates = (three.gap - one.gap) / (one.force - three.force);
      const widthByTape =
        (tapes[1].diameterAcross - tapes[0].diameterAcross) / (tapes[0].force - tapes[1].force);
      near(gapByPlates / widthByTape, 1, 0.01);
    },
  );

  test("leave a free ring alone at its free gap", () => {
    const ring = ringOf({ closedGap: 2 });
    const { freeGap } = gaugedRing(ring);
    const { force, gap } = diametralTest(ring, { gap: freeGap });
    near(force, 0, 1e-3);
    near(gap, freeGap, 1e-9);
  });

  test("leave a free ring alone at its free gap, at mid wall, where its ends are thinner and far apart", () => {
    const ring = ringOf({ closedGap: 9, extra: { wall: (t: number) => 1 + 0.2 * Math.cos(t) } });
    near(diametralTest(ring, { gap: ring.free.gap }).force, 0, 1e-3);
  });

  test("press the mirror image of a ring as hard", () => {
    const [one, image] = [1, -1].map((side) =>
      diametralTest(ringOf({ closedGap: 2, extra: { wall: (t: number) => wall(side * t) } }), { gap: 6 }),
    );
    near(image.force / one.force, 1, 1e-7);
    near(image.width, one.width, 1e-7);
  });

  // Found here: beyond the plates the tangent goes on as under them, though there is no shear there that it would lead the section by.
  test("move the gap of a thick ring to a newton as the tape moves its width", () => {
    // Betti again, where strain by N and shear count: a/r = 1/3.
    const ring = ringOf({ force: 0.5, extra: { radialThickness: 17 } });
    const { freeGap } = gaugedRing(ring);
    const [one, two] = [0.2, 0.8].map((share) => diametralTest(ring, { gap: share * freeGap }));
    const tapes = [0.2, 0.8].map((share) => tapeTest(ring, { gap: share * freeGap }));
    const gapByPlates = (two.gap - one.gap) / (one.force - two.force);
    const widthByTape =
      (tapes[1].diameterAcross - tapes[0].diameterAcross) / (tapes[0].force - tapes[1].force);
    near(gapByPlates / widthByTape, 1, 1e-3);
  });

  test("refuse what cannot be", () => {
    const ring = ringOf({ closedGap: 3 });
    expect(() => diametralTest(ring, { gap: 3, width: 118 })).toThrow(
      /^width.*must not be given together with gap/,
    );
    for (const width of [R - 0.01, 4 * R + 0.01, Number.NaN, "118" as unknown as number])
      expect(() => diametralTest(ring, { width })).toThrow(
        /^width.*must be a number from 59 to 236\.0000 mm/,
      );
    for (const gap of [-0.01, ring.free.gap + 0.01])
      expect(() => diametralTest(ring, { gap })).toThrow(/^gap.*must be a number from 0 to \d+\.\d{4} mm/);
    expect(() => diametralTest(ring, { width: 130 })).toThrow(
      /must be at most the width of the free ring: plates only press/,
    );
    expect(() => diametralTest(ring, { width: 112 })).toThrow(
      /must be more: the ends would pass through each other by [\d.]+ mm/,
    );
  });
});

test("gaugedRing completes a ring: its free gap, tangent and a pull for its opening", () => {
  const ring = ringOf({ closedGap: 3 });
  const { centroidLimit, freeGap, freeTangent, forceScale } = gaugedRing(ring);
  near(centroidLimit, Math.PI - Math.asin(3 / (2 * r)), 1e-14);
  near(freeGap, ring.free.gap, 1e-7);
  near(freeTangent, centroidLimit + ring.ends.turn, 1e-7);
  // E·I·(m − s)/(3π·r³) is near Ft.
  near(forceScale, (E * h * a ** 3 * (freeGap - 3)) / (36 * Math.PI * r ** 3), 1e-12);
  near(forceScale, FORCE, 0.05);
  // Ends that overlap when free have a gap below nil: a circle of radius 50 over the same length.
  const tight = { ...ring, free: { theta: ring.free.theta, curvature: ring.free.theta.map(() => 1 / 50) } };
  const overlapping = gaugedRing(tight);
  const half = (centroidLimit * r) / 50;
  near(overlapping.freeGap, 2 * 50 * Math.sin(half), 0.3);
  expect(overlapping.freeGap).toBeLessThan(-30);
});

describe("the light test", () => {
  const ring = ringOf({ closedGap: 0.45 });

  test("passes a ring in its own bore, and not in a larger one unless little is asked", () => {
    const own = lightTest(ring);
    expect([own.passes, own.limit]).toEqual([true, 1]);
    near(own.closure.contactShare, 1, 1e-9);
    const wide = lightTest(ring, { diameter: 121 });
    expect(wide.passes).toBe(false);
    const share = wide.closure.contactShare;
    expect(share).toBeLessThan(1);
    expect(lightTest(ring, { diameter: 121, limit: share }).passes).toBe(true);
    expect(lightTest(ring, { diameter: 121, limit: Math.min(1, share + 0.01) }).passes).toBe(false);
    // A slit that shows no light is none.
    expect(lightTest(ring, { diameter: 121, sensitivity: 1 }).closure.contactShare).toBeGreaterThan(share);
  });

  test.each([0, -1, 1.01, Number.NaN])("refuses a limit of %s", (limit) => {
    expect(() => lightTest(ring, { limit })).toThrow(/^limit.*must be above 0 to 1/);
  });
});
