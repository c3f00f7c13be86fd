import { test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign } from "../src/index.js";
import { backOf, DEMO_RINGS, relativeError, runs, sensibleRing } from "./rings.js";

/**
 * Statics of the closed ring: the pressure balances itself, and moment, normal and shear force are what it causes,
 * by quadrature of the statics integrals rather than by the library's closed form.
 */

/** Five-point Gauss–Legendre nodes and weights on −1 … 1 (NIST DLMF, table 3.5.1). */
const GAUSS = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
] as const;

/** Integral over 40 panels; of a sine over 2π, good to rounding. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const half = (to - from) / 80;
  let sum = 0;
  for (let panel = 0; panel < 40; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (const [node, weight] of GAUSS) {
      sum += node === 0 ? weight * f(middle) : weight * (f(middle - node * half) + f(middle + node * half));
    }
  }
  return sum * half;
}

/** Where the outer face and so the pressure ends: θL = π − asin(s/(2R)). */
const loadLimit = ({ spec }: RingDesign) => Math.PI - Math.asin(spec.closedGap / spec.bore);

/** The pressure as documented, p = p₀·(1 + e·cos θ). */
const pressureOf =
  ({ load }: RingDesign) =>
  (theta: number) =>
    load.contactPressure * (1 + load.balance * Math.cos(theta));

/** Rounding of a sum of 200 terms. */
const ROUNDING = 2e-14;

describe("the pressure on any sensible ring", () => {
  property.prop([sensibleRing], runs(60))("balances itself along the axis", (spec) => {
    const design = designRing(spec);
    const p = pressureOf(design);
    const limit = loadLimit(design);
    const resultant = integral((theta) => p(theta) * Math.cos(theta), -limit, limit);
    expect(Math.abs(resultant / design.load.contactPressure)).toBeLessThan(ROUNDING);
  });

  property.prop([sensibleRing], runs(60))(
    "is p₀·(1 + e·cos θ) at the stations, with e ≈ −s/(π·R)",
    (spec) => {
      const design = designRing(spec);
      const { theta, pressure, outerRadius } = design.installed;
      const p = pressureOf(design);
      for (const [i, value] of pressure.entries())
        expect(relativeError(value, p(theta[i]))).toBeLessThan(1e-15);
      // With σ = s/(2R), e = −2σ/(π − 2σ + O(σ³)) = −(2σ/π)·(1 + 2σ/π + …).
      const sigma = spec.closedGap / (2 * outerRadius);
      const series = -(2 / Math.PI) * sigma * (1 + (2 / Math.PI) * sigma);
      expect(Math.abs(design.load.balance - series)).toBeLessThan(sigma ** 3 + 1e-15);
    },
  );

  property.prop([sensibleRing], runs(60))("has p₀ = 2·Ft/(d1·h1), and K = p₀·h·R·r²/(E·I)", (spec) => {
    const { load, stiffnessParameter, installed } = designRing(spec);
    const { axialHeight: h, radialThickness: a } = spec.section;
    const expected = (2 * spec.load.tangentialForce) / (spec.bore * h);
    expect(relativeError(load.contactPressure, expected)).toBeLessThan(1e-15);
    const EI = (spec.material.youngsModulus * h * a ** 3) / 12;
    const K = (load.contactPressure * h * installed.outerRadius * installed.centroidRadius ** 2) / EI;
    expect(relativeError(stiffnessParameter, K)).toBeLessThan(2e-15);
  });
});

describe("the internal forces of any sensible ring", () => {
  property.prop([sensibleRing], runs(25))("are the statics integrals of the pressure beyond", (spec) => {
    const design = designRing(spec);
    const { installed, load } = design;
    const { theta, moment, shear, normal, centroidRadius: r, outerRadius: R } = installed;
    const h = spec.section.axialHeight;
    const p = pressureOf(design);
    const limit = loadLimit(design);
    const force = load.tangentialForce;
    const back = backOf(design);
    for (const i of [back, back + 1, back + 37, back + 90, back + 140, theta.length - 2, theta.length - 1]) {
      const M = h * R * r * integral((alpha) => p(alpha) * Math.sin(alpha - theta[i]), theta[i], limit);
      const V = h * R * integral((alpha) => p(alpha) * Math.cos(alpha - theta[i]), theta[i], limit);
      expect(Math.abs(moment[i] - M)).toBeLessThan(ROUNDING * force * r);
      expect(Math.abs(shear[i] - V)).toBeLessThan(ROUNDING * force);
      expect(Math.abs(normal[i] - -M / r)).toBeLessThan(ROUNDING * force);
    }
  });

  property.prop([sensibleRing], runs(60))("leave no shear at the back, and no load at the ends", (spec) => {
    const design = designRing(spec);
    const { moment, shear, normal, theta, centroidRadius: r } = design.installed;
    const force = design.load.tangentialForce;
    expect(shear[backOf(design)]).toBe(0);
    // The last station stands at θC; the overhang of the outer face beyond it, up to θL, carries h·R·p₀·Δθ·(1 + |e|),
    // with an arm of at most r·Δθ/2.
    const last = theta.length - 1;
    const overhang = loadLimit(design) - theta[last];
    const rounding = 4e-15;
    expect(Math.abs(shear[last])).toBeLessThan(1.03 * force * overhang + rounding * force);
    expect(Math.abs(moment[last])).toBeLessThan(
      (1.03 * force * r * overhang ** 2) / 2 + rounding * force * r,
    );
    expect(moment.every((M, i) => Math.abs(normal[i] + M / r) <= 1e-15 * force)).toBe(true);
  });

  property.prop([sensibleRing], runs(60))("close the ring everywhere, most at the back", (spec) => {
    const design = designRing(spec);
    const { moment } = design.installed;
    const largest = Math.max(...moment);
    expect(largest).toBe(moment[backOf(design)]);
    expect(Math.min(...moment)).toBeGreaterThan(-4e-15 * largest);
    // M(0) → 2·Ft·r as the gap closes; each 1 % of gap/bore changes it by some 0.3 %.
    const closedGapValue = 2 * design.load.tangentialForce * design.installed.centroidRadius;
    expect(relativeError(largest, closedGapValue)).toBeLessThan(spec.closedGap / spec.bore + 1e-15);
  });
});

test("the largest stress of the curved bar stands at the back, inside, and balances M and N there", () => {
  const { stress, installed, spec } = designRing({ ...DEMO_RINGS["ferry 118 mm"], theory: "curved" });
  const { radialThickness: a, axialHeight: h } = spec.section;
  const M = Math.max(...installed.moment);
  expect(stress.closing.theta).toBe(0);
  expect(stress.closing.max).toBe(-stress.closing.inner);
  // By hand: ±6M/(h·a²), with −M/(r·a·h) from the normal force, and the hyperbolic rise of the inner fibre by the
  // factor 1 ± t/3, t = a/r; terms in t² are left out.
  const t = a / installed.centroidRadius;
  const bending = (6 * M) / (h * a ** 2);
  const direct = -M / (installed.centroidRadius * a * h);
  expect(relativeError(stress.closing.outer, bending * (1 - t / 3) + direct)).toBeLessThan(t ** 2);
  expect(relativeError(stress.closing.inner, -bending * (1 + t / 3) + direct)).toBeLessThan(t ** 2);
});
