import { describe, expect, test } from "vitest";
import { designRing, type RingDesign } from "../src/index.js";
import { reached } from "./reached.js";
import table from "./reference/anger-weber.json" with { type: "json" };
import { backOf, relativeError } from "./rings.js";

/**
 * The thin ring with a closed gap under uniform pressure has a free shape in closed form:
 * ψ(θ) = θ − K·(θ + sin θ), half free gap = π·r·J(1 − K, K), back-to-tip height = π·r·E(1 − K, K),
 * with Anger's J and Weber's E of NIST DLMF 11.10.1–2.
 *
 * `reference/anger-weber.json`: those two integrals by mpmath at 40 digits, confirmed by the hypergeometric series.
 */

// Chosen so that E·I/r² = 131072·16/64² = 512 N: Ft = 512·K is then exact, and so is the K that the design sees.
const r = 64;
function ringWith(K: number): RingDesign {
  return designRing({
    bore: 132,
    closedGap: 0,
    section: { radialThickness: 4, axialHeight: 3 },
    material: { youngsModulus: 131072 },
    load: { tangentialForce: 512 * K },
    theory: "thin",
  });
}

function backToTip(design: RingDesign): number {
  const { y } = design.free;
  return y[y.length - 1] - y[backOf(design)];
}

// Some 180 additions of numbers near r leave an error near 1e-15·r; the smallest entry is 0.0047·r.
const TOLERANCE = 1e-12;

describe.each(table)("the thin ring with closed gap at K = $K", ({ K, J, E }) => {
  const design = ringWith(Number(K));

  test("has K exactly as ordered", () => {
    expect(design.stiffnessParameter).toBe(Number(K));
  });

  test("opens by twice π·r·J(1 − K, K)", () => {
    reached(
      "anger-weber",
      "free gap",
      relativeError(design.free.gap / 2, Math.PI * r * Number(J)),
      TOLERANCE,
    );
  });

  test("stands π·r·E(1 − K, K) high from back to tip", () => {
    reached(
      "anger-weber",
      "height from back to tip",
      relativeError(backToTip(design), Math.PI * r * Number(E)),
      TOLERANCE,
    );
  });

  test("has tangent θ − K·(θ + sin θ) all the way round", () => {
    for (const [i, theta] of design.free.theta.entries()) {
      // Angles up to π, so a few units of rounding, 4e-16 each, gathered over 180 steps.
      expect(Math.abs(design.free.tangent[i] - (theta - Number(K) * (theta + Math.sin(theta))))).toBeLessThan(
        1e-14,
      );
    }
  });
});

test("the free gap at small K follows the series 3π·K + (5π/2)·K² − 10.9216·K³", () => {
  // Expanding J(1 − K, K) in K; coefficients worked with mpmath to the digits shown.
  const cubic = (K: number) => {
    const opening = ringWith(K).free.gap / r;
    return (opening - 3 * Math.PI * K - 2.5 * Math.PI * K ** 2) / K ** 3;
  };
  // The next term makes an error proportional to K; extrapolating twice removes it and the one after.
  const [coarse, middle, fine] = [0.008, 0.004, 0.002].map(cubic) as [number, number, number];
  const extrapolated = (8 * fine - 6 * middle + coarse) / 3;
  // Half a unit of the last printed digit, twice for safety; rounding adds some 1e-15/K³ = 1e-7.
  expect(Math.abs(extrapolated - -10.9216)).toBeLessThan(1e-4);
  for (const K of [1e-6, 1e-5, 1e-4, 1e-3]) {
    const series = 3 * Math.PI * K + 2.5 * Math.PI * K ** 2 - 10.9216 * K ** 3;
    // 8·K⁴ bounds the first neglected term, found to be 7.0·K⁴; 1e-14 is rounding of coordinates of size 1.
    expect(Math.abs(ringWith(K).free.gap / r - series)).toBeLessThan(8 * K ** 4 + 1e-14);
  }
});
