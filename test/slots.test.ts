import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type Point, proveClosure } from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError, runs } from "./rings.js";
import { A, FERRY, H, LIMIT, MEAN_DIAMETER, slotted } from "./slotted-ferry.js";

/**
 * Where inner slots stand, in the arrays and in the drawing, that the ring closes with them, and the stress over them.
 */

const size = fc.record({
  count: fc.integer({ min: 1, max: 90 }),
  depth: fc.integer({ min: 1, max: 60 }).map((n) => (n / 100) * A),
  width: fc.integer({ min: 1, max: 150 }).map((n) => n / 100),
});

describe("where the slots stand", () => {
  test("both copies of a station at a zone's end have one place and two curvatures", () => {
    const { free, installed, wall } = slotted({ count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 });
    const doubles = free.theta.flatMap((theta, i) => (theta === free.theta[i - 1] ? [i] : []));
    // At the mirror images of the zone's ends stations stand twice too; nothing jumps there.
    expect(doubles.map((i) => free.theta[i])).toEqual([-2, -0.5, 0.5, 2]);
    for (const i of doubles) {
      for (const line of [
        free.x,
        free.y,
        free.tangent,
        free.arcLength,
        installed.moment,
        installed.pressure,
      ]) {
        expect(line[i]).toBe(line[i - 1]);
      }
      const jumps = [-0.5, 2].includes(free.theta[i]);
      expect(free.curvature[i] !== free.curvature[i - 1]).toBe(jumps);
      expect(wall?.netShare[i] !== wall?.netShare[i - 1]).toBe(jumps);
    }
    for (const list of Object.values({ ...free, gap: free.x, ...wall, slotDepth: free.x })) {
      expect(list.length).toBe(free.theta.length);
    }
  });

  test("slot k of 60 round the whole ring is drawn square to the line at station 3 + 6k of 360", () => {
    const slots = { count: 60, depth: 1.5, width: 0.8 };
    const { free, outline } = slotted(slots);
    expect(outline.slots?.length).toBe(60);
    for (const [k, corners] of (outline.slots as Point[][]).entries()) {
      const i = 3 + 6 * k;
      const [c, s] = [Math.cos(free.tangent[i]), Math.sin(free.tangent[i])];
      // From the inner face, ½·wall inside the line, to the root and back.
      const expected = [
        [-0.4, -A / 2],
        [-0.4, 1.5 - A / 2],
        [0.4, 1.5 - A / 2],
        [0.4, -A / 2],
      ];
      for (const [n, [along, outward]] of expected.entries()) {
        expect(corners[n][0]).toBeCloseTo(free.x[i] + along * c + outward * s, 11);
        expect(corners[n][1]).toBeCloseTo(free.y[i] + along * s - outward * c, 11);
      }
    }
  });

  property.prop(
    [
      size,
      fc.integer({ min: -200, max: 100 }).filter((hundredths) => hundredths !== 0),
      fc.integer({ min: 110, max: 310 }),
    ],
    runs(30),
  )(
    "every slot has its depth and width, starts on the inner face and leaves the net section",
    (slots, from, to) => {
      const zone = {
        ...slots,
        count: Math.min(slots.count, 20),
        width: Math.min(slots.width, 0.2),
        from: from / 100,
        to: to / 100,
      };
      const { outline } = slotted(
        { ...zone, count: zone.to - zone.from < 0.3 ? 1 : zone.count },
        { ...FERRY, stations: 720 },
      );
      for (const [one, root, beyond, other] of outline.slots as Point[][]) {
        const apart = ([x1, y1]: Point, [x2, y2]: Point) => Math.hypot(x2 - x1, y2 - y1);
        expect(apart(one, root)).toBeCloseTo(zone.depth, 11);
        expect(apart(root, beyond)).toBeCloseTo(zone.width, 11);
        expect(apart(beyond, other)).toBeCloseTo(zone.depth, 11);
        expect(apart(one, beyond)).toBeCloseTo(Math.hypot(zone.depth, zone.width), 11);
        const nearest = (point: Point, face: readonly Point[]) =>
          Math.min(...face.map((at) => apart(point, at)));
        // To the nearest vertex, at most half a step of 0.26 mm away along the face; the face bends by w²/(8ρ) over a slot.
        const slack = 0.14 ** 2 / 2 + zone.width ** 2 / 200;
        expect(nearest(one, outline.inner)).toBeLessThan(0.14 + zone.width ** 2 / 200);
        for (const corner of [root, beyond]) {
          expect(Math.abs(nearest(corner, outline.outer) - (A - zone.depth))).toBeLessThan(slack);
        }
      }
    },
  );

  test("a pitch is as good as a count, and what it does not fill is left at both ends", () => {
    const count = 60;
    const pitch = (LIMIT * MEAN_DIAMETER) / count;
    const [byCount, byPitch] = [
      slotted({ count, depth: 1.5, width: 0.8 }),
      slotted({ pitch, depth: 1.5, width: 0.8 }),
    ];
    expect(byPitch.spec.section.slots?.count).toBe(count);
    expect(byPitch.free.gap).toBeCloseTo(byCount.free.gap, 11);
    // By hand: 2 rad · 56.8 mm = 113.6 mm hold 11 pitches of 10 mm; 3.6 mm are left, 1.8 mm = 0.031690 rad at each end.
    const { spec } = slotted({ pitch: "10 mm", depth: 1.5, width: 0.8, from: -0.5, to: 1.5 });
    expect(spec.section.slots).toMatchObject({ count: 11, depth: 1.5, width: 0.8 });
    expect(spec.section.slots?.from).toBeCloseTo(-0.5 + 1.8 / 56.8, 12);
    expect(spec.section.slots?.to).toBeCloseTo(1.5 - 1.8 / 56.8, 12);
  });

  property.prop(
    [fc.constantFrom(...DEMO_NAMES), fc.integer({ min: 1, max: 120 }), fc.integer({ min: 0, max: 300 })],
    runs(150),
  )("slots round the whole ring make no jump anywhere", (name, count, share) => {
    const ring = { ...DEMO_RINGS[name], closedGap: (share / 10000) * DEMO_RINGS[name].bore };
    const { free } = slotted({ count, depth: 0.5, width: 0.01 }, ring);
    expect(free.theta.length).toBe(361);
    expect(Number.isFinite(free.gap)).toBe(true);
  });

  test.each([
    { from: -1, to: 1 + 4e-16 },
    { from: -1, to: 1 + 1e-9 },
    { to: 2 },
    { from: -2.5 },
    { from: 0.2, to: LIMIT },
    { from: 0.2, to: LIMIT - 1e-15 },
  ])("the ring closes with slots in the zone %j", (zone) => {
    for (let count = 3; count < 30; count += 4) {
      const design = slotted({ count, depth: 1.3, width: 0.4, ...zone });
      const { radialError, closedGap, forceResidual } = proveClosure(design);
      // Rounding and the integrator, as for plain rings.
      expect(radialError).toBeLessThan(2e-12 * FERRY.bore);
      expect(Math.abs(closedGap - FERRY.closedGap)).toBeLessThan(1e-11 * FERRY.bore);
      expect(forceResidual).toBeLessThan(2e-12);
    }
  });
});

describe("the closing stress", () => {
  const thin = { ...FERRY, theory: "thin" } as const;

  test("over slots is that of the net section, 6·M/(h·(a − d)²) in the thin theory", () => {
    const { stress, installed } = slotted({ count: 60, depth: 1.3, width: 0.7 }, thin);
    const M = Math.max(...installed.moment);
    expect(relativeError(stress.closing.max, (6 * M) / (H * (A - 1.3) ** 2))).toBeLessThan(1e-14);
    expect(stress.closing).toMatchObject({ overSlot: true, theta: 0 });
  });

  test("beyond the slots is that of the wall, and the larger of both counts", () => {
    // By hand, M ∝ 1 + cos θ: slots of 1.3 from 1 rad on raise 1.54/2 of the stress at the back by (4.4/3.1)² to 1.55 times
    // it, from 2 rad on 0.584/2 of it to 0.588 times.
    const near = slotted({ count: 20, depth: 1.3, width: 0.7, from: 1 }, thin).stress.closing;
    const far = slotted({ count: 10, depth: 1.3, width: 0.7, from: 2 }, thin).stress.closing;
    expect(far).toMatchObject({ overSlot: false, theta: 0 });
    expect(near).toMatchObject({ overSlot: true, theta: 1 });
    expect(near.max / far.max).toBeCloseTo(((1 + Math.cos(1)) / 2) * (4.4 / 3.1) ** 2, 2);
  });

  test("comes with a warning, since no notch is counted", () => {
    const { warnings } = slotted({ count: 60, depth: 1.3, width: 0.7 });
    expect(warnings.map(({ code }) => code)).toEqual(["slots"]);
    expect(warnings[0].message).toMatch(/notch/);
  });
});
