import { describe, expect, test } from "vitest";
import {
  conformability,
  fullContactAmplitude,
  semiEmpiricalAmplitude,
} from "../src/assess/conformability.js";
import { describePressure } from "../src/assess/describePressure.js";
import { describeSection } from "../src/assess/describeSection.js";
import { tapeEstimate } from "../src/assess/tapeEstimate.js";
import type { PressureSpec } from "../src/spec/ringSpec.js";
import { assembled } from "./assembled.js";
import { integral } from "./statics.js";

/** What a pressure and a section are like, for rings of the thin theory whose numbers are known in closed form. */

const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

const [E, a, h, R, FORCE] = [205000, 4.4, 2, 59, 20];
const r = R - a / 2;
const EI = (E * h * a ** 3) / 12;
const K = (FORCE * r * r) / EI;
const section = { shape: "rectangle", radialThickness: a, axialHeight: h } as const;
const thin = {
  section,
  material: { youngsModulus: E, poissonRatio: 0.3 },
  theory: "thin",
  closedGap: 0,
} as const;
const ringOf = (pressure: PressureSpec, closedGap = 0, extra: object = {}, steps = 60) =>
  assembled({ ...thin, closedGap, section: { ...section, ...extra } }, 2 * R, FORCE, { pressure, steps });
const cosines = (...cosine: number[]): PressureSpec => ({ shape: "harmonics", cosine });

describe("conformability", () => {
  test("by one number is K·r/(i² − 1)² and K·r/[20·(i² − 1)]", () => {
    near(fullContactAmplitude(0.02, 56.8, 4), (0.02 * 56.8) / 225, 1e-15);
    near(semiEmpiricalAmplitude(0.02, 56.8, 4), (0.02 * 56.8) / 300, 1e-15);
  });

  test("of one section goes by the lowest pressure, 1 − c at a right angle to the gap", () => {
    const ring = { ...ringOf(cosines(0.3)), stiffnessParameter: K };
    const { smallestLocal, theta, limits } = conformability(ring, [2, 5]);
    near(smallestLocal, 0.7 * K, 1e-12);
    near(Math.abs(theta), Math.PI / 2, 1e-12);
    expect(limits.map(({ order }) => order)).toEqual([2, 5]);
    for (const { order, fullContact, theta: first, uniform, semiEmpirical } of limits) {
      near(fullContact, (0.7 * K * r) / (order ** 2 - 1) ** 2, 1e-12);
      near(Math.abs(first), Math.PI / 2, 1e-12);
      near(uniform, (K * r) / (order ** 2 - 1) ** 2, 1e-15);
      near(semiEmpirical, (K * r) / (20 * (order ** 2 - 1)), 1e-15);
    }
    expect(conformability(ring).limits.map(({ order }) => order)).toEqual([
      2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12,
    ]);
  });

  test("of a varying wall counts slope and bend of E·I", () => {
    // a³ in proportion to 1 + 0.3·sin 2θ, so E·I has the slope 0.6·cos 2θ and the bend −1.2·sin 2θ; the slope is
    // steepest where the pressure is lowest.
    const wall = (t: number) => Math.cbrt(1 + 0.3 * Math.sin(2 * t));
    const ring = { ...ringOf(cosines(0.6), 0, { wall }), stiffnessParameter: K };
    const { smallestLocal, limits } = conformability(ring, [2, 4]);
    const local = ring.installed.theta.map(
      (t) => (K * (1 + 0.6 * Math.cos(2 * t))) / (1 + 0.3 * Math.sin(2 * t)),
    );
    near(smallestLocal, Math.min(...local), 1e-12);
    for (const { order, fullContact, theta } of limits) {
      const m = order ** 2 - 1;
      const at = (t: number) => {
        const change = Math.hypot(
          m * (1 + 0.3 * Math.sin(2 * t)) + 1.2 * Math.sin(2 * t),
          2 * order * 0.6 * Math.cos(2 * t),
        );
        return (K * r * (1 + 0.6 * Math.cos(2 * t))) / (m * change);
      };
      near(fullContact, at(theta), 1e-5 * fullContact);
      near(fullContact, Math.min(...ring.installed.theta.map(at)), 1e-5 * fullContact);
    }
  });

  test("over slots goes by their stiffness, whatever jumps where they end", () => {
    const slots = { count: 15, depth: 1.5, width: 0.6, from: -1, to: 1 };
    const ring = { ...ringOf({ shape: "uniform" }, 0, { slots }), stiffnessParameter: K };
    const share = ring.wall?.netShare[60] ?? 0;
    const softer = 1 + share * ((a / (a - 1.5)) ** 3 - 1);
    expect(softer).toBeGreaterThan(1.2);
    const { smallestLocal, theta, limits } = conformability(ring, [3]);
    near(smallestLocal, K, 1e-12);
    expect(Math.abs(theta)).toBeGreaterThanOrEqual(1);
    near(limits[0].fullContact, (K * r) / 64, 1e-12);
  });
});

describe("describePressure", () => {
  test("gives mean, extremes and amplitudes of a series", () => {
    const pressure: PressureSpec = { shape: "harmonics", cosine: [0.3], sine: [0, 0.2] };
    const ring = ringOf(pressure);
    const p = (t: number) => 1 + 0.3 * Math.cos(2 * t) + 0.2 * Math.sin(3 * t);
    const told = describePressure(ring, 5);
    near(told.mean, FORCE / (R * h), 1e-11);
    const { atBack, atGap, atLeftEnd, atRightEnd } = told.relative;
    for (const [found, t] of [
      [atBack, 0],
      [atGap, Math.PI],
      [atLeftEnd, -Math.PI],
      [atRightEnd, Math.PI],
    ])
      near(found, p(t), 1e-10);
    expect(told.harmonics.map(({ order }) => order)).toEqual([1, 2, 3, 4, 5]);
    for (const { order, cosine, sine } of told.harmonics) {
      // By polynomials of degree 7 over steps of 3°.
      near(cosine, order === 2 ? 0.3 : 0, 1e-9);
      near(sine, order === 3 ? 0.2 : 0, 1e-9);
    }
    const values = ring.installed.theta.map(p);
    near(told.lowest.relative, Math.min(...values), 1e-10);
    near(p(told.lowest.theta), told.lowest.relative, 1e-10);
    near(told.highest.relative, Math.max(...values), 1e-10);
    near(p(told.highest.theta), told.highest.relative, 1e-10);
    expect(describePressure(ring).harmonics.length).toBe(12);
  });

  test("takes the mean over the whole outer face, with a gap, and finds the pressure balanced", () => {
    const ring = ringOf(cosines(0.3), 20);
    const limit = Math.PI - Math.asin(20 / (2 * R));
    const wave = (t: number) => 1 + 0.3 * Math.cos(2 * t);
    const e =
      -integral((t) => wave(t) * Math.cos(t), -limit, limit) /
      integral((t) => Math.cos(t) ** 2, -limit, limit);
    const p = (t: number) => wave(t) + e * Math.cos(t);
    const told = describePressure(ring, 2);
    // The overhang of 0.006 rad beyond the last station has the pressure at that; what it varies there is 1e-5 of it.
    const mean = integral(p, -limit, limit) / (2 * limit);
    near(told.mean / (FORCE / (R * h)), mean, 3e-6);
    near(told.relative.atBack, p(0) / mean, 3e-6);
    near(told.harmonics[0].cosine, 0, 3e-5);
    near(
      told.harmonics[1].cosine,
      integral((t) => p(t) * Math.cos(2 * t), -limit, limit) / (Math.PI * mean),
      3e-5,
    );
  });

  test("names the back or the right one of equal places", () => {
    const level = ringOf({ shape: "uniform" });
    const one = level.installed.pressure.map(() => 1);
    const flat = describePressure({ ...level, installed: { ...level.installed, pressure: one } });
    expect([flat.lowest.theta, flat.highest.theta]).toEqual([0, 0]);
    const told = describePressure(ringOf(cosines(-0.3)));
    near(told.highest.theta, Math.PI / 2, 1e-12);
    near(describePressure(ringOf(cosines(0.3))).lowest.theta, Math.PI / 2, 1e-12);
  });
});

describe("a tape by the theory of small openings", () => {
  test.each([2, 3, 4, 5])("reads order %s in closed form", (order) => {
    const c = 0.2;
    const amplitudes = [2, 3, 4, 5].map((i) => (i === order ? c : 0));
    const { tangentialForce, ovality } = tapeEstimate(ringOf(cosines(...amplitudes)));
    // Worked, see there.
    const [m, sign] = [order ** 2 - 1, (-1) ** order];
    near(tangentialForce, FORCE * (1 - (c * sign) / (3 * m)), 1e-9);
    const oval = (1 + sign - 2 * Math.cos((order * Math.PI) / 2)) / m ** 2 + ((Math.PI / 3) * sign) / m;
    near(ovality, K * r * c * oval, 1e-9);
    expect(describePressure(ringOf(cosines(...amplitudes))).tape).toEqual({ tangentialForce, ovality });
  });

  test("reads Ft and no ovality under uniform pressure, whatever the wall", () => {
    for (const extra of [{}, { wall: (t: number) => 1 + 0.1 * Math.sin(t) }]) {
      const { tangentialForce, ovality } = tapeEstimate(ringOf({ shape: "uniform" }, 0, extra));
      near(tangentialForce, FORCE, 1e-12);
      near(ovality, 0, 1e-12);
    }
  });
});

describe("describeSection", () => {
  const contactPressure = FORCE / (R * h);
  const described = (extra: object, wear?: number[]) => {
    const ring = assembled({ ...thin, section: { ...section, shape: "profile", ...extra } }, 2 * R, FORCE);
    return describeSection({ ...ring, load: { ...ring.load, contactPressure } }, wear);
  };

  test("of a rectangle has no twist, and a face as high as the ring", () => {
    const { profile, properties, twist, face } = described({});
    expect(profile.length).toBe(4);
    near(properties.area, 8.8, 1e-14);
    expect([twist.acrossFace, twist.softening].map(Math.abs)).toEqual([0, 0]);
    expect(face.map(({ wear }) => wear)).toEqual([0.001, 0.002, 0.005, 0.01, 0.02]);
    for (const { land, pressure } of face) {
      near(land, h, 1e-12);
      near(pressure, contactPressure, 1e-12);
    }
  });

  test("of a right triangle twists by r·M·Jxy/(E·(Jx·Jy − Jxy²)), the way a bevel inside above does", () => {
    // Handbook, right triangle h × a, corner inside below: J = h·a³/36, a·h³/36 and, with the slope inside above, +h²·a²/72.
    const outline = [
      { x: 0, y: 0 },
      { x: h, y: a },
      { x: 0, y: a },
    ];
    const [Jx, Jy, Jxy] = [(h * a ** 3) / 36, (a * h ** 3) / 36, (h * h * a * a) / 72];
    const { twist } = described({ outline });
    const angle = (r * FORCE * r * Jxy) / (E * (Jx * Jy - Jxy ** 2));
    near(twist.angle / angle, 1, 1e-12);
    near(twist.acrossFace / (angle * h), 1, 1e-12);
    // Jxy²/(Jx·Jy) = 36²/72².
    near(twist.softening, 0.25, 1e-12);
    expect(
      described({ inner: { shape: "bevel", side: "top", depth: 1, height: 1 } }).twist.angle,
    ).toBeGreaterThan(0);
    expect(
      described({ inner: { shape: "bevel", side: "bottom", depth: 1, height: 1 } }).twist.angle,
    ).toBeLessThan(0);
    // Symmetric but for rounding.
    expect(Math.abs(described({ face: { shape: "barrel", drop: 0.01 } }).twist.angle)).toBe(0);
  });

  test("of a worn taper has a land of wear/tan, that bears the whole force", () => {
    const { face } = described({ face: { shape: "taper", angle: Math.atan(0.02) } }, [0.01, 0.03]);
    for (const [k, land] of [0.5, 1.5].entries()) {
      near(face[k].wear, land * 0.02, 1e-15);
      near(face[k].land, land, 1e-12);
      near(face[k].pressure, (contactPressure * h) / land, 1e-12);
    }
  });

  test.each([0, -1, a, Number.NaN])("refuses a wear of %s", (wear) => {
    expect(() => described({}, [0.01, wear])).toThrow(
      /^wear\.1.*must be above 0 and less than the wall, 4\.4 mm/,
    );
  });
});
