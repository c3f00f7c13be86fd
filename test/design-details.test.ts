import { describe, expect, test } from "vitest";
import type { BarLaw } from "../src/curvature/law.js";
import { thinLaw } from "../src/curvature/thin.js";
import { designRing } from "../src/design/designRing.js";
import { largestBending, meanFlexibility } from "../src/design/flexibility.js";
import { type LoadCase, tangentialForceOf } from "../src/design/load.js";
import { checkLowestPressure } from "../src/design/lowestPressure.js";
import { specOfWall, wallStations } from "../src/design/wallTable.js";
import { warningsFor } from "../src/design/warnings.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { internalForces } from "../src/forces/internalForces.js";
import { joinedBy } from "../src/forces/mirror.js";
import { halfStations } from "../src/forces/stations.js";
import { balancedPressure } from "../src/pressure/balanced.js";
import { SpecError } from "../src/spec/error.js";
import type { Load, PressureSpec, RingSpec } from "../src/spec/ringSpec.js";
import { closingStress } from "../src/stress/closing.js";
import { assembled } from "./assembled.js";

/** The design's own parts, each with numbers worked by hand, and the whole against its parts. */

const near = (found: number, expected: number, tolerance = 1e-13) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

const section = { shape: "rectangle", radialThickness: 4.4, axialHeight: 2 } as const;
const ferry: RingSpec = {
  ...{ bore: 118, closedGap: 0.45, section, theory: "curved", stations: 60 },
  material: { youngsModulus: 205000, poissonRatio: 0.3 },
  load: { contactPressure: 0.15 },
  pressure: { shape: "uniform" },
};

describe("tangentialForceOf", () => {
  /** Gaps that grow faster than the force, up to 100 N, where they are 1 + 3·100 + 0.01·100² = 401 mm. */
  const gapAt = (force: number) => 1 + 3 * force + 0.01 * force ** 2;
  const ring: LoadCase = { faceArea: 50, radius: 40, largestForce: 100, largestK: 0.5, straightAt: 0, gapAt };
  const forceOf = (load: Load, change: Partial<LoadCase> = {}) =>
    tangentialForceOf({ ...ferry, closedGap: 1, load }, { ...ring, ...change });

  test("takes a force as it is and a pressure times R·h", () => {
    expect(forceOf({ tangentialForce: 7 })).toBe(7);
    expect(forceOf({ contactPressure: 0.2 })).toBe(10);
    expect(forceOf({ tangentialForce: 100 })).toBe(100);
    expect(forceOf({ contactPressure: 2 })).toBe(100);
  });

  test("refuses more than the largest, and says why", () => {
    expect(() => forceOf({ tangentialForce: 100.1 })).toThrow(
      /^load\.tangentialForce.*must be at most 100\.000 N for this ring, where K = Ft·r²\/\(E·I\) reaches 0\.500 and its back would be straight when free/,
    );
    expect(() => forceOf({ contactPressure: 2.01 }, { straightAt: 1.25 })).toThrow(
      /^load\.contactPressure.*must be at most 2\.00000 MPa .* and it, 1\.250 rad from the back, would be straight/,
    );
    expect(() => forceOf({ freeGap: 401.1 })).toThrow(
      /^load\.freeGap.*must be at most 401\.000 mm .*its back would/,
    );
    expect(() => forceOf({ tangentialForce: Number.NaN })).toThrow(SpecError);
    expect(() => forceOf({ freeGap: Number.NaN })).toThrow(SpecError);
  });

  test.each([
    ["a parabola", gapAt],
    ["a root", (force: number) => 1 + 40 * Math.sqrt(force)],
    ["a steep end", (force: number) => 1 + force + 400 * (force / 100) ** 9],
    ["a line", (force: number) => 1 + 4 * force],
  ])("finds the force for a free gap along %s", (_, at) => {
    for (const force of [1e-6, 0.3, 20, 77, 100]) {
      const found = forceOf({ freeGap: at(force) }, { gapAt: at });
      near(found / force, 1, 1e-8);
    }
  });

  test("asks for the gap but a few times", () => {
    let asked = 0;
    forceOf({ freeGap: gapAt(20) }, { gapAt: (force) => gapAt(force) + 0 * asked++ });
    expect(asked).toBeLessThan(12);
  });
});

describe("along a ring whose wall varies", () => {
  const stations = halfStations(Math.PI, 40);
  const bar = (flexibility: (t: number) => number, shearSlope?: number[]) => ({
    walls: stations.theta.map(() => ({ thickness: 4 })),
    laws: stations.theta.map((t): BarLaw => thinLaw(flexibility(t))),
    ...(shearSlope && { shearSlope }),
  });
  const forces = (moment: (t: number) => number) => ({
    pressure: [],
    shear: [],
    moment: stations.theta.map(moment),
  });

  test("largestBending is that of |M|/(E·I), wherever", () => {
    const even = bar(() => 2);
    const uniform = forces((t) => 1 + Math.cos(t));
    expect(largestBending({ left: uniform, right: uniform }, { left: even, right: even }, stations)).toEqual({
      bending: 4,
      theta: 0,
    });
    // Twice as soft on the left at 0.5 rad and more: (1 + cos θ)·4 is largest where that begins.
    const soft = bar((t) => (t > 0.5 ? 4 : 2));
    const begins = stations.theta.find((t) => t > 0.5) ?? 0;
    const found = largestBending({ left: uniform, right: uniform }, { left: soft, right: even }, stations);
    near(found.theta, -begins);
    near(found.bending, 4 * (1 + Math.cos(begins)));
    // As soft on both sides, alike or not: the right one is named.
    expect(
      largestBending({ left: uniform, right: uniform }, { left: soft, right: { ...soft } }, stations).theta,
    ).toBe(begins);
    expect(
      largestBending({ left: uniform, right: uniform }, { left: soft, right: soft }, stations).theta,
    ).toBe(begins);
    // A moment that opens counts too; unlike forces on one bar.
    const opening = forces((t) => -3 * Math.sin(t));
    const other = largestBending({ left: opening, right: uniform }, { left: even, right: even }, stations);
    near(other.theta, -Math.PI / 2);
    near(other.bending, 6);
  });

  test("meanFlexibility is weighted with (1 + cos θ)²", () => {
    const even = bar(() => 2);
    expect(meanFlexibility({ left: even, right: even }, stations)).toBe(2);
    // ∫(1 + cos θ)² = 3π/2 over 0 … π; with cos θ: ∫(cos + 2·cos² + cos³) = π. So f = 2 + cos θ has the mean 2 + 2/3.
    const slopes = stations.theta.map(() => 0);
    const varied = bar((t) => 2 + Math.cos(t), slopes);
    near(meanFlexibility({ left: varied, right: varied }, stations), 2 + 2 / 3, 1e-9);
    near(meanFlexibility({ left: bar(() => 5, slopes), right: varied }, stations), (5 + 2 + 2 / 3) / 2, 1e-9);
  });

  test("wallStations are thickness, taper and share from end to end", () => {
    const bars = {
      left: { laws: [], walls: [{ thickness: 4 }, { thickness: 3, taper: 0.1 }] },
      right: { laws: [], walls: [{ thickness: 4 }, { thickness: 5, slotted: { net: 3, share: 0.25 } }] },
    };
    const expected = { thickness: [3, 4, 5], taper: [0.1, 0, 0], netShare: [0, 0, 0.25] };
    expect(wallStations(bars, undefined)).toEqual({ ...expected, slotDepth: 0 });
    const slots = { count: 3, depth: 2, width: 0.5, from: 0, to: 1 };
    expect(wallStations(bars, slots)).toEqual({ ...expected, slotDepth: 2 });
  });

  test("specOfWall tells the wall once at each angle, over the nominal one", () => {
    const wall = { thickness: [4.4, 2.2, 2.2, 3.3], taper: [], netShare: [], slotDepth: 0 };
    const told = specOfWall(ferry, [-1, 0, 0, 2], wall);
    expect(told.section.wall).toEqual({ angle: [-1, 0, 2], relative: [1, 0.5, 3.3 / 4.4] });
    expect({ ...told, section }).toEqual(ferry);
  });
});

describe("checkLowestPressure", () => {
  const geometry = closedGeometry(118, 4.4, 0);
  const stations = halfStations(geometry.centroidLimit, 60);
  const theta = joinedBy({ left: stations, right: stations }, (half) => half.theta, -1);
  const check = (wanted: PressureSpec, allowed?: boolean) => {
    const pressure = balancedPressure(wanted, geometry.loadLimit);
    const forces = internalForces(pressure, geometry.loadLimit, stations);
    return checkLowestPressure({ ...ferry, pressure: wanted }, geometry, pressure, theta, forces, allowed);
  };

  test("passes what is nowhere negative, nil included", () => {
    expect(check({ shape: "uniform" })).toBeUndefined();
    expect(check({ shape: "harmonics", cosine: [1] })).toBeUndefined();
    expect(check({ shape: "lessAtGap", strength: 1 })).toBeUndefined();
  });

  test("refuses what is, with value and place, or tells it", () => {
    // 1 + 1.5·cos 2θ is −0.5 at ±90°.
    const wanted: PressureSpec = { shape: "harmonics", cosine: [1.5] };
    expect(() => check(wanted)).toThrow(
      /^pressure.*must not be negative anywhere; it is -0\.5000·p0 at -?1\.5708 rad \(-?90\.0°\) from the back as ordered/,
    );
    const told = check(wanted, true);
    near(told?.relative ?? 0, -0.5, 1e-12);
    near(Math.abs(told?.theta ?? 0), Math.PI / 2, 1e-7);
    expect(() => check(wanted, false)).toThrow(SpecError);
  });

  test("says when only the balance makes it negative", () => {
    // All of it on the right: the balance takes much away there.
    const angle = [-4, -2, 0, 2, 4].map((quarter) => (quarter * Math.PI) / 4);
    expect(() => check({ shape: "sampled", angle, relative: [0.01, 0.01, 0.01, 3, 0.01] })).toThrow(
      /once the first harmonic that balances it, -?\d\.\d{4}·cos θ \+ -\d\.\d{4}·sin θ, is added/,
    );
    // A table of one half has no sine.
    expect(() =>
      check({ shape: "sampled", angle: [0, 1, 2, Math.PI], relative: [3, 0.01, 0.01, 0.01] }),
    ).toThrow(/once the first harmonic that balances it, -\d\.\d{4}·cos θ, is added/);
  });

  test("says so when it is negative as ordered, though the balance raises it there", () => {
    // Much on one side, and on the other a narrow dip.
    const angle = [-4, -3, -2, -1, 0, 1, 1.8, 2, 2.2, 3, 4].map((quarter) => (quarter * Math.PI) / 4);
    const relative = [1, 1.5, 2, 1.5, 1, 1, 1, -0.8, 1, 1, 1];
    expect(() => check({ shape: "sampled", angle, relative })).toThrow(
      /it is -0\.2384·p0 at 1\.5708 rad .* as ordered/,
    );
  });

  test("refuses samples without a mean", () => {
    const angle = [0, 1, Math.PI];
    expect(() => check({ shape: "sampled", angle, relative: [-1, -1, -1] })).toThrow(
      /^pressure\.relative.*must have a mean above 0/,
    );
    expect(() => check({ shape: "sampled", angle, relative: [0, 0, 0] }, true)).toThrow(
      /must have a mean above 0/,
    );
  });

  test("tells the largest strength at the gap, rounded down", () => {
    // Worked: the least of the bump is −0.4922826, 48.1° from the gap, so 1 + strength·bump is nil at 2.031354.
    for (const strength of [2.04, 3, 8]) {
      expect(() => check({ shape: "moreAtGap", strength })).toThrow(
        /^pressure\.strength.*must be at most 2\.031 for this ring, where the pressure is nil at -?2\.30\d\d rad \(-?13[12]\.\d°\)/,
      );
    }
    expect(() => check({ shape: "lessAtGap", strength: 1.5 })).toThrow(
      /must be at most (1|0\.999) for this ring/,
    );
  });
});

describe("warningsFor", () => {
  const stress = (max: number) => ({ max, theta: 0, outer: max, inner: -max, overSlot: false });
  const r = 56.8;
  const codes = (change: Partial<RingSpec>, max = 100, radius = r) =>
    warningsFor({ ...ferry, ...change }, radius, stress(max), undefined).map(({ code }) => code);

  test("nothing of a usual ring", () => {
    expect(codes({})).toEqual([]);
  });

  test("a stress over the limit", () => {
    const material = { ...ferry.material, stressLimit: 100 };
    expect(codes({ material })).toEqual([]);
    const [warning] = warningsFor({ ...ferry, material }, r, stress(100.6), undefined);
    expect(warning.code).toBe("stress-over-limit");
    expect(warning.message).toMatch(/stress 101 MPa is over the material's limit of 100 MPa/);
  });

  test("a strain over 1 %", () => {
    expect(codes({}, 2050)).toEqual([]);
    const [warning] = warningsFor(ferry, r, stress(2460), undefined);
    expect(warning.code).toBe("large-strain");
    expect(warning.message).toMatch(/strains the faces by 1\.2 %/);
  });

  test("a wall over a sixth of the radius", () => {
    expect(codes({}, 100, 26.401)).toEqual([]);
    const [warning] = warningsFor(ferry, 22, stress(100), undefined);
    expect(warning.code).toBe("thick-wall");
    expect(warning.message).toMatch(/a\/r = 0\.200/);
  });

  test("a section taller than √(r·a)", () => {
    const tall = (axialHeight: number) => ({ section: { ...section, axialHeight } });
    // √(56.8·4.4) = 15.81.
    expect(codes(tall(15.8))).toEqual([]);
    const [warning] = warningsFor({ ...ferry, ...tall(20) }, r, stress(100), undefined);
    expect(warning.code).toBe("tall-section");
    // 400/249.92 and 1/(1 − 0.09) − 1.
    expect(warning.message).toMatch(/h²\/\(r·a\) = 1\.60.*stiffer by up to 10 %/);
  });

  test("ends that touch, a negative pressure, and slots", () => {
    const [touching] = warningsFor({ ...ferry, closedGap: 0 }, r, stress(100), undefined);
    expect(touching.code).toBe("ends-touch");
    expect(touching.message).toMatch(/the ends touch when cold/);
    const [negative] = warningsFor(ferry, r, stress(100), { relative: -0.25, theta: 1 });
    expect(negative.code).toBe("negative-pressure");
    expect(negative.message).toMatch(/-0\.2500·p0 at 1\.0000 rad/);
  });
});

describe("designRing", () => {
  const order = { ...ferry, stations: 60, load: { contactPressure: 0.15 } };

  test("is its steps put together", () => {
    const { spec, ...parts } = assembled(ferry, 118, 0.15 * 59 * 2, { steps: 60 });
    const design = designRing(order);
    expect(design.installed).toEqual(parts.installed);
    expect(design.free).toEqual(parts.free);
    expect(design.ends).toEqual(parts.ends);
    expect(design.outline).toEqual(parts.outline);
    expect(design.spec.section).toEqual(spec.section);
    expect(design.wall).toBeUndefined();
    expect(design.proof).toBeUndefined();
    near(design.load.tangentialForce, 17.7);
    near(design.load.contactPressure, 0.15);
    expect(design.load.freeGap).toBe(design.free.gap);
    expect(design.load.balanceSine).toBe(0);
    near(design.stiffnessParameter, (17.7 * 56.8 ** 2 * 12) / (205000 * 2 * 4.4 ** 3));
    expect(design.warnings).toEqual([]);
  });

  test("with walls, slots and another pressure on either side, too", () => {
    const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);
    const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
    const pressure = { shape: "harmonics" as const, cosine: [0.1], sine: [0.2] };
    const varied = { ...order, section: { ...section, wall, slots }, pressure };
    const { spec: _, ...parts } = assembled({ ...ferry, section: { ...section, wall, slots } }, 118, 17.7, {
      steps: 60,
      pressure,
    });
    const design = designRing(varied, { proof: true });
    expect(design.installed).toEqual(parts.installed);
    expect(design.free).toEqual(parts.free);
    expect(design.ends).toEqual(parts.ends);
    expect(design.wall).toEqual(parts.wall);
    expect(design.outline.slots?.length).toBe(25);
    // The slots begin on the inner face: theirs in the middle of the row, at 0.75 rad, as far from the outer face as the wall is thick.
    const [one, , , other] = design.outline.slots?.[12] ?? [];
    const middle = [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2];
    const apart = design.outline.outer.map(([x, y]) => Math.hypot(x - middle[0], y - middle[1]));
    // Stations are 3° apart, so that the nearest is at most 1.5 mm aside.
    expect(Math.abs(Math.min(...apart) - 4.4 * wall(0.75))).toBeLessThan(0.3);
    expect(design.stress.closing).toEqual(
      closingStress(design.spec, design.installed, design.free.curvature, design.wall),
    );
    // The wall as a table.
    expect(typeof design.spec.section.wall).toBe("object");
    near(design.proof?.closedGap ?? 0, 0.45, 1e-5);
    expect(design.load.balanceSine).not.toBe(0);
    expect(design.warnings.map(({ code }) => code)).toEqual(["slots"]);
    expect(design.warnings[0].message).toMatch(/notch effect/);
  });

  test("keeps slots and tables of the wall as they were ordered", () => {
    const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
    expect(designRing({ ...order, section: { ...section, slots } }).spec.section).toEqual({
      ...section,
      slots,
    });
    const table = { angle: [0, 1, 3.14], relative: [1, 1.05, 0.95] };
    expect(designRing({ ...order, section: { ...section, wall: table } }).spec.section.wall).toEqual(table);
  });

  test("by free gap, force or pressure, is the same ring", () => {
    const { load } = designRing(order);
    for (const one of [{ tangentialForce: load.tangentialForce }, { freeGap: load.freeGap }]) {
      const again = designRing({ ...order, load: one });
      near(again.load.contactPressure, 0.15, 1e-12);
      near(again.load.freeGap, load.freeGap, 1e-12);
    }
  });

  test("goes on under a negative pressure only when told to", () => {
    const wanted = { ...order, pressure: { shape: "harmonics" as const, cosine: [1.5] } };
    expect(() => designRing(wanted)).toThrow(SpecError);
    expect(designRing(wanted, { allowNegativePressure: true }).warnings.map(({ code }) => code)).toEqual([
      "negative-pressure",
    ]);
  });

  test("refuses a ring that would be straight at its back, K = 1/2 without a gap", () => {
    // Ft = E·I/(2·r²).
    const largest = (205000 * 2 * 4.4 ** 3) / 24 / 56.8 ** 2;
    const by = (tangentialForce: number) => () =>
      designRing({ ...order, closedGap: 0, load: { tangentialForce } });
    expect(by(1.001 * largest)).toThrow(
      /load\.tangentialForce.*reaches 0\.500 and its back would be straight/,
    );
    expect(by(0.999 * largest)).not.toThrow();
  });
});
