import { describe, expect, test } from "vitest";
import { closeInBore, ringOfCurvature } from "../src/index.js";
import { reached } from "./reached.js";
import reference from "./reference/contact-scipy.json" with { type: "json" };
import { DEMO_RINGS } from "./rings.js";

/**
 * Contact against another solver: the same convex programme, thin theory and few steps, as bounded least squares by
 * scipy's active-set method, whose answer is exact to rounding. Recipe and versions are in the reference file.
 */

const { load: _, ...FERRY } = DEMO_RINGS["ferry 118 mm"];
const { bore, closedGap, section, material } = FERRY;
const { radialThickness: a, axialHeight: h } = section;
const r = (bore - a) / 2;
const EI = (material.youngsModulus * h * a ** 3) / 12;
const K = (0.15 * h * (bore / 2) * r ** 2) / EI;
/** The curvatures as the reference file writes them. */
const CURVATURES: Record<string, (theta: number) => number> = {
  "1/58": () => 1 / 58,
  "(1 - K*(1 + cos theta))/r, K = 0.15*h*(d1/2)*r^2/EI": (theta) => (1 - K * (1 + Math.cos(theta))) / r,
};

describe.each(reference.cases)("a ring $name", ({ curvature, diameter, harmonics, force, clearance }) => {
  const ring = ringOfCurvature({ ...FERRY, theory: "thin" }, CURVATURES[curvature]);
  const closure = closeInBore(ring, { diameter, harmonics }, { stations: reference.steps / 2 });
  const last = reference.steps;
  const overhang = Math.asin(closedGap / (2 * r)) - Math.asin(closedGap / bore);
  const step = closure.theta[1] - closure.theta[0];
  const share = (i: number) =>
    i === 0 || i === last ? step / 2 + (overhang * r) / ((diameter - a) / 2) : step;
  const found = closure.pressure.map((p, i) => p * h * share(i) * (diameter / 2));
  const largest = Math.max(...force);

  test("touches at the same nodes with the same forces", () => {
    expect(found).toHaveLength(last + 1);
    for (const [i, value] of force.entries()) {
      if (value > 0) expect(closure.clearance[i], `node ${i}`).toBeLessThan(1e-12);
      // Twelve digits in the file; w good to 1e-16 mm of 0.1 in E·I·w/(r·step)³ · 6 = 1.4e6 N/mm · w is 1e-10 of 2 N.
      expect(Math.abs(found[i] - value), `node ${i}`).toBeLessThan(1e-10 * largest);
    }
  });

  test("stands off the bore by the same clearance elsewhere", () => {
    // Twelve digits in the file; the rows over the lifted nodes have a condition of 50 to 140, its square times 1e-16 mm.
    for (const [i, value] of clearance.entries())
      reached("contact", "clearance", Math.abs(closure.clearance[i] - value), 5e-12);
    expect(Math.max(...clearance)).toBeGreaterThan(0.002);
  });

  test("is pressed with as much force in all", () => {
    const total = force.reduce((sum, one) => sum + one, 0);
    expect(Math.abs(closure.force - total)).toBeLessThan(1e-10 * total);
    // Forces balance to the rounding of single ones.
    expect(closure.forceResidual).toBeLessThan(1e-10);
  });
});
