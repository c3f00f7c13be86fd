import { describe, expect, test } from "vitest";
import { asDesign } from "../src/contact/asDesign.js";
import { checkTables } from "../src/contact/checkTables.js";
import { closeInBore } from "../src/contact/closeInBore.js";
import { closedBody, freeShape, type GivenRing, ringOfCurvature } from "../src/contact/givenRing.js";
import { nodesOf } from "../src/contact/nodes.js";
import { type MadePressure, pressureOf } from "../src/contact/pressureOf.js";
import { stationLaws } from "../src/curvature/lawsAlong.js";
import { closedGeometry } from "../src/forces/geometry.js";
import type { BodySpec, PressureSpec } from "../src/spec/ringSpec.js";
import { closingStress } from "../src/stress/closing.js";
import { assembled } from "./assembled.js";
import { near, refusalOf } from "./judging.js";

/** Rings given by their free curvature, the pressure they make and what they are as designs, by hand. */

const [bore, a, h, E, FORCE, HALF] = [118, 4.4, 2, 205000, 20, 40];
const [R, r] = [bore / 2, (bore - a) / 2];
const EI = (E * h * a ** 3) / 12;
const face = h * R * r;
const section = { shape: "rectangle", radialThickness: a, axialHeight: h } as const;
const material = { youngsModulus: E, poissonRatio: 0.3 };
const bodyOf = (change: Partial<BodySpec> = {}): BodySpec => ({
  ...{ section, material, theory: "curved", closedGap: 3, bore, stations: HALF },
  ...change,
});
const designed = (change: Partial<BodySpec> = {}, pressure: PressureSpec = { shape: "uniform" }) => {
  const spec = bodyOf(change);
  return { ...assembled(spec, bore, FORCE, { steps: HALF, pressure }), spec };
};
/** A thin ring without a gap whose moment is M(θ). */
const bent = (moment: (t: number) => number): GivenRing => {
  const spec = bodyOf({ theory: "thin", closedGap: 0 });
  const theta = Array.from({ length: 2 * HALF + 1 }, (_, i) => Math.PI * (i / HALF - 1));
  return { spec, free: { theta, curvature: theta.map((t) => 1 / r - moment(t) / EI) } };
};
const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);
const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
const sines: PressureSpec = { shape: "harmonics", cosine: [0.2], sine: [0.15, -0.1] };

describe("the tables of a given ring", () => {
  const geometry = closedGeometry(bore, a, 3);
  const limit = geometry.centroidLimit;
  const tables = (half = HALF) => ({
    theta: Array.from({ length: 2 * half + 1 }, (_, i) => limit * (i / half - 1)),
    curvature: Array.from({ length: 2 * half + 1 }, () => 1 / 60),
  });
  const check = (
    spoil: (free: { theta: number[]; curvature: number[] }) => unknown,
    half = HALF,
    wallOf?: GivenRing["wall"],
  ) => {
    const free = tables(half);
    spoil(free);
    checkTables({ spec: bodyOf(), free, ...(wallOf && { wall: wallOf }) }, geometry);
  };

  test("are good when they just cover the ring with eighteen angles", () => {
    expect(() => check(() => {})).not.toThrow();
    expect(() => check(({ theta }) => theta.splice(0, 1, -limit + 9e-7))).not.toThrow();
    expect(() => check(({ theta }) => theta.splice(80, 1, limit + 9e-7))).not.toThrow();
    // Nineteen, one of them twice; and curvatures of ten over the radius.
    expect(() => check(({ theta }) => theta.splice(5, 1, theta[4]), 9)).not.toThrow();
    expect(() => check(({ curvature }) => curvature.splice(5, 2, 9.999 / r, -9.999 / r))).not.toThrow();
  });

  type Tables = { theta: number[]; curvature: number[] };
  const ends = /^must run from end to end, -3\.115181 to 3\.115181 rad from the back$/;
  const finite = /^must be a finite number in 1\/mm, from -0\.176 to 0\.176$/;
  test.each<[string, (free: Tables) => unknown, string, unknown, RegExp]>([
    ["a value too few", ({ curvature }) => curvature.pop(), "curvature", expect.any(Array), /81.* has 80$/],
    ["no number", ({ curvature }) => curvature.fill(Number.NaN, 7, 8), "curvature.7", Number.NaN, finite],
    ["too sharp a bend", ({ curvature }) => curvature.fill(0.1762, 0, 1), "curvature.0", 0.1762, finite],
    [
      "too sharp a bend back",
      ({ curvature }) => curvature.fill(-0.1762, 80),
      "curvature.80",
      -0.1762,
      finite,
    ],
    [
      "an angle that is none",
      ({ theta }) => theta.fill(Number.NEGATIVE_INFINITY, 0, 1),
      "theta.0",
      Number.NEGATIVE_INFINITY,
      /^must be a finite number of radians$/,
    ],
    [
      "an angle below the one before",
      ({ theta }) => theta.splice(4, 2, -2, -2.5),
      "theta.5",
      -2.5,
      /^must not be below the angle before it, -2$/,
    ],
    ["a left end off", ({ theta }) => theta.fill(-limit + 2e-6, 0, 1), "theta", -limit + 2e-6, ends],
    ["a left end beyond", ({ theta }) => theta.fill(-limit - 2e-6, 0, 1), "theta", -limit - 2e-6, ends],
    ["a right end off", ({ theta }) => theta.fill(limit - 2e-6, 80), "theta", limit - 2e-6, ends],
  ])("are refused with %s", (_, spoil, field, value, allowed) => {
    const error = refusalOf(() => check(spoil));
    expect([error.field, error.value]).toEqual([`free.${field}`, value]);
    expect(error.allowed).toMatch(allowed);
  });

  test("are refused with seventeen different angles, or none", () => {
    for (const spoil of [
      ({ theta }: Tables) => theta.splice(5, 2, theta[4], theta[4]),
      (free: Tables) => [free.theta.splice(0), free.curvature.splice(0)],
    ]) {
      const error = refusalOf(() => check(spoil, 9));
      expect([error.field, error.allowed]).toEqual(["free.theta", "must have at least 18 different angles"]);
      expect(error.value).toBeInstanceOf(Array);
    }
  });

  test.each([
    ["thickness", [1e-9], [0, -1, Number.NaN], "must be a number above 0 mm"],
    ["taper", [-1, 1], [-1.001, 1.001, Number.NaN], "must be a number from -1 to 1"],
    ["netShare", [0, 1], [-0.001, 1.001, Number.NaN], "must be a number from 0 to 1"],
  ] as const)("are refused with a wall of wrong %s", (key, good, bad, allowed) => {
    const all = (one: number) => new Array<number>(81).fill(one);
    const sound = { thickness: all(a), taper: all(0), netShare: all(0), slotDepth: 0 };
    const withOne = (one: number) => ({ ...sound, [key]: sound[key].map((v, i) => (i === 6 ? one : v)) });
    for (const one of good) expect(() => check(() => {}, HALF, withOne(one))).not.toThrow();
    for (const one of bad) {
      const error = refusalOf(() => check(() => {}, HALF, withOne(one)));
      expect([error.field, error.value, error.allowed]).toEqual([`wall.${key}.6`, one, allowed]);
    }
    const first = { ...sound, [key]: [bad[1], ...sound[key].slice(1)] };
    expect(refusalOf(() => check(() => {}, HALF, first)).field).toBe(`wall.${key}.0`);
    const short = refusalOf(() => check(() => {}, HALF, { ...sound, [key]: sound[key].slice(1) }));
    expect([short.field, short.allowed]).toEqual([
      `wall.${key}`,
      "must have 81 values, one for each angle; has 80",
    ]);
  });

  test("become nodes, with both laws where the section jumps", () => {
    const ring = designed({ theory: "thin", section: { ...section, slots } });
    const nodes = nodesOf(ring, geometry);
    const twice = nodes.filter(({ laws }) => laws.length === 2);
    expect(twice.map(({ theta }) => theta)).toEqual([-2, -0.5, 0.5, 2]);
    expect(nodes.length).toBe(ring.free.theta.length - 4);
    for (const { theta, laws } of nodes)
      expect(laws.map(({ kappa0 }) => kappa0)).toEqual(
        ring.free.curvature.filter((_, i) => ring.free.theta[i] === theta),
      );
    // Slots soften from −0.5 to 2.
    const [before, beyond] = twice[1].laws.map(({ law }) => law.flexibility * EI);
    near(before, 1, 1e-12);
    expect(beyond).toBeGreaterThan(1.02);
    const none = { spec: ring.spec, free: { theta: [], curvature: [] } };
    expect(refusalOf(() => nodesOf(none, geometry)).field).toBe("free.theta");
  });
});

describe("the pressure that a free curvature makes", () => {
  const needsNothing = ({ ends, lifts, touches }: MadePressure, tolerance: number) => {
    for (const { couple, force, meets } of [ends.left, ends.right]) {
      expect([couple, meets]).toEqual([0, true]);
      near(force / FORCE, 0, tolerance);
    }
    expect(lifts).toEqual([]);
    expect(touches).toBe(true);
  };

  test.each<[string, Partial<BodySpec>, PressureSpec]>([
    ["thin", { theory: "thin" }, sines],
    ["curved", {}, sines],
    ["of a varying wall", { section: { ...section, wall } }, sines],
    ["with slots", { section: { ...section, slots } }, { shape: "uniform" }],
    ["thin with slots", { theory: "thin", section: { ...section, slots } }, { shape: "uniform" }],
    ["with a wide gap", { closedGap: 20 }, sines],
    [
      "with a wide gap and a thick wall",
      { closedGap: 20, section: { ...section, radialThickness: 17 } },
      { shape: "uniform" },
    ],
    [
      "without a gap and a thick wall",
      { closedGap: 0, section: { ...section, radialThickness: 25 } },
      { shape: "uniform" },
    ],
    ["of a thick wall that varies", { section: { ...section, radialThickness: 17, wall } }, sines],
  ])("of a designed ring %s is its own, and its ends need nothing", (_, change, wanted) => {
    const ring = designed(change, wanted);
    const made = pressureOf(ring);
    const { pressure, moment, theta } = ring.installed;
    const p0 = FORCE / (R * h);
    expect(made.theta).toEqual(theta);
    expect(made.theta).not.toBe(ring.free.theta);
    // Nine-point differences one-sided at the ends: 0.6·step⁷·f⁽⁹⁾, step 0.08 and f⁽⁹⁾ up to 0.1·3⁹; with shear twice that.
    for (const [i, p] of made.pressure.entries()) near(p / p0, pressure[i] / p0, 3e-5);
    for (const [i, M] of made.moment.entries()) near(M / (FORCE * r), moment[i] / (FORCE * r), 1e-7);
    // What the overhang carries is good to the third order of it, 0.0067³ for the wide gap.
    needsNothing(made, 2e-6);
  });

  test("that is round is uniform, with a couple at either end: M = E·I·(1/r − 1/ρ), thin", () => {
    for (const rho of [62, 50]) {
      const spec = bodyOf({ theory: "thin" });
      const { theta } = designed().free;
      const made = pressureOf({ spec, free: { theta, curvature: theta.map(() => 1 / rho) } });
      const M = EI * (1 / r - 1 / rho);
      for (const [i, moment] of made.moment.entries()) {
        near(moment / M, 1, 1e-12);
        near((made.pressure[i] * face) / M, 1, 1e-9);
      }
      // The tip carries what presses on the overhang of the outer face: h·R·p·(θL − θC).
      const overhang = Math.asin(3 / (2 * r)) - Math.asin(3 / (2 * R));
      for (const end of [made.ends.left, made.ends.right]) {
        expect(end.meets).toBe(false);
        near(end.couple / M, 1, 1e-12);
        near((end.force * r) / M, -Math.sin(overhang), 1e-10);
      }
      expect(made.touches).toBe(false);
      // Smaller than its bore it would have to be pulled outward all round.
      expect(made.lifts).toEqual(
        rho > r ? [] : [{ from: theta[0], to: theta[2 * HALF], lowest: Math.min(...made.pressure) }],
      );
    }
  });

  test("that is round has Winkler's moment in the curved theory", () => {
    // As in given-ring.test.ts: λ/r − κ₀ = (1 + (a/r)²/10)·[M/(E·Z₂) + κ₀·(λ − 1)], λ = 1 + (κ₀ − 1/r)·M/(E·A).
    const k0 = 1 / 62;
    const Z2 = ((h / k0) * Math.log((1 + (k0 * a) / 2) / (1 - (k0 * a) / 2)) - h * a) / k0 ** 2;
    const c = 1 + (a / r) ** 2 / 10;
    const M = (1 / r - k0) / (c / (E * Z2) + ((c * k0 - 1 / r) * (k0 - 1 / r)) / (E * h * a));
    const { theta } = designed().free;
    const made = pressureOf({ spec: bodyOf(), free: { theta, curvature: theta.map(() => k0) } });
    for (const [i, moment] of made.moment.entries()) {
      near(moment / M, 1, 1e-10);
      near((made.pressure[i] * face) / M, 1, 1e-7);
    }
    near(made.ends.left.couple / M, 1, 1e-10);
    near(made.ends.right.couple / M, 1, 1e-10);
    expect([made.ends.left.meets, made.touches, made.lifts]).toEqual([false, false, []]);
  });

  test("lifts it in arcs from the first to the last station where it is negative", () => {
    // M = b·(1 + cos θ) + A·(cos 2θ + …) with p ∝ b − 3·A·cos 2θ + …: by hand at each station.
    const b = 100;
    const made = pressureOf(bent((t) => b * (1 + 0.5 * Math.cos(2 * t) + 0.1 * Math.sin(3 * t))));
    const p = (t: number) => (b * (1 - 1.5 * Math.cos(2 * t) - 0.8 * Math.sin(3 * t))) / face;
    for (const [i, t] of made.theta.entries()) near(made.pressure[i], p(t), 3e-5 * (b / face));
    const arcs: { from: number; to: number; lowest: number }[] = [];
    made.theta.forEach((t, i) => {
      if (p(t) >= 0) return;
      if (i === 0 || p(made.theta[i - 1]) >= 0) arcs.push({ from: t, to: t, lowest: made.pressure[i] });
      const arc = arcs[arcs.length - 1];
      arc.to = t;
      arc.lowest = Math.min(arc.lowest, made.pressure[i]);
    });
    expect(arcs.length).toBe(3);
    expect(made.lifts).toEqual(arcs);
    expect(made.touches).toBe(false);
  });

  test("does not lift it by rounding, 1e-6 of the largest, and does by more", () => {
    // p ∝ 1 − (1 + q)·cos 3θ: −q at the back, 2 at the most, and positive at all other stations.
    const made = (q: number) => pressureOf(bent((t) => 100 * (1 + ((1 + q) / 8) * Math.cos(3 * t))));
    expect(made(1.9e-6).lifts).toEqual([]);
    const { lifts, pressure } = made(2.1e-6);
    expect(lifts).toEqual([{ from: 0, to: 0, lowest: pressure[HALF] }]);
    near((pressure[HALF] * face) / 100, -2.1e-6, 1e-8);
  });

  /** Nil at the ends, sloping by d − e and d + e there; p ∝ 1 + c·(1 + 3·cos 2θ) but for d and e. */
  const tipped = (d: number, e: number, c = 0) =>
    bent((t) => {
      const bow = (Math.PI ** 2 - t * t) / (2 * Math.PI);
      return 100 * (1 + Math.cos(t) + d * bow + (e * t * bow) / Math.PI + c * (1 - Math.cos(2 * t)));
    });

  test("with the tips pressed on has the force of each by M′/r", () => {
    for (const [d, e] of [
      [0.2, 0],
      [-0.2, 0],
      [0.1, 0.15],
      [0.1, -0.15],
      [0.1, 0.05],
    ]) {
      const made = pressureOf(tipped(d, e));
      near((made.ends.right.force * r) / 100, d + e, 1e-8);
      near((made.ends.left.force * r) / 100, d - e, 1e-8);
      expect([made.ends.left.couple, made.ends.right.couple, made.lifts]).toEqual([0, 0, []]);
      expect(made.touches).toBe(d > Math.abs(e));
    }
  });

  test("lets a tip be pulled by rounding alone, 1e-6 of the largest pressure times h·R", () => {
    // The largest, at the back and the ends, is twice 100/(h·R·r), the least half of it.
    expect(pressureOf(tipped(-1.9e-6, 0, 0.25)).touches).toBe(true);
    expect(pressureOf(tipped(-2.1e-6, 0, 0.25)).touches).toBe(false);
    expect(pressureOf(tipped(0, 2.1e-6, 0.25)).touches).toBe(false);
    expect(pressureOf(tipped(0, -2.1e-6, 0.25)).touches).toBe(false);
  });

  test("does not touch where it lifts, though its tips do", () => {
    const { ends, lifts, touches } = pressureOf(tipped(0.2, 0, 0.6));
    expect([ends.left.meets, ends.right.meets, lifts.length, touches]).toEqual([true, true, 2, false]);
    expect(Math.min(ends.left.force, ends.right.force)).toBeGreaterThan(0);
  });

  test("has the couple that its curvature asks for at ends that shear, where the wall varies too", () => {
    // M = M₀·(1 + 0.3·sin θ) put into the law: κ = (1 + (c·M′)′/r)/r, c = 12/(5·E·A).
    const [M0, limit] = [800, closedGeometry(bore, a, 3).centroidLimit];
    const theta = Array.from({ length: 2 * HALF + 1 }, (_, i) => limit * (i / HALF - 1));
    const thickness = theta.map((t) => a * wall(t));
    const none = theta.map(() => 0);
    const along = { thickness, taper: none, netShare: none, slotDepth: 0 };
    const laws = stationLaws(bodyOf(), r, along, theta.length);
    const curvature = theta.map((t, i) => {
      const M = M0 * (1 + 0.3 * Math.sin(t));
      const thinner = (0.08 * Math.sin(t) + 0.05 * Math.cos(t)) / wall(t);
      const rate = laws[i].shearCompliance * M0 * 0.3 * (-Math.sin(t) - thinner * Math.cos(t));
      return laws[i].freeCurvature(M, -M / r, (1 + rate / r) / r, 1 / r);
    });
    const made = pressureOf({ spec: bodyOf(), free: { theta, curvature }, wall: along });
    // The couple is good to the first order of the shear layer's square, (a/r)²/5 = 1.2e-3: so to some of its square.
    for (const [i, t] of theta.entries()) near(made.moment[i] / M0, 1 + 0.3 * Math.sin(t), 3e-6);
    expect([made.ends.left.couple, made.ends.right.couple]).toEqual([made.moment[0], made.moment[2 * HALF]]);
  });

  test("meets an end whose couple is less than a hundredth of the largest moment", () => {
    for (const side of [1, -1]) {
      for (const [share, meets] of [
        [0.009, true],
        [0.011, false],
      ] as const) {
        // The largest, at the back, is 200 + 100·share·2.
        const end = share * 200;
        const { ends } = pressureOf(bent((t) => 100 * (1 + Math.cos(t)) + side * end * Math.sin(t / 2) ** 4));
        expect([ends.left.meets, ends.right.meets]).toEqual([meets, meets]);
        near(ends.left.couple, meets ? 0 : side * end, 1e-9);
      }
    }
  });
});

describe("a ring of a free curvature", () => {
  const { stations, theory, closedGap } = bodyOf();
  const body = { bore: "11.8 cm", closedGap, section, material, theory, stations };

  test("has it at its stations, one value or a function's", () => {
    const plain = ringOfCurvature(body, 1 / 62);
    expect(plain.spec).toMatchObject({ bore: 118, closedGap: 3, theory: "curved" });
    const limit = closedGeometry(bore, a, 3).centroidLimit;
    expect(plain.free.theta.length).toBe(2 * HALF + 1);
    for (const [i, t] of plain.free.theta.entries()) near(t, limit * (i / HALF - 1), 1e-14);
    expect(plain.free.curvature).toEqual(plain.free.theta.map(() => 1 / 62));
    expect("wall" in plain).toBe(false);
    const bending = (t: number) => (1 + 0.1 * Math.sin(t)) / 60;
    expect(ringOfCurvature(body, bending).free.curvature).toEqual(plain.free.theta.map(bending));
  });

  test("has the wall where that varies", () => {
    const { wall: along, free } = ringOfCurvature({ ...body, section: { ...section, wall, slots } }, 1 / 62);
    for (const [i, t] of free.theta.entries()) near(along?.thickness[i] as number, a * wall(t), 1e-13);
    expect(along?.slotDepth).toBe(1.3);
    expect(along?.netShare[0]).toBe(0);
    expect(along?.netShare[free.theta.indexOf(0)]).toBeGreaterThan(0.1);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, undefined, "0.016"])("is refused with %s", (one) => {
    const wrong = one as unknown as number;
    const error = refusalOf(() => ringOfCurvature(body, wrong));
    expect([error.field, error.value]).toEqual(["curvature", one]);
    expect(error.allowed).toBe(
      "must be a finite number in 1/mm everywhere; this is the one at -3.1152 rad from the back",
    );
    // The 26th station of 40 beyond 2 rad: 26·3.1152/40.
    const late = refusalOf(() => ringOfCurvature(body, (t) => (t > 2 ? wrong : 0.016)));
    expect(late.allowed).toContain("at 2.0249 rad");
  });

  test("has the free shape of a circle, whose line is as long as closed, thin theory", () => {
    const rho = 62;
    const spec = bodyOf({ theory: "thin" });
    const closed = closedBody(spec);
    expect(closed.nominal).toBe(a);
    const { theta } = ringOfCurvature(spec, 1 / rho).free;
    const { halves, endWall, gap } = freeShape(
      theta.map(() => 1 / rho),
      closed,
    );
    const end = (theta[2 * HALF] * r) / rho;
    near(gap, 2 * rho * Math.sin(end), 1e-7);
    expect(endWall).toEqual({ left: a, right: a });
    for (const { x, y, tangent } of [halves.left, halves.right]) {
      near(tangent[HALF], end, 1e-9);
      near(x[HALF], rho * Math.sin(end), 1e-7);
      near(y[HALF], rho * (1 - Math.cos(end)) - r, 1e-7);
    }
  });

  test("has the gap at mid wall where its ends are thinner, and halves of their own", () => {
    const spec = bodyOf({ theory: "thin", section: { ...section, wall: (t) => wall(t) - 0.1 } });
    const closed = closedBody(spec);
    const { theta } = ringOfCurvature(spec, 1 / 62).free;
    // Bent more on the left from −1 rad on.
    const curvature = theta.map((t) => (t < -1 ? 1 / 61 : 1 / 62));
    const { halves, endWall, gap } = freeShape(curvature, closed);
    expect(halves.left.tangent[HALF]).toBeGreaterThan(halves.right.tangent[HALF] + 0.01);
    expect(halves.right.curvature).toEqual(curvature.slice(HALF));
    expect(halves.left.curvature).toEqual(curvature.slice(0, HALF + 1).reverse());
    const limit = theta[2 * HALF];
    near(endWall.left, a * (wall(-limit) - 0.1), 1e-12);
    near(endWall.right, a * (wall(limit) - 0.1), 1e-12);
    // Mid wall outward of the line, along faces that make asin(s/2r) with its normal: to the order of its square.
    const delta = Math.asin(3 / (2 * r));
    const at = (half: typeof halves.left, thickness: number) => {
      const along = (a - thickness) / 2 / Math.cos(delta);
      const tangent = half.tangent[HALF] + delta;
      return [half.x[HALF] + along * Math.sin(tangent), half.y[HALF] - along * Math.cos(tangent)];
    };
    const [right, left] = [at(halves.right, endWall.right), at(halves.left, endWall.left)];
    near(gap, Math.hypot(right[0] + left[0], right[1] - left[1]), 1e-3);
    expect(
      Math.abs(
        gap -
          Math.hypot(halves.right.x[HALF] + halves.left.x[HALF], halves.right.y[HALF] - halves.left.y[HALF]),
      ),
    ).toBeGreaterThan(0.01);
  });

  test("shortens as bending makes it, curved theory", () => {
    // The designed ring's own length differs by the shear's part of the strain, some 1e-6 of it.
    const ring = designed({ section: { ...section, wall } }, sines);
    const { halves, gap } = freeShape(ring.free.curvature, closedBody(ring.spec));
    near(gap, ring.free.gap, 2e-3);
    near(halves.right.x[HALF], ring.free.x[2 * HALF], 1e-3);
    near(-halves.left.x[HALF], ring.free.x[0], 1e-3);
  });
});

describe("a given ring as a design", () => {
  const kinds: [string, Partial<BodySpec>, PressureSpec][] = [
    ["plain", {}, { shape: "uniform" }],
    ["thin, its halves unlike", { theory: "thin" }, sines],
    ["of a varying wall", { section: { ...section, wall } }, sines],
    ["with slots", { section: { ...section, slots } }, { shape: "uniform" }],
  ];
  test.each(kinds)("is the ring that was designed: %s", (_, change, wanted) => {
    const ring = designed(change, wanted);
    const { spec } = ring;
    const closure = closeInBore(ring);
    const design = asDesign(ring, spec, closure, FORCE);
    const { theta } = ring.free;
    const last = theta.length - 1;
    expect(design.free.theta).toEqual(theta);
    expect(design.free.curvature).toEqual(ring.free.curvature);
    for (const key of ["x", "y", "arcLength"] as const)
      for (const [i, value] of design.free[key].entries()) near(value, ring.free[key][i], 2e-3);
    for (const [i, value] of design.free.tangent.entries()) near(value, ring.free.tangent[i], 1e-4);
    near(design.free.gap, ring.free.gap, 4e-3);
    for (const faces of ["outer", "inner"] as const) {
      expect(design.outline[faces].length).toBe(ring.outline[faces].length);
      for (const [i, [x, y]] of design.outline[faces].entries()) {
        near(x, ring.outline[faces][i][0], 3e-3);
        near(y, ring.outline[faces][i][1], 3e-3);
      }
    }
    near(design.ends.left.turn, ring.ends.left.turn, 1e-4);
    near(design.ends.right.turn, ring.ends.right.turn, 1e-4);
    near(design.ends.turn, ring.ends.turn, 1e-4);
    near(design.ends.wedgeIfSquare, ring.ends.wedgeIfSquare, 1e-12);
    near(design.ends.faceToNormal, ring.ends.faceToNormal, 1e-15);
    expect(design.wall).toBe(ring.wall);
    expect("wall" in design).toBe("wall" in ring);
    // What it carries is the contact's, by differences good to step² or so, and in slots to the jump.
    const { installed } = design;
    expect([installed.centroidRadius, installed.outerRadius]).toEqual([r, R]);
    expect(installed.theta).toEqual(theta);
    const scale = FORCE * r;
    const jumps = "section" in change && "slots" in (change.section as object);
    for (let i = 6; i <= last - 6; i++) {
      near(installed.moment[i] / scale, ring.installed.moment[i] / scale, jumps ? 0.02 : 4e-3);
      near(installed.shear[i] / FORCE, ring.installed.shear[i] / FORCE, jumps ? 0.2 : 0.01);
      near(installed.normal[i], -installed.moment[i] / r, 1e-9);
      if (!jumps)
        near(installed.pressure[i] / (FORCE / (R * h)), ring.installed.pressure[i] / (FORCE / (R * h)), 0.03);
    }
    // The load, and the pressure as samples: one a station, over p₀, to the ends of the outer face.
    const p0 = FORCE / (R * h);
    expect(design.load).toEqual({
      ...{ tangentialForce: FORCE, contactPressure: p0, freeGap: design.free.gap },
      ...{ balance: 0, balanceSine: 0 },
    });
    expect(design.spec).toMatchObject({ ...spec, load: { freeGap: design.free.gap } });
    const samples = design.spec.pressure as { shape: string; angle: number[]; relative: number[] };
    const { loadLimit } = closedGeometry(bore, a, spec.closedGap);
    const once = [...new Set(theta)];
    expect(samples.shape).toBe("sampled");
    expect(samples.angle).toEqual([-loadLimit, ...once.slice(1, -1), loadLimit]);
    for (const [k, t] of once.entries())
      near(samples.relative[k], installed.pressure[theta.indexOf(t)] / p0, 1e-13);
    expect(design.stress.closing).toEqual(closingStress(spec, installed, ring.free.curvature, ring.wall));
    // 1/(E·I) as the mean with the weight (1 + cos θ)², here by trapezoids.
    const laws = stationLaws(spec, r, ring.wall, theta.length);
    const weighted = (f: (i: number) => number) =>
      theta.reduce((sum, t, i) => {
        const width = (theta[Math.min(i + 1, last)] - theta[Math.max(i - 1, 0)]) / 2;
        return sum + width * (1 + Math.cos(t)) ** 2 * f(i);
      }, 0);
    const flexibility = weighted((i) => laws[i].flexibility) / weighted(() => 1);
    near(design.stiffnessParameter / (FORCE * r * r * flexibility), 1, 2e-4);
    expect(design.warnings.map(({ code }) => code)).toEqual(jumps ? ["slots"] : []);
    expect(design.outline.slots?.length).toBe(jumps ? 25 : undefined);
  });

  test("is that at stations of its own, whatever the nodes of the contact", () => {
    const ring = designed();
    const fine = asDesign(ring, ring.spec, closeInBore(ring, {}, { stations: 120 }), FORCE);
    expect(fine.installed.moment.length).toBe(2 * HALF + 1);
    for (let i = 4; i <= 2 * HALF - 4; i++) {
      near(fine.installed.moment[i] / (FORCE * r), ring.installed.moment[i] / (FORCE * r), 5e-4);
      near(fine.installed.shear[i] / FORCE, ring.installed.shear[i] / FORCE, 1e-3);
    }
  });

  test("has slots as deep and wide as asked, from its inner face, in their places", () => {
    const ring = designed({ section: { ...section, slots } });
    const { outline, free } = asDesign(ring, ring.spec, closeInBore(ring), FORCE);
    const [one, root, other, back] = (outline.slots as [number, number][][])[5];
    const apart = ([x, y]: number[], [u, v]: number[]) => Math.hypot(x - u, y - v);
    near(apart(one, root), 1.3, 1e-9);
    near(apart(other, back), 1.3, 1e-9);
    near(apart(one, back), 0.7, 1e-9);
    // The sixth slot stands at −0.5 + 5.5·0.1 = 0.05; its middle half a wall inside the line.
    const i = free.theta.findIndex((t) => t > 0.05) - 1;
    const middle = [(one[0] + back[0]) / 2, (one[1] + back[1]) / 2];
    const share = (0.05 - free.theta[i]) / (free.theta[i + 1] - free.theta[i]);
    const line = [free.x, free.y].map((values) => values[i] + share * (values[i + 1] - values[i]));
    near(apart(middle, line), a / 2, 0.05);
    expect(middle[1]).toBeGreaterThan(line[1]);
  });
});
