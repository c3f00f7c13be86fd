import { describe, expect, test } from "vitest";
import { designRing } from "../src/index.js";
import type { RingSpecInput } from "../src/spec/schema.js";
import { DEMO_NAMES, DEMO_RINGS } from "./rings.js";

/** A result outside what the theory was checked for stands, with a warning; each warning is provoked here. */

const ferry: RingSpecInput = DEMO_RINGS["ferry 118 mm"];

function codes(change: Partial<RingSpecInput>): string[] {
  return designRing({ ...ferry, ...change }).warnings.map(({ code }) => code);
}

test.each(DEMO_NAMES)("the %s comes without a warning", (name) => {
  expect(designRing(DEMO_RINGS[name]).warnings).toEqual([]);
});

describe("designRing warns", () => {
  const stress = designRing(ferry).stress.closing.max;

  test("stress-over-limit, from just below the closing stress on", () => {
    const limit = (stressLimit: number) => codes({ material: { youngsModulus: 205000, stressLimit } });
    expect(limit(stress * 0.999)).toEqual(["stress-over-limit"]);
    expect(limit(stress * 1.001)).toEqual([]);
  });

  test("large-strain, past a face strain of 1 %", () => {
    // Thin ring: ε = 6·Ft·(d − a)/(E·h·a²) with Ft = p·d·h/2, here 3·p·118·113.6/(205000·4.4²): 1 % at 0.987 MPa.
    expect(codes({ theory: "thin", load: { contactPressure: 0.98 } })).toEqual([]);
    expect(codes({ theory: "thin", load: { contactPressure: 1 } })).toEqual(["large-strain"]);
  });

  test("thick-wall, past a/r = 1/6", () => {
    // r = (118 − a)/2, so a/r = 1/6 at a = 118/13 = 9.077.
    const wall = (radialThickness: number) => codes({ section: { radialThickness, axialHeight: 2 } });
    expect(wall(9.07)).toEqual([]);
    expect(wall(9.08)).toEqual(["thick-wall"]);
  });

  test("tall-section, past h² = r·a", () => {
    // √(56.8·4.4) = 15.81.
    const height = (axialHeight: number) => codes({ section: { radialThickness: 4.4, axialHeight } });
    expect(height(15.8)).toEqual([]);
    expect(height(15.82)).toEqual(["tall-section"]);
  });

  test("ends-touch, for a closed gap of 0, which is allowed", () => {
    expect(codes({ closedGap: 0 })).toEqual(["ends-touch"]);
    expect(codes({ closedGap: 1e-9 })).toEqual([]);
  });

  test("in one line each", () => {
    const { warnings } = designRing({
      ...ferry,
      closedGap: 0,
      section: { radialThickness: 12, axialHeight: 40 },
      material: { youngsModulus: 205000, stressLimit: 100 },
      load: { freeGap: 40 },
    });
    expect(warnings.map(({ code }) => code)).toEqual([
      "stress-over-limit",
      "large-strain",
      "thick-wall",
      "tall-section",
      "ends-touch",
    ]);
    for (const { message } of warnings) expect(message).toMatch(/^.{20,250}$/);
  });
});
