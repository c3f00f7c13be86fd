import { describe, expect, test } from "vitest";
import {
  type DiametralOptions,
  designRing,
  diametralTest,
  ringOfCurvature,
  SpecError,
  tapeTest,
} from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

const FERRY = DEMO_RINGS["ferry 118 mm"];

describe("what the gauges refuse", () => {
  const design = designRing(FERRY);
  const free = tapeTest(design).freeGap;
  const refused = (call: () => unknown, field: string, allowed: RegExp) => {
    expect(call).toThrow(SpecError);
    expect(call).toThrow(new RegExp(`^${field} = `));
    expect(call).toThrow(allowed);
  };

  test.each([Number.NaN, -0.001, free + 0.001, Infinity])("a gap of %s mm, with the range", (gap) => {
    refused(() => tapeTest(design, { gap }), "gap", /from 0 to the free gap, 11\.114\d mm/);
    refused(() => diametralTest(design, { gap }), "gap", /from 0 to .*11\.114\d mm/);
  });

  test.each([Number.NaN, -1, 0, Infinity, 300])("a width of %s mm", (width) => {
    refused(() => diametralTest(design, { width }), "width", /must be/);
  });

  test("a width above the free one: plates do not pull", () => {
    const { diameterAcross } = tapeTest(design, { gap: free });
    refused(() => diametralTest(design, { width: diameterAcross + 0.1 }), "width", /must be/);
  });

  test("a width at which the ends would go through each other", () => {
    const { width } = diametralTest(design, { gap: 0 });
    refused(() => diametralTest(design, { width: width - 0.1 }), "width", /must be/);
  });

  test("both a gap and a width", () => {
    const both = { gap: 1, width: 118 } as unknown as DiametralOptions;
    expect(() => diametralTest(design, both)).toThrow(SpecError);
  });

  test("but not the free gap itself, as the design gives it", () => {
    // Nil to rounding of the free gap, 1e-13 mm at some N per mm.
    for (const take of [tapeTest, diametralTest])
      expect(Math.abs(take(design, { gap: design.free.gap }).force)).toBeLessThan(1e-9);
  });

  test("a ring whose free ends overlap: nothing closes it", () => {
    // Turned to 1 % less than the closed radius: its gap would be 2·sin(−0.01·π)·ρ.
    const { load: _, ...body } = FERRY;
    const ring = ringOfCurvature({ ...body, closedGap: 0 }, 1.01 / 56.8);
    expect(() => tapeTest(ring)).toThrow(SpecError);
    expect(() => diametralTest(ring, { gap: 0 })).toThrow(SpecError);
  });
});
