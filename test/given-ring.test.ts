import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import type { BodySpecInput } from "../src/index.js";
import { type MadePressure, pressureOf, ringOfCurvature } from "../src/index.js";
import { DEMO_RINGS, runs, type UnloadedSpec, unloadedRing } from "./rings.js";

/**
 * Rings given by their free curvature: the pressure they make, by hand. In the thin theory M = E·I·(1/r − κ₀) and
 * p = (M″ + M)/(h·R·r), so a term A·cos iθ of κ₀ comes out of M″ + M as (i² − 1)·E·I·A·cos iθ.
 */

const { load: _, ...FERRY } = DEMO_RINGS["ferry 118 mm"];
const THIN = { ...FERRY, theory: "thin" } as const;

/** E·I, and h·R·r, which makes moments of pressures. */
function stiffness({ bore, section, material }: Pick<UnloadedSpec, "bore" | "section" | "material">) {
  const { radialThickness: a, axialHeight: h } = section;
  const [R, r] = [bore / 2, (bore - a) / 2];
  return { EI: (material.youngsModulus * h * a ** 3) / 12, face: h * R * r, R, r, h, a };
}

const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

function expectAll(values: readonly number[], expected: (i: number) => number, tolerance: number): void {
  for (const [i, value] of values.entries())
    expect(Math.abs(value - expected(i)), `station ${i}`).toBeLessThan(tolerance);
}

/** Rounding of E·I·(1/r − κ₀), and what one-sided second differences, weights 358/step² in all, make of it. */
function rounding({ EI, face, r }: ReturnType<typeof stiffness>, stations = 180) {
  const moment = (2 ** -51 * EI) / r;
  return { moment, pressure: (358 * (stations / 3.1) ** 2 * moment) / face };
}

describe("a ring that is round when free", () => {
  const share = fc.integer({ min: -40, max: 100 }).filter((percent) => percent !== 0);
  property.prop([unloadedRing, share], runs(40))(
    "presses uniformly, thin theory, as long as both its ends are held by the couple that bends it",
    (ring, percent) => {
      const k = stiffness(ring);
      const rho = k.r * (1 + percent / 100);
      const { poissonRatio: _, ...material } = ring.material;
      const made = pressureOf(ringOfCurvature({ ...ring, material, theory: "thin" }, 1 / rho));
      const moment = k.EI * (1 / k.r - 1 / rho);
      const error = rounding(k);
      expectAll(made.moment, () => moment, error.moment);
      expectAll(made.pressure, () => moment / k.face, error.pressure);
      for (const { couple, meets, force } of [made.ends.left, made.ends.right]) {
        expect(Math.abs(couple - moment)).toBeLessThan(error.moment);
        expect(meets).toBe(false);
        // The tip carries the pressure on the overhang of the outer face, which the couple does not: p·h·R·(θL − θC).
        const overhang = Math.asin(ring.closedGap / (2 * k.r)) - Math.asin(ring.closedGap / (2 * k.R));
        const carried = (moment / k.r) * overhang;
        expect(Math.abs(force + carried)).toBeLessThan(0.01 * Math.abs(carried) + error.pressure * k.h * k.R);
      }
      expect(made.touches).toBe(false);
      // Smaller than its bore: it would have to be pulled outward, all round.
      const lifts = [{ from: made.theta[0], to: made.theta.at(-1), lowest: Math.min(...made.pressure) }];
      expect(made.lifts).toEqual(percent > 0 ? [] : lifts);
    },
  );

  test("obeys the curved bar's two equations with Z₂ in closed form, curved theory", () => {
    // docs/theory/04-curvature.md with N = −M/r, M″ = 0 and so no shear: λ/r − κ₀ = (1 + (a/r)²/10)·[M/(E·Z₂) + κ₀·(λ − 1)],
    // λ = 1 + (κ₀ − 1/r)·M/(E·A); Z₂ = (Z₀ − A)/κ₀², Z₀ = (h/κ₀)·ln[(1 + κ₀·a/2)/(1 − κ₀·a/2)] (Winkler).
    const { face, r, h, a } = stiffness(FERRY);
    const E = FERRY.material.youngsModulus;
    const k0 = 1 / 62;
    const Z2 = ((h / k0) * Math.log((1 + (k0 * a) / 2) / (1 - (k0 * a) / 2)) - h * a) / k0 ** 2;
    const c = 1 + (a / r) ** 2 / 10;
    const strain = (k0 - 1 / r) / (E * h * a);
    const M = (1 / r - k0) / (c / (E * Z2) + (c * k0 - 1 / r) * strain);
    const made = pressureOf(ringOfCurvature(FERRY, k0));
    // The logarithm leaves Z₀ − A good to some 1e-12 of itself; differences of 1e-16/step² leave less.
    expectAll(made.moment, () => M, 1e-11 * M);
    expectAll(made.pressure, () => M / face, 1e-9 * (M / face));
    expect(made.ends.right.couple).toBeCloseTo(made.moment[0], 9);
    expect(made.lifts).toEqual([]);
  });
});

test("Unwin's ring, wall a_max·sin^(2/3)(φ/2) from the gap and round when free, presses uniformly", () => {
  // W. C. Unwin, Elements of Machine Design, part II. I goes with sin²(φ/2) = (1 + cos θ)/2, so M does, which is the
  // moment of a uniform pressure: p = E·I_max·(1/r − 1/ρ)/(2·h·R·r). The wall is floored at 3 % of its largest, which
  // touches the last station only: M there is 2.7e-5 of the largest instead of nil, as five stencils see.
  const k = stiffness(FERRY);
  const wall = (theta: number) => Math.max(Math.cos(theta / 2) ** (2 / 3), 0.03);
  const made = pressureOf(
    ringOfCurvature({ ...THIN, closedGap: 0, section: { ...FERRY.section, wall } }, 1 / 62),
  );
  const p = (k.EI * (1 / k.r - 1 / 62)) / 2 / k.face;
  const inside = made.pressure.slice(5, -5);
  expectAll(inside, () => p, rounding(k).pressure);
  for (const { couple, meets } of [made.ends.left, made.ends.right]) {
    expect(couple).toBe(0);
    expect(meets).toBe(true);
  }
});

describe("a ripple A·cos iθ of the free curvature", () => {
  const rippled = (body: BodySpecInput, rho: number, A: number, i: number): MadePressure =>
    pressureOf(ringOfCurvature(body, (theta) => 1 / rho + A * Math.cos(i * theta)));

  property.prop(
    [unloadedRing, fc.integer({ min: 2, max: 12 }), fc.integer({ min: -100, max: 100 })],
    runs(40),
  )(
    "adds (i² − 1)·E·I·A·cos iθ/(h·R·r) to the pressure; the ring lifts where that wins, thin theory",
    (ring, i, percent) => {
      const k = stiffness(ring);
      const rho = 1.1 * k.r;
      const round = 1 / k.r - 1 / rho;
      const A = (percent / 100) * round;
      const ripple = (i * i - 1) * A;
      const made = rippled({ ...ring, theory: "thin" }, rho, A, i);
      const p = (theta: number) => (k.EI * (round + ripple * Math.cos(i * theta))) / k.face;
      // One-sided differences of nine points miss 0.604·step⁷·f⁽⁹⁾ of the second derivative (see made-pressure.ts).
      const step = Math.PI / 180;
      const missed = (0.604 * step ** 7 * i ** 9 * Math.abs(A) * k.EI) / k.face;
      const tolerance = missed + rounding(k).pressure;
      expectAll(made.pressure, (n) => p(made.theta[n]), tolerance);
      // p changes sign where cos iθ = −round/ripple, in arcs about the places where A·cos iθ is lowest.
      const limit = tolerance + 2e-6 * largest(made.pressure);
      const within = (theta: number) => made.lifts.some(({ from, to }) => theta >= from && theta <= to);
      for (const theta of made.theta) {
        if (Math.abs(p(theta)) > limit) expect(within(theta), `${theta}`).toBe(p(theta) < 0);
      }
      if (Math.abs(ripple) < round) expect(made.lifts).toEqual([]);
    },
  );

  test("lifts the ring in arcs whose ends, lowest place and value are known", () => {
    const k = stiffness(FERRY);
    const round = 1 / k.r - 1 / 62;
    // 3·A = −2·round at i = 2: p ∝ 1 − 2·cos 2θ is negative within π/6 of the back, and within π/6 of the gap.
    const { lifts, pressure } = rippled(THIN, 62, (-2 / 3) * round, 2);
    expect(lifts.length).toBe(3);
    const step = Math.PI / 180;
    // Ends are the outermost stations that lift: at most a step inside.
    for (const [found, exact, side] of [
      [lifts[1].from, -Math.PI / 6, 1],
      [lifts[1].to, Math.PI / 6, -1],
      [lifts[0].to, -Math.PI * (5 / 6), -1],
      [lifts[2].from, Math.PI * (5 / 6), 1],
    ]) {
      expect(side * (found - exact)).toBeGreaterThanOrEqual(0);
      expect(side * (found - exact)).toBeLessThan(step);
    }
    const p = (k.EI * round) / k.face;
    expect(Math.abs(lifts[1].lowest + p)).toBeLessThan(1e-9 * p);
    expect(Math.min(...pressure)).toBeCloseTo(lifts[1].lowest, 6);
  });

  test("of a thick ring comes out smaller by 1 + i²·(a/r)²/5, since it shears", () => {
    // Free curvature − i²·c·M/r² + M/(E·I), c = 12/(5·E·A): E·I·c/r² = (a/r)²/5, the bar's own curvature aside, which
    // counts (a/r)². Of an error in the curvature i² − 1 times as much comes out, less that.
    const { EI, face, r, a } = stiffness(FERRY);
    const A = 1e-4 / r;
    for (const i of [3, 5, 9, 12]) {
      const made = rippled(FERRY, 62, A, i);
      const plain = rippled(FERRY, 62, 0, i);
      const found = made.pressure.map((p, n) => ((p - plain.pressure[n]) * face) / (EI * A));
      const middle = found.length >> 1;
      const square = (a / r) ** 2 / 5;
      const byHand = (i * i - 1) / (1 + i * i * square);
      expect(Math.abs(found[middle] / byHand - 1)).toBeLessThan((a / r) ** 2);
      // Also at the ends, which then need a couple: 1 + i²·L² stands there as its first term, and i⁴·L⁴ over L² is left.
      const largestMiss = i ** 4 * square + byHand * (a / r) ** 2;
      expectAll(found, (n) => byHand * Math.cos(i * made.theta[n]), largestMiss);
      // Without shear it would be that much more.
      expect(found[middle]).toBeLessThan((i * i - 1) * (1 - ((i * a) / r) ** 2 / 10));
    }
  });
});

test("a tip pressed on the bore: forces at the ends by hand, thin theory", () => {
  // M = b·(1 + cos θ) + d·(π² − θ²)/(2π): nil at the ends, sloping there by ∓d, so that each tip is pressed by d/r; for
  // d < 0 it would have to be held. p·h·R·r = b + d·[(π² − θ²)/(2π) − 1/π].
  const k = stiffness(FERRY);
  for (const share of [0.2, -0.2]) {
    const b = 0.02 * (k.EI / k.r);
    const d = share * b;
    const bow = (theta: number) => (Math.PI ** 2 - theta ** 2) / (2 * Math.PI);
    const kappa = (theta: number) => 1 / k.r - (b * (1 + Math.cos(theta)) + d * bow(theta)) / k.EI;
    const made = pressureOf(ringOfCurvature({ ...THIN, closedGap: 0 }, kappa));
    expectAll(
      made.pressure,
      (i) => (b + d * (bow(made.theta[i]) - 1 / Math.PI)) / k.face,
      rounding(k).pressure,
    );
    for (const { couple, force, meets } of [made.ends.left, made.ends.right]) {
      expect([couple, meets]).toEqual([0, true]);
      expect(Math.abs(force - d / k.r)).toBeLessThan(1e-9 * Math.abs(d / k.r));
    }
    expect(made.lifts).toEqual([]);
    expect(made.touches).toBe(share > 0);
  }
});
