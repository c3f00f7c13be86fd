import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import {
  type BoreInput,
  closeInBore,
  designRing,
  fullContactAmplitude,
  type GivenRing,
  type RingSpecInput,
} from "../src/index.js";
import { integrateTable } from "../src/numeric/integrateTable.js";
import { DEMO_RINGS, relativeError, runs } from "./rings.js";

/**
 * Rings in bores that are not their own: Müller's limit of full contact; what a pressure behind the ring and a wider,
 * narrower, turned, mirrored or shifted bore do; and what steps leave.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const inner = (values: readonly number[], ends: number) => values.slice(ends, values.length - ends);
const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));
const apart = (one: readonly number[], other: readonly number[]) =>
  largest(one.map((value, i) => value - other[i]));

describe("Müller's limit K·r/(i² − 1)²", () => {
  // R. Müller, MTZ 31 (1970) (from memory; worked again in conformability.test.ts): a thin ring under uniform pressure.
  const thin = designRing({ ...FERRY, theory: "thin" });
  const { stiffnessParameter, installed } = thin;

  test.each([3, 4, 5, 6, 7, 8])(
    "of order %d decides between full contact and lifting round the back",
    (order) => {
      const limit = fullContactAmplitude(stiffnessParameter, installed.centroidRadius, order);
      // A trough at the gap.
      const phase = order % 2 === 0 ? Math.PI : 0;
      const at = (share: number) => {
        const bore = {
          harmonics: [{ order, amplitude: share * limit, phase }],
        };
        const closure = closeInBore(thin, bore, { stations: 360 });
        const back = closure.theta.flatMap((theta, i) => (Math.abs(theta) < Math.PI / 2 ? [i] : []));
        return {
          lowest: Math.min(...back.map((i) => closure.pressure[i])) / thin.load.contactPressure,
          widest: Math.max(...back.map((i) => closure.clearance[i])),
        };
      };
      // Of p₀ the amplitude leaves 1 %. Steps take i²·step²/6 = 8e-4 off the wave at order 8, and the nearest node may stand
      // half a step off its crest, as much again; the gap's first harmonic is 5e-4 (ratio of gap to bore over π).
      const below = at(0.99);
      expect(Math.abs(below.lowest - 0.01)).toBeLessThan(0.003);
      expect(below.widest).toBeLessThan(1e-15);
      const above = at(1.01);
      // Nodes that carry nothing, and the clearance over a lifted arc: 1 % too much is 1e-9 mm and more, far above 1e-15.
      expect(above.lowest).toBeLessThan(1e-9);
      expect(above.widest).toBeGreaterThan(1e-10);
    },
  );
});

describe("the ferry ring", () => {
  const ferry = designRing(FERRY);
  const own = closeInBore(ferry);
  const lobes: BoreInput = {
    harmonics: [
      { order: 3, amplitude: 0.02, phase: 0.8 },
      { order: 5, amplitude: -0.004, phase: -1 },
    ],
  };
  const one = closeInBore(ferry, lobes);
  /** Pressures of nodes near edges of contact are good to the root of force times clearance: 1e-7 of p₀. */
  const SAME = 1e-7 * 0.15;

  property.prop([fc.integer({ min: 1, max: 500 })], runs(10))(
    "under a pressure behind it presses by the share inner/outer radius more, everywhere",
    (tenths) => {
      const closure = closeInBore(ferry, { backPressure: tenths / 10 });
      const added = (tenths / 10) * (54.6 / 59);
      for (const [i, p] of inner(closure.pressure, 1).entries()) {
        // Full contact before and after, so w does not change and forces add up to rounding.
        expect(relativeError(p - inner(own.pressure, 1)[i], added)).toBeLessThan(1e-10);
      }
    },
  );

  test("has more gap in a wider bore and less in a narrower: by the circumference, less the ring's way off it", () => {
    for (const diameter of [117.9, 117.95, 118.02, 118.05, 118.2]) {
      const { closedGap, clearance, theta, facesAngle, endsTouch } = closeInBore(ferry, { diameter });
      const off = integrateTable(theta, clearance, theta[0], theta[theta.length - 1]);
      const expected = FERRY.closedGap + Math.PI * (diameter - 118) - off;
      // Chord for arc, (s/d)²/24 of the gap, and the ends' clearance times the gap's angle: 1e-2 mm · 0.01.
      expect(Math.abs(closedGap - expected)).toBeLessThan(1.5e-4);
      expect(Math.sign(facesAngle)).toBe(Math.sign(diameter - 118));
      expect(endsTouch).toBe(false);
    }
    // 0.45 mm over π is 0.143 mm; the bore takes an arc from either end before that.
    expect(() => closeInBore(ferry, { diameter: 117.8 })).toThrow(/bore\.diameter/);
  });

  test("is in a wider or narrower bore what it was designed for, when it was designed for that", () => {
    // One line of one length: a design for another bore, told as a ring of 118 mm whose angles shrink with the radius.
    for (const diameter of [117.9, 119]) {
      const r = (diameter - 4.4) / 2;
      const design = designRing({
        ...FERRY,
        bore: diameter,
        closedGap: 0.45 + Math.PI * (diameter - 118),
        theory: "thin",
      } as RingSpecInput);
      const theta = design.free.theta.map((at) => (at * r) / 56.8);
      const closedGap = 2 * 56.8 * Math.sin(Math.PI - theta[theta.length - 1]);
      const told: GivenRing = {
        spec: { ...design.spec, bore: 118, closedGap },
        free: { ...design.free, theta },
      };
      const closure = closeInBore(told, { diameter });
      // Differences as in `missed`, thin theory: the balancing harmonic alone.
      expect(apart(inner(closure.pressure, 5), inner(design.installed.pressure, 5))).toBeLessThan(1e-5);
      expect(Math.abs(closure.closedGap - design.spec.closedGap)).toBeLessThan(1e-11);
      expect(closure.contactShare).toBe(1);
    }
  });

  test("turned by an angle in a bore meets its harmonics with their phases turned back by order times that", () => {
    for (const rotation of [0.5, -1.1]) {
      const turned = closeInBore(ferry, { ...lobes, rotation });
      const shifted = lobes.harmonics?.map((h) => ({
        ...h,
        phase: (h.phase as number) - h.order * rotation,
      }));
      const wound = shifted?.map((h) => ({ ...h, phase: Math.atan2(Math.sin(h.phase), Math.cos(h.phase)) }));
      const other = closeInBore(ferry, { harmonics: wound });
      expect(apart(turned.pressure, one.pressure)).toBeGreaterThan(0.15);
      expect(apart(turned.pressure, other.pressure)).toBeLessThan(SAME);
      expect(apart(turned.clearance, other.clearance)).toBeLessThan(1e-9);
    }
  });

  test("lies in the mirror image of a bore as the mirror image of itself", () => {
    const image = closeInBore(ferry, {
      harmonics: lobes.harmonics?.map((h) => ({ ...h, phase: -(h.phase as number) })),
    });
    expect(apart([...image.pressure].reverse(), one.pressure)).toBeLessThan(SAME);
    expect(apart([...image.clearance].reverse(), one.clearance)).toBeLessThan(1e-9);
    expect(apart([...image.moment].reverse(), one.moment)).toBeLessThan(1e-7 * largest(one.moment));
    expect(Math.abs(image.closedGap - one.closedGap)).toBeLessThan(1e-9);
    expect(image.lightGaps).toHaveLength(one.lightGaps.length);
    for (const [k, gap] of [...image.lightGaps].reverse().entries()) {
      expect(gap.from).toBeCloseTo(-one.lightGaps[k].to, 7);
      expect(gap.to).toBeCloseTo(-one.lightGaps[k].from, 7);
    }
  });

  property.prop([fc.integer({ min: -314, max: 314 }), fc.integer({ min: 1, max: 500 })], runs(10))(
    "is only moved by a first harmonic",
    (hundredths, microns) => {
      const shift = [{ order: 1, amplitude: microns / 1000, phase: hundredths / 100 }];
      const moved = closeInBore(ferry, { harmonics: shift });
      // A rigid shift has no curvature but for rounding of w by 1/step², times E·I over p₀·h·R·r·step²: 1e-6 for 0.5 mm.
      expect(apart(moved.pressure, own.pressure)).toBeLessThan(1e-6 * 0.15);
      expect(moved.contactShare).toBe(1);
      // The gap: e²/r to second order, and trapezoids under w, step²·e/6.
      const e = microns / 1000;
      expect(Math.abs(moved.closedGap - FERRY.closedGap)).toBeLessThan(e ** 2 / 56.8 + 5.1e-5 * e);
    },
  );

  test("has a share of contact that settles as steps are made finer", () => {
    const bore: BoreInput = { harmonics: [{ order: 4, amplitude: 0.03, phase: 0.4 }] };
    const share = (stations: number) => closeInBore(ferry, bore, { stations }).contactShare;
    const fine = share(1440);
    expect(fine).toBeGreaterThan(0.1);
    expect(fine).toBeLessThan(0.3);
    // An edge of contact falls on a node: ten ends of arcs, each off by a small part of a step (π/n of 2π).
    for (const n of [45, 90, 180, 360, 720]) expect(Math.abs(share(n) - fine)).toBeLessThan(0.1 / n);
  });
});

test("Angles of a bore may be counted from 0 to 360° as from −180 to 180°", () => {
  const ring = designRing({ ...DEMO_RINGS["ferry 118 mm"], stations: 60 });
  const from = (start: number) => Array.from({ length: 36 }, (_, k) => start + 10 * k);
  const samples = (angles: readonly number[]) => ({
    angle: angles.map((degrees) => `${degrees} deg`),
    deviation: angles.map((degrees) => 0.004 * Math.cos((3 * degrees * Math.PI) / 180)),
  });
  const [half, whole] = [-180, 0].map((start) => closeInBore(ring, { samples: samples(from(start)) }));
  for (const [i, p] of half.pressure.entries()) expect(whole.pressure[i]).toBeCloseTo(p, 9);
  const turned = ["-90 deg", "270 deg"].map(
    (rotation) => closeInBore(ring, { samples: samples(from(0)), rotation }).closedGap,
  );
  expect(turned[1]).toBeCloseTo(turned[0], 10);
});
