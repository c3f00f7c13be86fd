import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { describePressure, designRing } from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError, runs, unloadedRing, withK } from "./rings.js";

/** What a pressure is like: mean, extremes and harmonics by hand. */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const CLOSED = { ...FERRY, closedGap: 0 };
const harmonic = (cosine: number[], sine: number[] = []) => ({ shape: "harmonics", cosine, sine }) as const;
/** Sums of a few hundred terms, relative to the mean. */
const ROUNDING = 1e-13;
/** Eight-point polynomials miss (1·3·5·7/2⁴)²/8!·(order·step)⁸ of the pressure between stations, 1.5e-10 at order 8. */
const BETWEEN_STATIONS = 1.5e-10;

describe("without a gap", () => {
  property.prop(
    [
      unloadedRing,
      fc.array(fc.integer({ min: -9, max: 9 }), { maxLength: 7 }),
      fc.array(fc.integer({ min: -9, max: 9 }), { maxLength: 7 }),
    ],
    runs(40),
  )("the harmonics are the ordered ones, the first is nil and the mean p₀", (ring, c, s) => {
    const [cosine, sine] = [c, s].map((values) => values.map((value) => value / 150));
    const design = designRing({
      ...withK({ ...ring, closedGap: 0 }, 0.02),
      pressure: harmonic(cosine, sine),
    });
    const { mean, harmonics } = describePressure(design);
    expect(relativeError(mean, design.load.contactPressure)).toBeLessThan(ROUNDING + BETWEEN_STATIONS);
    expect(harmonics.map(({ order }) => order)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    for (const { order, cosine: found, sine: foundSine } of harmonics) {
      expect(Math.abs(found - (cosine[order - 2] ?? 0))).toBeLessThan(ROUNDING + BETWEEN_STATIONS);
      expect(Math.abs(foundSine - (sine[order - 2] ?? 0))).toBeLessThan(ROUNDING + BETWEEN_STATIONS);
    }
    expect(describePressure(design, 3).harmonics).toEqual(harmonics.slice(0, 3));
    expect(describePressure(design, 0).harmonics).toEqual([]);
  });

  test("extremes are where they must be", () => {
    // 1 + 0.3·cos 2θ + 0.2·sin 3θ is 1.3 at back and gap. Its slope 0.6·(cos 3θ − sin 2θ) vanishes at ±π/2 and where
    // 5θ = π/2 + 2πn. Lowest at π/2, 1 − 0.3 − 0.2; highest at π/10 and 9π/10, 1 + 0.3·cos 36° + 0.2·sin 54°.
    const { relative, lowest, highest } = describePressure(
      designRing({ ...CLOSED, pressure: harmonic([0.3], [0, 0.2]) }),
    );
    for (const value of [relative.atBack, relative.atGap, relative.atLeftEnd, relative.atRightEnd])
      expect(value).toBeCloseTo(1.3, 9);
    expect(lowest.theta).toBeCloseTo(Math.PI / 2, 12);
    expect(lowest.relative).toBeCloseTo(0.5, 9);
    expect(highest.relative).toBeCloseTo(1 + 0.5 * Math.cos(Math.PI / 5), 9);
    expect(Math.abs(Math.abs(highest.theta - Math.PI / 2) - 0.4 * Math.PI)).toBeLessThan(1e-12);
  });

  test("ends that differ are told apart", () => {
    // A table odd about its middle value: sine terms only, of which the balance takes the first.
    const angle = [-3, -2, -1, 0, 1, 2, 3].map((k) => (k * Math.PI) / 3);
    const relative = [0.5, 0.9, 1, 1, 1, 1.1, 1.5];
    const design = designRing({ ...CLOSED, pressure: { shape: "sampled", angle, relative } });
    const found = describePressure(design);
    // By hand: the balance, f·sin θ, is nil at both ends, and the mean is the middle value.
    expect(found.relative.atLeftEnd).toBeCloseTo(0.5, 9);
    expect(found.relative.atRightEnd).toBeCloseTo(1.5, 9);
    expect(found.relative.atGap).toBeCloseTo(1, 9);
    // Integrals over eight points see the jumps of the second derivative: (π/180)³ of it or so.
    for (const { cosine } of found.harmonics) expect(Math.abs(cosine)).toBeLessThan(1e-6);
    expect(Math.abs(found.harmonics[0].sine)).toBeLessThan(1e-6);
    expect(Math.abs(found.harmonics[1].sine)).toBeGreaterThan(0.05);
  });
});

describe("with a gap", () => {
  property.prop(
    [
      fc.constantFrom(...DEMO_NAMES),
      fc.integer({ min: 0, max: 300 }),
      fc.array(fc.integer({ min: -12, max: 12 }), { maxLength: 6 }),
    ],
    runs(40),
  )(
    "mean and harmonics are the integrals over the face, nothing acting in the gap",
    (name, gap, percents) => {
      const ring = { ...DEMO_RINGS[name], closedGap: (gap / 10000) * DEMO_RINGS[name].bore };
      const cosine = percents.map((percent) => percent / 100);
      const design = designRing({ ...ring, pressure: harmonic(cosine) });
      const { mean, harmonics } = describePressure(design);
      const limit = Math.PI - Math.asin(ring.closedGap / ring.bore);
      const terms = [1, design.load.balance, ...cosine];
      // ∫cos jθ·cos iθ dθ over |θ| ≤ θL by the product formula.
      const sinc = (n: number) => (n === 0 ? limit : Math.sin(n * limit) / n);
      const integral = (i: number) =>
        terms.reduce((sum, value, j) => sum + value * (sinc(j - i) + sinc(j + i)), 0);
      // On the overhang beyond the last station, φ long, the pressure is taken to be that of the end: φ²·Σj·|cj|/π.
      const overhang = limit - (design.installed.theta.at(-1) as number);
      const missed = overhang ** 2 * terms.reduce((sum, value, j) => sum + (j + 13) * Math.abs(value), 0);
      const p0 = design.load.contactPressure;
      expect(Math.abs(mean / p0 - integral(0) / 2 / limit)).toBeLessThan(
        ROUNDING + BETWEEN_STATIONS + missed,
      );
      for (const { order, cosine: found, sine } of harmonics) {
        const expected = ((integral(order) / Math.PI) * p0) / mean;
        expect(Math.abs(found - expected)).toBeLessThan(ROUNDING + BETWEEN_STATIONS + missed);
        expect(Math.abs(sine)).toBeLessThan(ROUNDING);
      }
      expect(Math.abs(harmonics[0].cosine)).toBeLessThan(ROUNDING + BETWEEN_STATIONS + missed);
    },
  );

  test("the mean of the uniform pressure differs from p₀ by e·sin θL/θL, some −2·(s/(π·d1))²", () => {
    // docs/theory/08-contact.md; next term: a share 4·s/(π·d1) of that.
    for (const closedGap of [0.45, 1.5, 3.5]) {
      const design = designRing({ ...FERRY, closedGap });
      const share = closedGap / (Math.PI * 118);
      const found = describePressure(design).mean / design.load.contactPressure - 1;
      expect(Math.abs(found + 2 * share ** 2)).toBeLessThan(10 * share ** 3 + ROUNDING);
    }
  });
});
