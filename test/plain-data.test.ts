import { test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign, readSpec } from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, runs, sensibleRing } from "./rings.js";

/** Plain data in, plain data out: specs are normalised copies, designs survive JSON. */

describe("designRing returns plain data:", () => {
  const designs = DEMO_NAMES.map((name) => [name, designRing(DEMO_RINGS[name], { proof: true })] as const);

  test.each(designs)("the design of the %s survives JSON unchanged", (_name, design) => {
    // toStrictEqual also tells −0 from 0, NaN from null and a missing field from an undefined one.
    expect(JSON.parse(JSON.stringify(design))).toStrictEqual(design);
  });

  property.prop([sensibleRing], runs(30))("any sensible design survives JSON unchanged", (spec) => {
    const design = designRing(spec);
    expect(JSON.parse(JSON.stringify(design)) as RingDesign).toStrictEqual(design);
  });

  test("the same spec gives the same design, to the last bit", () => {
    expect(designRing(DEMO_RINGS["ferry 118 mm"], { proof: true })).toStrictEqual(designs[0][1]);
  });
});

describe("readSpec", () => {
  test("brings a spec in mixed units to bare numbers, with defaults filled in", () => {
    expect(
      readSpec({
        bore: "118 mm",
        closedGap: 0.45,
        section: { radialThickness: "4.4 mm", axialHeight: 2.0 },
        material: { youngsModulus: "205 GPa" },
        load: { contactPressure: "0.15 MPa" },
      }),
    ).toStrictEqual({
      bore: 118,
      closedGap: 0.45,
      section: { shape: "rectangle", radialThickness: 4.4, axialHeight: 2 },
      material: { youngsModulus: 205000, poissonRatio: 0.3 },
      load: { contactPressure: 0.15 },
      pressure: { shape: "uniform" },
      theory: "curved",
      stations: 180,
    });
  });

  test("puts a preset's data in the place of its name", () => {
    // EN 1563:1997, reprint: modulus 169 GPa and Rp0.2 = 320 MPa for 500-7; density and expansion from memory. Poisson's ratio is
    // common practice.
    const { material } = readSpec({ ...DEMO_RINGS["ferry 118 mm"], material: "EN-GJS-500-7" });
    expect(material).toStrictEqual({
      name: "EN-GJS-500-7",
      youngsModulus: 169000,
      poissonRatio: 0.275,
      stressLimit: 320,
      yieldStress: 320,
      density: 7100,
      expansion: { temperature: [400], value: [12.5e-6] },
    });
  });

  property.prop([sensibleRing], runs(30))("leaves a normalised spec as it is", (spec) => {
    const { spec: normalised } = designRing(spec);
    expect(readSpec(normalised)).toStrictEqual(normalised);
  });

  test("accepts the spec of a design whose material was a preset", () => {
    const { spec } = designRing({ ...DEMO_RINGS["ferry 118 mm"], material: "EN-GJS-500-7" });
    expect(readSpec(spec)).toStrictEqual(spec);
  });

  test("changes neither the input nor lets the design share it", () => {
    const input = {
      bore: "118 mm",
      closedGap: "18 thou",
      section: { radialThickness: 4.4, axialHeight: 2 },
      material: { youngsModulus: 205000 },
      load: { contactPressure: 0.15 },
    };
    const before = structuredClone(input);
    for (const part of [input, input.section, input.material, input.load]) Object.freeze(part);
    const { spec } = designRing(input);
    expect(input).toStrictEqual(before);
    expect(spec.section).not.toBe(input.section);
    expect(spec.material).not.toBe(input.material);
    expect(spec.load).not.toBe(input.load);
  });
});
