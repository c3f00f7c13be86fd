import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign, type RingSpecInput } from "../src/index.js";
import { shapePreserving } from "../src/numeric/shapePreserving.js";
import { reached } from "./reached.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError, runs } from "./rings.js";
import { balanceOf, harmonics, integral, loadLimit, smallLoadLimit } from "./statics.js";

/**
 * The pressure: it is the ordered one and a first harmonic that balances it, by a quadrature of its own; and
 * samples count by their own mean.
 */

type Pressure = NonNullable<RingSpecInput["pressure"]>;

const study = { allowNegativePressure: true };
const FERRY = DEMO_RINGS["ferry 118 mm"];

/** A demo ring, most often with a wider gap, and the pressure as it was written down for it. */
const amplitude = fc.integer({ min: -30, max: 30 }).map((n) => n / 100);
const amplitudes = fc.array(amplitude, { maxLength: 12 });
const base = fc
  .tuple(fc.constantFrom(...DEMO_NAMES), fc.constantFrom(0, 0.002, 0.01, 0.03, 0.2))
  .map(([name, share]): RingSpecInput => ({ ...DEMO_RINGS[name], closedGap: share * DEMO_RINGS[name].bore }));

function expectBalanced(design: RingDesign, wanted: (theta: number) => number, breaks: number[] = []): void {
  const limit = loadLimit(design);
  const balance = balanceOf(design);
  const p = (theta: number) => wanted(theta) + balance(theta);
  const { theta, pressure } = design.installed;
  const size = Math.max(...pressure.map(Math.abs)) / design.load.contactPressure;
  for (const [i, value] of pressure.entries()) {
    // A dozen terms, each by its rotation.
    expect(Math.abs(value / design.load.contactPressure - p(theta[i]))).toBeLessThan(2e-14 * size);
  }
  // A few hundred terms of the pressure's size.
  for (const wave of [Math.cos, Math.sin]) {
    const resultant = integral((alpha) => p(alpha) * wave(alpha), -limit, limit, breaks);
    expect(Math.abs(resultant)).toBeLessThan(3e-14 * size);
  }
}

describe("the pressure is the ordered one and a first harmonic, and balances itself:", () => {
  property.prop([base, amplitudes, amplitudes], runs(60))("harmonics", (ring, cosine, sine) => {
    const design = designRing({ ...ring, pressure: { shape: "harmonics", cosine, sine } }, study);
    expectBalanced(design, (theta) => 1 + harmonics(theta, cosine, sine));
  });

  property.prop(
    [base, fc.constantFrom("moreAtGap" as const, "lessAtGap" as const), fc.integer({ min: 0, max: 100 })],
    runs(60),
  )(
    "the families, which add ±strength·b, b = Σ (7 − i)/15·cos iφ, i = 2 … 6, φ from the gap",
    (ring, shape, percent) => {
      const strength = percent / 100;
      const design = designRing({ ...ring, pressure: { shape, strength } }, study);
      const sign = shape === "moreAtGap" ? 1 : -1;
      const bump = [2, 3, 4, 5, 6].map((i) => ((sign * strength * (7 - i)) / 15) * (i % 2 === 0 ? 1 : -1));
      expectBalanced(design, (theta) => 1 + harmonics(theta, bump));
    },
  );

  const samples = fc.tuple(
    fc.array(fc.integer({ min: 20, max: 300 }), { minLength: 4, maxLength: 16 }),
    fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 17, maxLength: 17 }),
  );
  property.prop([base, samples, fc.boolean()], runs(80))(
    "samples, of half a ring or the whole, over their own mean",
    (ring, [values, widths], whole) => {
      // Angles of uneven spacing from one end, or from the back, to the other end.
      const steps = widths.slice(0, values.length - 1);
      const total = steps.reduce((sum, step) => sum + step, 0);
      const limit = Math.PI - Math.asin(Number(ring.closedGap) / Number(ring.bore));
      const share = [0];
      for (const step of steps) share.push((share.at(-1) as number) + step / total);
      share[share.length - 1] = 1;
      const angle = share.map((part) => (whole ? limit * (2 * part - 1) : limit * part));
      const design = designRing({ ...ring, pressure: { shape: "sampled", angle, relative: values } }, study);
      const both = whole
        ? { x: angle, y: values }
        : {
            x: [
              ...angle
                .slice(1)
                .map((at) => -at)
                .reverse(),
              ...angle,
            ],
            y: [...values.slice(1).reverse(), ...values],
          };
      const curve = shapePreserving(both.x, both.y);
      const mean = integral(curve.at, -limit, limit, both.x) / (2 * limit);
      expectBalanced(design, (theta) => curve.at(theta) / mean, both.x);
      if (!whole) expect(design.load.balanceSine).toBe(0);
    },
  );

  test("and a wrong balance would show", () => {
    const design = designRing({ ...FERRY, pressure: { shape: "harmonics", cosine: [0.2] } });
    const wrong = { ...design, load: { ...design.load, balance: design.load.balance + 1e-12 } };
    expect(() => expectBalanced(design, (theta) => 1 + 0.2 * Math.cos(2 * theta))).not.toThrow();
    expect(() => expectBalanced(wrong, (theta) => 1 + 0.2 * Math.cos(2 * theta))).toThrow();
  });
});

describe("a pear-shaped pressure sampled every 30°", () => {
  // p/p_mean at 0, 30 … 180° from the back, as printed by Zeynetdinov, Dyakov, Yarygin, p. 90 (read).
  const printed = [1.051, 1.047, 1.137, 0.896, 0.454, 0.676, 2.861];
  const angle = printed.map((_, k) => `${30 * k} deg`);
  const pressure: Pressure = { shape: "sampled", angle, relative: printed };
  const thin = { ...FERRY, closedGap: 0, theory: "thin" } as const;
  const design = designRing({ ...thin, pressure });

  // The printed mean is 1 by its name; what lies between the printed angles is not told. By straight lines between
  // them (trapezoids, by hand): (½·1.051 + 1.047 + 1.137 + 0.896 + 0.454 + 0.676 + ½·2.861)/6 = 1.027667. By the curve
  // used here, integrated with scipy 1.17.1 (PchipInterpolator.integrate): 0.9836875.
  test("has the mean 1.027667 by trapezoids and 0.9836875 by the shape-preserving curve", () => {
    const trapezoids = printed.slice(1).reduce((sum, p, k) => sum + (p + printed[k]) / 2, 0) / 6;
    expect(trapezoids).toBeCloseTo(1.027667, 6);
    const atBack = design.installed.pressure[design.spec.stations] / design.load.contactPressure;
    expect(relativeError((atBack - design.load.balance) * 0.9836875, 1.051)).toBeLessThan(1e-12);
  });

  // Rounding to three decimals, half a unit in each value, moves the mean by up to 0.0005 and e by up to 0.00063 (scipy,
  // differences of the curve's integrals). So the residual, −0.00769·p₀, a percent of a ring's pressure, is no rounding:
  // it is what the samples leave open between them. Trapezoids would leave ten times as much, 2/π·∫p·cos = −0.0807.
  test("leaves the first harmonic −0.007689759 to be added", () => {
    // scipy: quad over the six intervals, −(2/π)·∫p·cos/mean = −0.007689759156.
    reached("pear-shaped", "first harmonic", Math.abs(design.load.balance - -0.007689759156), 1e-11);
    expect(design.load.balanceSine).toBe(0);
  });

  test("opens a soft thin ring by 8.864431857·K·r, 0.9405 of the uniform ring's 3π", () => {
    // Unit load and Castigliano, the order of integration swapped: m = K·r·2·∫p·W dα over 0 … π, with
    // W(α) = ∫sin(α − θ)·(1 + cos θ) dθ over 0 … α = 1 − cos α + ½·α·sin α. With scipy: 8.864431856907; rounding of
    // the table may move it by 0.00072.
    const both = printed.slice(1).reverse().concat(printed);
    const knots = both.map((_, k) => (k - 6) * (Math.PI / 6));
    const curve = shapePreserving(knots, both);
    const mean = integral(curve.at, 0, Math.PI, knots) / Math.PI;
    const p = (alpha: number) => curve.at(alpha) / mean + design.load.balance * Math.cos(alpha);
    const W = (alpha: number) => 1 - Math.cos(alpha) + 0.5 * alpha * Math.sin(alpha);
    const byQuadrature = 2 * integral((alpha) => p(alpha) * W(alpha), 0, Math.PI, knots);
    reached("pear-shaped", "opening over K·r, quadrature", Math.abs(byQuadrature - 8.864431856907), 1e-11);
    const opening = smallLoadLimit((share) => {
      const load = { contactPressure: 1e-4 * share };
      const { free, installed, stiffnessParameter } = designRing({ ...thin, pressure, load, stations: 360 });
      return free.gap / (stiffnessParameter * installed.centroidRadius);
    });
    // K is 1.3e-5 to 5e-5: what is left is of order K³, and rounding of coordinates of 57 mm, 1e-14, over gaps from 7 µm.
    // The curve's bend jumps at the samples, where the eighth-order shape integrals lose some 1e-9.
    reached("pear-shaped", "opening over K·r, design", Math.abs(opening - byQuadrature), 1e-8);
  });
});
