import { describe, expect, test } from "vitest";
import { designRing, MATERIALS, type Material, SpecError } from "../src/index.js";
import { growthAt, softeningAt } from "../src/spec/materialAt.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError } from "./rings.js";

/** Materials at a temperature by hand interpolation, and the presets' data against each other and against a ring. */

/** A few operations on numbers near 1. */
const ROUNDING = 4e-16;
const PRESETS = Object.entries(MATERIALS);

/** An invented steel: mean expansion from 20 °C and modulus. */
const STEEL = {
  name: "an invented steel",
  youngsModulus: 206000,
  poissonRatio: 0.3,
  expansion: { temperature: [100, 200, 400], value: [11e-6, 12e-6, 13e-6] },
  modulus: { temperature: [20, 120, 320], value: [206000, 200000, 180000] },
} satisfies Material;

function refusalOf(call: () => unknown): SpecError {
  let error: unknown;
  try {
    call();
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^[^\n]{1,300}$/);
  return error as SpecError;
}

describe("a size at a temperature over that at 20 °C, 1 + α·(T − 20) with the mean coefficient between the points,", () => {
  test.each([
    // By hand.
    ["is 1 at 20 °C", 20, 0],
    ["at a point takes its value", 100, 80 * 11e-6],
    ["half way takes the mean of both", 150, 130 * 11.5e-6],
    ["takes a quarter from the farther point", 250, 230 * 12.25e-6],
    ["at the last point takes its value", 400, 380 * 13e-6],
    ["goes on with the last value for 50 K", 450, 430 * 13e-6],
    ["below the first point takes its value", 60, 40 * 11e-6],
    ["shrinks in the cold", -40, -60 * 11e-6],
  ])("%s: %d °C", (_, temperature, growth) => {
    expect(Math.abs(growthAt(STEEL, temperature, "ring") - (1 + growth))).toBeLessThan(ROUNDING);
  });

  test("of a table with one point has that everywhere", () => {
    const iron = { expansion: { temperature: [400], value: [12.5e-6] } };
    for (const temperature of [-100, 20, 200, 400, 450])
      expect(growthAt(iron, temperature, "ring")).toBeCloseTo(1 + 12.5e-6 * (temperature - 20), 15);
  });

  test("is refused beyond the data, by what was asked for and how far they go", () => {
    for (const temperature of [450.1, 800]) {
      const error = refusalOf(() => growthAt(STEEL, temperature, "heat.ring"));
      expect(error.field).toBe("heat.ring.temperature");
      expect(error.value).toBe(temperature);
      expect(error.allowed).toMatch(/at most 450 °C.* end at 400 °C/);
    }
  });

  test("is refused where no expansion is known, by the material's name", () => {
    const wire = { name: "chrome-silicon wire", ...MATERIALS["chrome-silicon wire"] };
    const error = refusalOf(() => growthAt(wire, 180, "ring"));
    expect(error.field).toBe("ring.material");
    expect(error.value).toBe("chrome-silicon wire");
    expect(error.allowed).toMatch(/expansion/);
    expect(refusalOf(() => growthAt({}, 180, "bore")).field).toBe("bore.material");
  });
});

describe("a modulus at a temperature over that at 20 °C", () => {
  test.each([
    // By hand.
    ["is 1 at 20 °C", 20, 206000],
    ["half way is the mean of both", 70, 203000],
    ["takes a quarter from the farther point", 170, 195000],
    ["at the last point takes its value", 320, 180000],
    ["goes on with the last value for 50 K", 370, 180000],
    ["in the cold is the first value", -50, 206000],
  ])("%s: %d °C", (_, temperature, modulus) => {
    expect(Math.abs(softeningAt(STEEL, temperature, "ring") - modulus / 206000)).toBeLessThan(ROUNDING);
  });

  test("is taken over the table's own value at 20 °C, not over the modulus of the cold ring", () => {
    // 202000 half way from 200000 to 204000 at 20 °C.
    const modulus = { temperature: [10, 30, 230], value: [204000, 200000, 150000] };
    expect(softeningAt({ modulus }, 130, "ring")).toBeCloseTo(175000 / 202000, 15);
  });

  test("is 1 where no table is known, however hot", () => {
    expect(softeningAt({}, 900, "ring")).toBe(1);
  });

  test("is refused beyond the data, by what was asked for and how far they go", () => {
    const error = refusalOf(() => softeningAt(STEEL, 371, "ring"));
    expect(error.field).toBe("ring.temperature");
    expect(error.value).toBe(371);
    expect(error.allowed).toMatch(/at most 370 °C.* end at 320 °C/);
  });
});

describe("the presets", () => {
  test.each(["1.4112", "1.4122", "1.4125"])("give %s the data of EN 10088-1", (name) => {
    // EN 10088-1, physical properties of martensitic stainless steels (read in a reprint; density from memory): kN/mm² at 20 to
    // 400 °C, 10⁻⁶/K from 20 to 100 … 400 °C, kg/dm³.
    const { modulus, expansion, density, youngsModulus } = MATERIALS[name];
    expect(modulus).toEqual({
      temperature: [20, 100, 200, 300, 400],
      value: [215, 212, 205, 200, 190].map((value) => value * 1000),
    });
    expect(expansion?.temperature).toEqual([100, 200, 300, 400]);
    expect(expansion?.value.map((value) => (value * 1e6).toFixed(1))).toEqual([
      "10.4",
      "10.8",
      "11.2",
      "11.6",
    ]);
    expect(density).toBe(7700);
    expect(youngsModulus).toBe(215000);
  });

  test.each([
    // EN 1563:1997, informative annex (moduli and proof stresses read in a reprint; densities and expansion from memory).
    ["EN-GJS-500-7", 169000, 320, 7100],
    ["EN-GJS-600-3", 174000, 370, 7200],
    ["EN-GJS-700-2", 176000, 420, 7200],
    ["EN-GJS-800-2", 176000, 480, 7200],
  ])("give %s the data of EN 1563", (name, youngsModulus, proofStress, density) => {
    expect(MATERIALS[name]).toMatchObject({
      youngsModulus,
      density,
      stressLimit: proofStress,
      yieldStress: proofStress,
    });
    // Its designation names the tensile strength, which the proof stress stays below.
    expect(proofStress).toBeLessThan(Number(name.split("-")[2]));
    expect(MATERIALS[name].expansion).toEqual({ temperature: [400], value: [12.5e-6] });
  });

  test("give grey iron the middle of EN 1561's range, and wire its 29.5e6 psi", () => {
    // EN 1561, annex: 103 to 118 kN/mm² for EN-GJL-250 (from memory).
    const { youngsModulus, expansion } = MATERIALS["EN-GJL-250"];
    expect(Math.abs(youngsModulus - (103000 + 118000) / 2)).toBeLessThan(1000);
    expect(expansion).toEqual({ temperature: [200, 400], value: [11.7e-6, 13e-6] });
    // Wire tables; a psi is 4.4482216152605/25.4² MPa by definition. Printed to three figures.
    const wire = (29.5e6 * 4.4482216152605) / 25.4 ** 2;
    expect(relativeError(MATERIALS["chrome-silicon wire"].youngsModulus, wire)).toBeLessThan(0.003);
  });

  test.each(PRESETS)("know %s within what metals have", (_, material) => {
    // Common practice, no source: iron and steel are 90 to 230 GPa, 0.2 to 0.35, 6.9 to 8.1 g/cm³ and 9 to 20·10⁻⁶/K.
    const { youngsModulus, poissonRatio, density, stressLimit, yieldStress, modulus, expansion } = material;
    expect(youngsModulus).toBeGreaterThan(90000);
    expect(youngsModulus).toBeLessThan(230000);
    expect(poissonRatio).toBeGreaterThan(0.2);
    expect(poissonRatio).toBeLessThan(0.35);
    expect(density).toBeGreaterThan(6900);
    expect(density).toBeLessThan(8100);
    for (const value of expansion?.value ?? []) {
      expect(value).toBeGreaterThan(9e-6);
      expect(value).toBeLessThan(20e-6);
    }
    if (stressLimit !== undefined && yieldStress !== undefined)
      expect(stressLimit).toBeLessThanOrEqual(yieldStress);
    for (const table of [modulus, expansion]) {
      if (!table) continue;
      expect(table.value).toHaveLength(table.temperature.length);
      expect([...table.temperature].sort((one, other) => one - other)).toEqual(table.temperature);
      expect(new Set(table.temperature).size).toBe(table.temperature.length);
    }
    if (!modulus) return;
    // At 20 °C the table says what the cold ring has, and heat softens.
    expect(modulus.value[modulus.temperature.indexOf(20)]).toBe(youngsModulus);
    for (let k = 1; k < modulus.value.length; k++)
      expect(modulus.value[k]).toBeLessThan(modulus.value[k - 1]);
  });

  test.each(PRESETS)(
    "design every demonstration ring of %s, the same as its data in full do",
    (name, material) => {
      for (const ring of DEMO_NAMES) {
        const byName = designRing({ ...DEMO_RINGS[ring], material: name });
        const inFull = designRing({ ...DEMO_RINGS[ring], material: { name, ...material } });
        expect(byName).toStrictEqual(inFull);
        expect(byName.spec.material).toStrictEqual({ name, ...material });
        // K goes with 1/E.
        const other = designRing(DEMO_RINGS[ring]);
        const ratio = DEMO_RINGS[ring].material.youngsModulus / material.youngsModulus;
        expect(relativeError(byName.stiffnessParameter, ratio * other.stiffnessParameter)).toBeLessThan(
          1e-14,
        );
      }
    },
  );

  test.each([
    // By hand, thin: 6·Ft·(d1 − a1)/(h·a1²), Ft = p₀·d1·h/2: 311 MPa at p₀ = 0.15 MPa, 332 at 0.16.
    ["EN-GJS-500-7", 0.15, false],
    ["EN-GJS-500-7", 0.16, true],
    ["EN-GJS-600-3", 0.16, false],
    ["EN-GJL-250", 0.16, false],
  ])("warn of %s at %d MPa where its proof stress is passed: %s", (material, contactPressure, over) => {
    const spec = {
      ...DEMO_RINGS["ferry 118 mm"],
      material,
      load: { contactPressure },
      theory: "thin" as const,
    };
    expect(designRing(spec).warnings.some(({ code }) => code === "stress-over-limit")).toBe(over);
  });

  test.each(PRESETS.filter(([, { expansion }]) => expansion))("let %s be warmed to 400 °C", (_, material) => {
    expect(growthAt(material, 400, "ring")).toBeGreaterThan(1.003);
    expect(growthAt(material, 400, "ring")).toBeLessThan(1.008);
    const softening = softeningAt(material, 400, "ring");
    expect(softening).toBeLessThanOrEqual(1);
    expect(softening).toBeGreaterThan(0.8);
  });

  test("stay as they are when a design made of one is written into", () => {
    const before = structuredClone(MATERIALS["1.4112"]);
    const { spec } = designRing({ ...DEMO_RINGS["ferry 118 mm"], material: "1.4112" });
    const table = spec.material.modulus as { value: number[] };
    const first = table.value[0];
    try {
      table.value[0] = 1;
      expect(MATERIALS["1.4112"]).toEqual(before);
    } catch (error) {
      // A frozen preset is as good.
      if (!(error instanceof TypeError)) throw error;
    } finally {
      if (!Object.isFrozen(table.value)) table.value[0] = first;
    }
  });
});

test("the data of a material survive reading as they were given, in the library's units", () => {
  const { spec } = designRing({
    ...DEMO_RINGS["ferry 118 mm"],
    material: {
      youngsModulus: "206 GPa",
      density: "7.8 g/cm3",
      // As good as left out.
      stressLimit: undefined,
      yieldStress: "1 GPa",
      modulus: { temperature: ["20 °C", "320 degC"], value: ["206 GPa", 180000] },
      expansion: { temperature: [400], value: [13e-6] },
    },
  });
  expect(spec.material).toStrictEqual({
    youngsModulus: 206000,
    poissonRatio: 0.3,
    yieldStress: 1000,
    density: 7800,
    modulus: { temperature: [20, 320], value: [206000, 180000] },
    expansion: { temperature: [400], value: [13e-6] },
  });
});
