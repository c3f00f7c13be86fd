import { fc, test as property } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { designRing } from "../src/index.js";
import { DEMO_RINGS, forceForK, growth, relativeError, runs, sensibleRing, withK } from "./rings.js";

/** What must hold for every ring, whatever its numbers. */

/** Largest difference between two arrays, the first scaled. */
function largestDifference(scale: number, values: readonly number[], others: readonly number[]): number {
  expect(values.length).toBe(others.length);
  return Math.max(...values.map((value, i) => Math.abs(scale * value - others[i])));
}

property.prop([sensibleRing], runs(100))(
  "force, pressure and free gap are three ways to order the same ring",
  ({ load, ...ring }) => {
    const byForce = designRing({ ...ring, load });
    const { bore, closedGap, section } = ring;
    const contactPressure = (2 * load.tangentialForce) / (bore * section.axialHeight);
    const byPressure = designRing({ ...ring, load: { contactPressure } });
    // Two roundings.
    expect(relativeError(byPressure.stiffnessParameter, byForce.stiffnessParameter)).toBeLessThan(1e-15);
    const byGap = designRing({ ...ring, load: { freeGap: byForce.free.gap } });
    // The gap of two K that differ by rounding differs by rounding of coordinates, 1e-15·bore; that, over the
    // opening, is the relative error of K. Opening 3π·K·r > 0.4 % of the bore.
    const opening = byForce.free.gap - closedGap;
    const tolerance = (4e-15 * bore) / opening;
    expect(relativeError(byGap.stiffnessParameter, byForce.stiffnessParameter)).toBeLessThan(tolerance);
    expect(relativeError(byGap.load.tangentialForce, load.tangentialForce)).toBeLessThan(tolerance);
    expect(relativeError(byGap.load.contactPressure, contactPressure)).toBeLessThan(tolerance);
    expect(Math.abs(byGap.load.freeGap - byForce.free.gap)).toBeLessThan(4e-15 * bore);
  },
);

property.prop([sensibleRing, fc.integer({ min: 20, max: 400 }), fc.integer({ min: 50, max: 300 })], runs(60))(
  "a ring L times as large of a material c times as stiff, at the same K, has L times the shape",
  (spec, lengthPercent, modulusPercent) => {
    const [L, c] = [lengthPercent / 100, modulusPercent / 100];
    const one = designRing(spec);
    const other = designRing({
      ...spec,
      bore: L * spec.bore,
      closedGap: L * spec.closedGap,
      section: {
        radialThickness: L * spec.section.radialThickness,
        axialHeight: L * spec.section.axialHeight,
      },
      material: { ...spec.material, youngsModulus: c * spec.material.youngsModulus },
      load: { tangentialForce: c * L ** 2 * spec.load.tangentialForce },
    });
    // Dimensional analysis: K, angles and strains do not change; the rest goes with its unit. Rounding: K and r differ
    // in the last digits, and the shape of size `bore` with them.
    const digits = 3e-14;
    const r = one.installed.centroidRadius;
    expect(relativeError(other.stiffnessParameter, one.stiffnessParameter)).toBeLessThan(digits);
    expect(largestDifference(L, one.free.x, other.free.x)).toBeLessThan(digits * L * r);
    expect(largestDifference(L, one.free.y, other.free.y)).toBeLessThan(digits * L * r);
    expect(largestDifference(L, one.free.arcLength, other.free.arcLength)).toBeLessThan(digits * L * r);
    expect(largestDifference(1, one.free.tangent, other.free.tangent)).toBeLessThan(digits);
    expect(largestDifference(1 / L, one.free.curvature, other.free.curvature)).toBeLessThan(digits / L / r);
    expect(relativeError(other.stress.closing.max, c * one.stress.closing.max)).toBeLessThan(digits);
    const [largestMoment] = [Math.max(...other.installed.moment)];
    expect(largestDifference(c * L ** 3, one.installed.moment, other.installed.moment)).toBeLessThan(
      digits * largestMoment,
    );
    expect(relativeError(other.load.contactPressure, c * one.load.contactPressure)).toBeLessThan(digits);
  },
);

property.prop([sensibleRing, fc.constantFrom(0, 0.1, 0.45, 0.5)], runs(30))(
  "Poisson's ratio changes nothing but the spec and the words of a warning",
  (spec, poissonRatio) => {
    const { spec: _, warnings: _words, ...one } = designRing(spec);
    const {
      spec: _2,
      warnings: _words2,
      ...other
    } = designRing({
      ...spec,
      material: { ...spec.material, poissonRatio },
    });
    expect(other).toEqual(one);
  },
);

property.prop([sensibleRing], runs(60))("the left half is the mirror image of the right half", (spec) => {
  const { installed, free, outline } = designRing(spec);
  const mirrors = (values: readonly number[], parity: 1 | -1) =>
    values.every((value, i) => value === parity * values[values.length - 1 - i]);
  const { theta, x, y, tangent, curvature, arcLength } = free;
  expect([theta, x, tangent, installed.theta, installed.shear].map((odd) => mirrors(odd, -1))).not.toContain(
    false,
  );
  expect(
    [y, curvature, installed.pressure, installed.moment, installed.normal].map((even) => mirrors(even, 1)),
  ).not.toContain(false);
  for (const face of [outline.outer, outline.inner]) {
    expect(
      mirrors(
        face.map(([px]) => px),
        -1,
      ),
    ).toBe(true);
    expect(
      mirrors(
        face.map(([, py]) => py),
        1,
      ),
    ).toBe(true);
  }
  const length = arcLength[arcLength.length - 1];
  expect(arcLength[0]).toBe(0);
  // One addition each.
  for (const [i, s] of arcLength.entries()) {
    expect(Math.abs(s + arcLength[arcLength.length - 1 - i] - length)).toBeLessThan(4e-16 * length);
  }
});

property.prop([sensibleRing, growth], runs(60))(
  "a larger force opens the free gap further",
  (spec, factor) => {
    const { load, ...ring } = spec;
    const stronger = designRing({ ...ring, load: { tangentialForce: factor * load.tangentialForce } });
    const design = designRing(spec);
    expect(design.free.gap).toBeGreaterThan(spec.closedGap);
    expect(stronger.free.gap).toBeGreaterThan(design.free.gap);
  },
);

test("K is Ft·r²/(E·I)", () => {
  const { load: _, ...ferry } = DEMO_RINGS["ferry 118 mm"];
  const design = designRing(withK({ ...ferry, theory: "curved" }, 0.03));
  expect(relativeError(design.stiffnessParameter, 0.03)).toBeLessThan(1e-15);
  // The same by hand: E·h·a³/12·0.03/56.8² with a = 4.4, h = 2.
  const byHand = (205000 * ((2 * 4.4 ** 3) / 12) * 0.03) / 56.8 ** 2;
  expect(relativeError(forceForK({ ...ferry, theory: "curved" }, 0.03), byHand)).toBeLessThan(1e-15);
});
