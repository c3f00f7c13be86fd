import { test as property } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { designRing } from "../src/index.js";
import { backOf, DEMO_NAMES, DEMO_RINGS, relativeError, runs, sensibleRing } from "./rings.js";

/** The free centroid line: x, y, tangent, arcLength and curvature must tell of one and the same curve. */

/** Derivative to the station index by the central difference of order eight (B. Fornberg's table, from memory). */
function derivative(f: readonly number[], i: number): number {
  return (
    (4 / 5) * (f[i + 1] - f[i - 1]) -
    (1 / 5) * (f[i + 2] - f[i - 2]) +
    (4 / 105) * (f[i + 3] - f[i - 3]) -
    (1 / 280) * (f[i + 4] - f[i - 4])
  );
}

property.prop([sensibleRing], runs(60))("the arrays agree with each other as one curve", (spec) => {
  const { free, installed } = designRing(spec);
  const { theta, x, y, tangent, curvature, arcLength, gap } = free;
  const r = installed.centroidRadius;
  const step = theta[1] - theta[0];
  // At 1° a step the difference formula itself is good to 1e-16. Rounding of values up to 2π (of r) is 1e-15, and
  // differences divide it by the step.
  const tolerance = 2e-15 / step;
  let [worstTurn, worstX, worstY] = [0, 0, 0];
  for (let i = 4; i < x.length - 4; i++) {
    const ds = derivative(arcLength, i) / step;
    worstTurn = Math.max(worstTurn, Math.abs(derivative(tangent, i) / step - curvature[i] * ds));
    worstX = Math.max(worstX, Math.abs(derivative(x, i) / step - ds * Math.cos(tangent[i])));
    worstY = Math.max(worstY, Math.abs(derivative(y, i) / step - ds * Math.sin(tangent[i])));
  }
  expect(worstTurn).toBeLessThan(tolerance);
  expect(worstX).toBeLessThan(tolerance * r);
  expect(worstY).toBeLessThan(tolerance * r);
  expect(gap).toBe(x[x.length - 1] - x[0]);
});

property.prop([sensibleRing], runs(60))(
  "stands on the back of the closed ring, in the fixed frame",
  (spec) => {
    const design = designRing(spec);
    const { theta, x, y, tangent } = design.free;
    const back = backOf(design);
    const { centroidRadius: r, outerRadius } = design.installed;
    expect([x[back], y[back], tangent[back], theta[back]]).toEqual([0, -r, 0, 0]);
    expect(r).toBe((spec.bore - spec.section.radialThickness) / 2);
    expect(outerRadius).toBe(spec.bore / 2);
    // 2·stations + 1 equal steps from −θC to θC = π − asin(s/(2r)), the left end first.
    expect(theta.length).toBe(2 * design.spec.stations + 1);
    expect(theta).toEqual(design.installed.theta);
    const limit = Math.PI - Math.asin(spec.closedGap / (2 * r));
    for (const [i, angle] of theta.entries()) {
      expect(Math.abs(angle - (limit * (i - back)) / back)).toBeLessThan(1e-15 * Math.PI);
    }
    expect(x[0]).toBeLessThan(0);
  },
);

property.prop([sensibleRing], runs(60))("the thin ring with a gap has its tangent in closed form", (spec) => {
  const { free, installed, stiffnessParameter: K } = designRing({ ...spec, theory: "thin" });
  // Worked: M″ + M = h·R·r·p₀·(1 + e·cos θ) with M = M′ = 0 at θL gives M/(Ft·r) = 1 + C·cos θ + ½·e·θ·sin θ; the
  // turn is K times its integral. e from ∫p·cos θ = 0, C from M(θL) = 0.
  const L = Math.PI - Math.asin(spec.closedGap / spec.bore);
  const e = -Math.sin(L) / (L / 2 + Math.sin(2 * L) / 4);
  const C = -(1 + (e / 2) * L * Math.sin(L)) / Math.cos(L);
  const r = installed.centroidRadius;
  for (const [i, theta] of free.theta.entries()) {
    const moment = theta + C * Math.sin(theta) + (e / 2) * (Math.sin(theta) - theta * Math.cos(theta));
    expect(Math.abs(free.tangent[i] - (theta - K * moment))).toBeLessThan(1e-14);
    // The thin line does not stretch.
    expect(Math.abs(free.arcLength[i] - r * (theta - free.theta[0]))).toBeLessThan(3e-15 * Math.PI * r);
  }
});

property.prop([sensibleRing], runs(60))("is straighter than the circle, most so at the back", (spec) => {
  const design = designRing(spec);
  const { curvature } = design.free;
  const r = design.installed.centroidRadius;
  const flattest = Math.min(...curvature);
  expect(flattest).toBe(curvature[backOf(design)]);
  // K ≤ 0.2: κ₀·r = 1 − 2K at the back, less what gap and wall change.
  expect(flattest * r).toBeGreaterThan(0.5);
  // The ends carry no moment. Their curvature passes 1/r by the rate of the shear angle alone, 12/5·p·h·R/(E·A), which
  // is K·(a/r)²/5·p/p₀, with p/p₀ = 1 − e at the gap.
  const t = spec.section.radialThickness / r;
  const shear = (design.stiffnessParameter * t ** 2 * (1 - design.load.balance)) / 5;
  expect(curvature[0] * r).toBeLessThan(1 + shear + 1e-15);
});

test.each(DEMO_NAMES)("the curved and the thin ring of the %s differ by terms of order a/r only", (name) => {
  const curved = designRing({ ...DEMO_RINGS[name], theory: "curved" });
  const thin = designRing({ ...DEMO_RINGS[name], theory: "thin" });
  const t = DEMO_RINGS[name].section.radialThickness / curved.installed.centroidRadius;
  const opening = curved.free.gap - curved.spec.closedGap;
  // By hand: bending t²/30, shear and normal force some t²/5 each, all of the opening.
  expect(relativeError(thin.free.gap - thin.spec.closedGap, opening)).toBeLessThan(t ** 2 / 2);
  expect(thin.free.gap).not.toBe(curved.free.gap);
});
