import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { readSpec } from "../src/index.js";
import { readQuantity } from "../src/spec/quantity.js";
import { DEMO_RINGS, relativeError, runs } from "./rings.js";

/** Quantities as text. Inch and pound-force are exact by definition: 25.4 mm, 4.4482216152605 N. */

const POUND = 4.4482216152605;
const PSI = POUND / 25.4 ** 2;

describe("readQuantity turns text into mm, N or MPa:", () => {
  test.each([
    ["length", "118 mm", 118],
    ["length", "118mm", 118],
    ["length", " 11.8 cm ", 118],
    ["length", "0.118 m", 118],
    ["length", "450 um", 0.45],
    ["length", "450 µm", 0.45],
    ["length", "3.5 in", 3.5 * 25.4],
    ["length", '3.5"', 3.5 * 25.4],
    ["length", "3 1/2 in", 3.5 * 25.4],
    ["length", "3-1/2 in", 3.5 * 25.4],
    ["length", "1/8 inch", 25.4 / 8],
    ["length", "18 thou", 18 * 0.0254],
    ["length", "4.5e-1 mm", 0.45],
    ["force", "12 N", 12],
    ["force", "0.012 kN", 12],
    ["force", "2.7 lbf", 2.7 * POUND],
    ["pressure", "0.15 MPa", 0.15],
    ["pressure", "0.15 N/mm2", 0.15],
    ["pressure", "0.15 N/mm²", 0.15],
    ["pressure", "150 kPa", 0.15],
    ["pressure", "1.5 bar", 0.15],
    ["pressure", "22 psi", 22 * PSI],
    ["pressure", "29.5 ksi", 29500 * PSI],
    ["pressure", "205 GPa", 205000],
  ] as const)("%s %s", (dimension, text, expected) => {
    const read = readQuantity(text, dimension) as number;
    // One multiplication on each side.
    expect(relativeError(read, expected)).toBeLessThan(5e-16);
  });

  property.prop([fc.double({ min: 1e-300, max: 1e300, noNaN: true })], runs(300))(
    "a number printed with its own unit comes back to the last bit",
    (value) => {
      expect(readQuantity(`${value} mm`, "length")).toBe(value);
    },
  );

  test("1 psi is 6894.757 Pa", () => {
    // NIST Special Publication 811, appendix B (6.894 757 E+03), from memory.
    expect(((readQuantity("1 psi", "pressure") as number) * 1e6).toFixed(3)).toBe("6894.757");
  });
});

test("readSpec takes a unit in every place where a length, force or pressure stands", () => {
  const spec = readSpec({
    bore: "4 1/2 in",
    closedGap: "18 thou",
    section: { radialThickness: "0.18 in", axialHeight: '3/32"' },
    material: { youngsModulus: "205 GPa", stressLimit: "60 ksi" },
    load: { tangentialForce: "2.7 lbf" },
  });
  expect(spec.bore).toBeCloseTo(114.3, 12);
  expect(spec.closedGap).toBeCloseTo(0.4572, 14);
  expect(spec.section.radialThickness).toBeCloseTo(4.572, 14);
  expect(spec.section.axialHeight).toBeCloseTo(2.38125, 14);
  expect(spec.material.youngsModulus).toBe(205000);
  expect(spec.material.stressLimit).toBeCloseTo(60000 * PSI, 10);
  expect(spec.load).toEqual({ tangentialForce: 2.7 * POUND });
  const { load: _, ...ferry } = DEMO_RINGS["ferry 118 mm"];
  expect(readSpec({ ...ferry, load: { contactPressure: "22 psi" } }).load).toEqual({
    contactPressure: 22 * PSI,
  });
  expect(readSpec({ ...ferry, load: { freeGap: "7/16 in" } }).load).toEqual({
    freeGap: (7 / 16) * 25.4,
  });
});
