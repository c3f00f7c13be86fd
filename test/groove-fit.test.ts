import { describe, expect, test } from "vitest";
import {
  describeSection,
  designRing,
  engineFit,
  grooveFit,
  hotRing,
  type RingSpecInput,
  SpecError,
  spreadRing,
} from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_RINGS } from "./rings.js";

/** The ring in its groove, by limits of sizes worked by hand. */

// Round numbers for work by hand, no maker's data.
const expanding = (youngsModulus: number, expansion: number) => ({
  youngsModulus,
  expansion: { temperature: [300], value: [expansion] },
});
const STEEL = expanding(205000, 12e-6);
const ALLOY = expanding(70000, 21e-6);
const IRON = expanding(110000, 11e-6);

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], material: STEEL, stations: 48 };
const RING = designRing(FERRY).spec;
const PISTON = { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } };

/** Sums of lengths near 100 mm: rounding. */
function expectLimits(found: readonly number[], expected: readonly number[]): void {
  expect(found).toHaveLength(expected.length);
  for (const [k, value] of expected.entries()) expect(Math.abs(found[k] - value)).toBeLessThan(1e-12);
}

function refused(action: () => unknown): SpecError {
  let error: unknown;
  try {
    action();
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

const walled = (radialThickness: number, axialHeight = 2) => ({
  ...RING,
  section: { ...RING.section, radialThickness, axialHeight },
});

describe("a ring in its groove, cold", () => {
  test("has the clearances that plain sizes leave", () => {
    // Height 2, wall 4.4, groove 5.2 deep in a piston 0.6 mm smaller than the bore.
    const fit = grooveFit(RING, PISTON);
    expectLimits(fit.axialClearance, [0.05, 0.05]);
    expectLimits(fit.backClearance, [1.1, 1.1]);
    expectLimits(fit.sink, [0.8, 0.8]);
    expectLimits([fit.largestWall], [5.2]);
  });

  test("has its least clearances where all tolerances are against it, and its most where they are for it", () => {
    const fit = grooveFit(
      RING,
      { diameter: [117.35, 117.4], groove: { width: [2.04, 2.06], root: [106.9, 107] } },
      { tolerance: { wall: 0.05, height: 0.01 }, bore: [118, 118.03] },
    );
    expectLimits(fit.axialClearance, [2.04 - 2.01, 2.06 - 1.99]);
    expectLimits(fit.backClearance, [(118 - 107) / 2 - 4.45, (118.03 - 106.9) / 2 - 4.35]);
    expectLimits(fit.sink, [(117.35 - 107) / 2 - 4.45, (117.4 - 106.9) / 2 - 4.35]);
    expectLimits([fit.largestWall], [(117.35 - 107) / 2 - 0.05]);
  });

  test("is the same by the groove's depth as by its root, of one size", () => {
    const byRoot = grooveFit(RING, { diameter: 117.4, groove: { width: 2.05, root: 107 } });
    const byDepth = grooveFit(RING, PISTON);
    for (const key of ["axialClearance", "backClearance", "sink"] as const)
      expectLimits(byRoot[key], byDepth[key]);
  });

  test("has behind it what piston and depth leave to the bore, by all their limits", () => {
    const { backClearance } = grooveFit(RING, {
      diameter: [117.3, 117.4],
      groove: { width: 2.05, depth: [5.15, 5.2] },
    });
    expectLimits(backClearance, [(118 - 117.4) / 2 + 5.15 - 4.4, (118 - 117.3) / 2 + 5.2 - 4.4]);
  });

  test("sinks by the groove's depth less its wall, whatever the piston's diameter", () => {
    // A depth is measured from the piston's surface: how large the piston is does not come into it.
    const { sink, largestWall } = grooveFit(RING, {
      diameter: [117.3, 117.4],
      groove: { width: 2.05, depth: [5.15, 5.2] },
    });
    expectLimits(sink, [5.15 - 4.4, 5.2 - 4.4]);
    expectLimits([largestWall], [5.15]);
  });

  test("is read in any unit, and its input is left as it is", () => {
    const inches = frozen({
      diameter: ["4.620 in", "4.625 in"],
      groove: { width: "80 thou", depth: "0.2 in" },
      temperature: "20 °C",
    });
    const fit = grooveFit(RING, inches);
    expectLimits(fit.axialClearance, [0.032, 0.032]);
    expectLimits(fit.backClearance, [(118 - 117.475) / 2 + 0.68, (118 - 117.348) / 2 + 0.68]);
  });
});

describe("a ring in its groove, hot", () => {
  const hotPiston = { ...PISTON, material: ALLOY, temperature: 160 };
  const growth = { ring: 1 + 12e-6 * 160, piston: 1 + 21e-6 * 140, bore: 1 + 11e-6 * 100 };

  test("has the clearances of the sizes that all parts have grown to", () => {
    const fit = grooveFit(RING, hotPiston, { ringTemperature: 180, boreGrowth: growth.bore });
    expectLimits(fit.axialClearance, Array(2).fill(2.05 * growth.piston - 2 * growth.ring));
    const back = (118 * growth.bore - 107 * growth.piston) / 2 - 4.4 * growth.ring;
    expectLimits(fit.backClearance, [back, back]);
    expectLimits(fit.sink, Array(2).fill(5.2 * growth.piston - 4.4 * growth.ring));
    expectLimits([fit.largestWall], [(5.2 * growth.piston) / growth.ring]);
  });

  test("binds where the piston grows less than the ring", () => {
    const tight = { diameter: 117.4, groove: { width: 2.002, depth: 5.2 } };
    expectLimits(grooveFit(RING, tight).axialClearance, [0.002, 0.002]);
    const error = refused(() => grooveFit(RING, tight, { ringTemperature: 180 }));
    expect(error.field).toBe("section.axialHeight");
    // 2.002 − 2·1.00192 (by hand).
    expect(error.allowed).toMatch(/bind in the groove.*-0\.0018 mm/);
  });
});

describe("a ring that does not fit is refused:", () => {
  test("one that binds, with its clearance", () => {
    const error = refused(() => grooveFit(walled(4.4, 2.06), PISTON));
    expect(error.field).toBe("section.axialHeight");
    expect(error.value).toBe(2.06);
    expect(error.allowed).toMatch(/must be lower.*bind.*-0\.0100 mm/);
    expect(refused(() => grooveFit(RING, PISTON, { tolerance: { height: 0.06 } })).message).toMatch(/bind/);
  });

  test("one that would stand proud of the piston, with the wall that would not", () => {
    const error = refused(() => grooveFit(walled(5.3), PISTON));
    expect(error.field).toBe("section.radialThickness");
    expect(error.value).toBe(5.3);
    expect(error.allowed).toMatch(/at most 5\.2000 mm.*stand proud/);
  });

  test("one that bottoms, with the wall that would not", () => {
    // 5.5 mm from root to bore; proud it is, too.
    const error = refused(() => grooveFit(walled(5.6), PISTON));
    expect(error.field).toBe("section.radialThickness");
    expect(error.allowed).toMatch(/at most 5\.2000 mm.*bottom/);
  });

  test("but not one of the largest wall that is told, while a little more is", () => {
    const root = { diameter: 117.4, groove: { width: 2.05, root: 107.013 } };
    for (const piston of [PISTON, root]) {
      const { largestWall } = grooveFit(RING, piston);
      const { sink } = grooveFit(walled(largestWall - 1e-9), piston);
      expectLimits(sink, [1e-9, 1e-9]);
      expect(refused(() => grooveFit(walled(largestWall + 1e-9), piston)).message).toMatch(/stand proud/);
    }
  });

  test("with a largest wall that counts the wall's own tolerance", () => {
    const tolerance = { wall: 0.05 };
    const error = refused(() => grooveFit(walled(5.18), PISTON, { tolerance }));
    const told = Number(/at most ([\d.]+) mm/.exec(error.allowed)?.[1]);
    expect(told).toBeCloseTo(5.15, 6);
    expect(grooveFit(walled(told - 1e-6), PISTON, { tolerance }).sink[0]).toBeLessThan(1e-5);
  });
});

describe("grooveFit refuses", () => {
  const cases: [what: string, piston: Loose, field: string, words: RegExp][] = [
    ["no piston", undefined, "piston", /object/],
    ["no groove", { diameter: 117 }, "groove", /given/],
    ["a groove of no width", { diameter: 117, groove: { depth: 5 } }, "groove.width", /given/],
    [
      "neither root nor depth",
      { diameter: 117, groove: { width: 2.05 } },
      "groove",
      /exactly one of root, depth/,
    ],
    [
      "root and depth",
      { diameter: 117, groove: { width: 2.05, root: 107, depth: 5 } },
      "groove",
      /exactly one of root, depth/,
    ],
    [
      "a groove deeper than the piston",
      { diameter: 117, groove: { width: 2.05, depth: 58.5 } },
      "groove.depth",
      /less than half the piston's diameter of 117 mm/,
    ],
    [
      "limits upside down",
      { ...PISTON, diameter: [117.4, 117.3] },
      "diameter",
      /\[smallest, largest\], in that order/,
    ],
    ["three limits", { ...PISTON, diameter: [117.2, 117.3, 117.4] }, "diameter.2", /\[smallest, largest\]/],
    ["one limit", { ...PISTON, diameter: [117.2] }, "diameter.1", /number in mm|given/],
    ["NaN for a diameter", { ...PISTON, diameter: Number.NaN }, "diameter", /above 0 mm/],
    ["NaN for a limit", { ...PISTON, diameter: [117, Number.NaN] }, "diameter.1", /above 0 mm/],
    [
      "a groove of negative width",
      { ...PISTON, groove: { width: -2, depth: 5 } },
      "groove.width",
      /above 0 mm/,
    ],
    ["a field misspelt", { ...PISTON, diametre: 5 }, "diametre", /nearest is "diameter"/],
    [
      "a field of the groove misspelt",
      { ...PISTON, groove: { ...PISTON.groove, widht: 2 } },
      "groove.widht",
      /"width"/,
    ],
    ["a warm piston of unknown metal", { ...PISTON, temperature: 160 }, "material", /must be given.*160 °C/],
    [
      "a warm piston of unknown expansion",
      { ...PISTON, material: { youngsModulus: 70000 }, temperature: 160 },
      "material",
      /expansion/,
    ],
    [
      "a piston hotter than its data",
      { ...PISTON, material: ALLOY, temperature: 400 },
      "temperature",
      /at most 350 °C/,
    ],
  ];
  test.each(cases)("%s", (_, piston, field, words) => {
    const error = refused(() => grooveFit(RING, piston));
    expect(error.field.replace(/^piston\./, "")).toBe(field);
    expect(error.message).toMatch(words);
  });

  const options: [what: string, options: Loose, field: string, value: unknown, words: RegExp][] = [
    [
      "NaN for a tolerance",
      { tolerance: { wall: Number.NaN } },
      "tolerance.wall",
      Number.NaN,
      /from 0 to 10/,
    ],
    ["a negative tolerance", { tolerance: { height: -0.05 } }, "tolerance.height", -0.05, /from 0 to 10 mm/],
    ["a tolerance of walls", { tolerance: { wall: 200 } }, "tolerance.wall", 200, /from 0 to 10 mm/],
    [
      "all of a wall",
      { tolerance: { wall: 4.4 } },
      "tolerance.wall",
      4.4,
      /less than the ring's wall, 4\.4 mm/,
    ],
    ["a tolerance misspelt", { tolerance: { wal: 0.1 } }, "tolerance.wal", 0.1, /nearest is "wall"/],
    ["no growth", { boreGrowth: Number.NaN }, "boreGrowth", Number.NaN, /number from 0\.9 to 1\.2/],
    ["a growth in words", { boreGrowth: "1.001" }, "boreGrowth", "1.001", /number from 0\.9 to 1\.2/],
    ["a bore without unit", { bore: "118" }, "bore", "118", /"118 mm"/],
    ["a bore upside down", { bore: [118.1, 118] }, "bore", [118.1, 118], /in that order/],
    ["a bore of three", { bore: [118, 118, 118] }, "bore.2", 118, /\[smallest, largest\]/],
    ["NaN for a bore", { bore: [118, Number.NaN] }, "bore.1", Number.NaN, /above 0 mm/],
    ["a temperature in °F", { ringTemperature: "300 F" }, "ringTemperature", "300 F", /°C/],
    ["a ring hotter than its data", { ringTemperature: 360 }, "ringTemperature", 360, /at most 350 °C/],
    ["an option misspelt", { boreGrowht: 1 }, "boreGrowht", 1, /nearest is "boreGrowth"/],
    ["no options", null, "options", null, /must be an object/],
    ["a list", [], "options", [], /must be an object/],
  ];
  test.each(options)("%s", (_, given, field, value, words) => {
    const error = refused(() => grooveFit(RING, PISTON, given));
    expect(error.field).toBe(field);
    expect(error.value).toEqual(value);
    expect(error.message).toMatch(words);
  });

  test("a warm ring of unknown expansion, by its material", () => {
    const ring = { ...RING, material: { youngsModulus: 205000 } } as typeof RING;
    expect(refused(() => grooveFit(ring, PISTON, { ringTemperature: 180 })).field).toBe("material");
  });

  test("a piston that does not go into its bore, cold or hot", () => {
    const cold = refused(() => grooveFit(RING, { ...PISTON, diameter: "118 mm" }));
    expect(cold.field).toBe("piston.diameter");
    expect(cold.allowed).toMatch(/less than the bore, 118 mm/);
    // 117.9·1.00294 in 118·1.0011 (by hand).
    const alloy = { diameter: 117.9, groove: { width: 2.05, depth: 5.2 }, material: ALLOY, temperature: 160 };
    const hot = refused(() => grooveFit(RING, alloy, { boreGrowth: 1.0011 }));
    expect(hot.field).toBe("piston.diameter");
    expect(hot.allowed).toMatch(/hot it is 118\.247 mm, in a bore that then is 118\.130 mm/);
    expect(grooveFit(RING, { ...alloy, diameter: 117.7 }, { boreGrowth: 1.0011 }).sink[0]).toBeGreaterThan(0);
  });

  test("a groove whose root is as wide as the piston", () => {
    const error = refused(() => grooveFit(RING, { diameter: 117.4, groove: { width: 2.05, root: 117.4 } }));
    expect(error.field).toBe("piston.groove.root");
    expect(error.allowed).toMatch(/less than the piston's diameter of 117\.4 mm/);
  });

  test("nothing of options in other units, nor of a bore of one size", () => {
    const inches = { tolerance: { wall: "2 thou" }, bore: "4.65 in", ringTemperature: "20 °C" } as const;
    expect(grooveFit(RING, PISTON, frozen(inches))).toEqual(
      grooveFit(RING, PISTON, { tolerance: { wall: 2 * 0.0254 }, bore: [4.65 * 25.4, 4.65 * 25.4] }),
    );
  });
});

describe("engineFit", () => {
  const material = "1.4112";
  const design = designRing({ ...FERRY, closedGap: 0.7, material });
  const piston = {
    diameter: [117.35, 117.4] as [number, number],
    groove: { width: [2.04, 2.06] as [number, number], root: 107 },
    material: ALLOY,
    temperature: 160,
  };
  const heat = {
    ring: { temperature: 180 },
    bore: { material: IRON, temperature: 120, diameter: [118, 118.03] as [number, number] },
    keepGap: 0.1,
  };
  const tolerance = { wall: 0.05, height: 0.01 };

  test("puts together what its parts say", () => {
    const fit = engineFit(design, frozen({ piston, heat, tolerance }));
    expect(fit.section).toEqual(describeSection(design));
    expect(fit.spread.map(({ by }) => by)).toEqual(["hand", "pliers", "plates"]);
    // Over the piston's largest diameter.
    for (const one of fit.spread) expect(one).toEqual(spreadRing(design, { diameter: 117.4, by: one.by }));
    expect(fit.hot).toEqual(hotRing(design, heat));
    const bore: [number, number] = [118, 118.03];
    expect(fit.groove?.cold).toEqual(
      grooveFit(design.spec, { ...piston, temperature: 20 }, { tolerance, bore }),
    );
    expect(fit.groove?.hot).toEqual(
      grooveFit(design.spec, piston, { tolerance, bore, ringTemperature: 180, boreGrowth: 1 + 11e-6 * 100 }),
    );
  });

  test("closes the hot ring in the smallest bore", () => {
    const tight = { ...heat, bore: { ...heat.bore, diameter: [117.8, 118.03] as [number, number] } };
    const [own, smaller] = [heat, tight].map((one) => engineFit(design, { heat: one }).hot);
    // π·0.2, and as much again of the bore's growth.
    expect((own?.closedGap ?? 0) - (smaller?.closedGap ?? 0)).toBeCloseTo(0.2 * Math.PI * 1.0011, 4);
    expect([own?.butts, smaller?.butts]).toEqual([false, true]);
  });

  test("spreads over the bore, and says nothing of groove and heat, where none is given", () => {
    const fit = engineFit(design);
    expect(fit.spread.map(({ diameter }) => diameter)).toEqual([118, 118, 118]);
    expect(Object.keys(fit).sort()).toEqual(["section", "spread"]);
    expect(engineFit(design, {})).toEqual(fit);
  });

  test("says nothing of a hot groove without heat, nor of a groove without a piston", () => {
    expect(engineFit(design, { piston }).groove).not.toHaveProperty("hot");
    const warm = engineFit(design, { heat });
    expect(warm).not.toHaveProperty("groove");
    expect(warm.hot?.butts).toBe(false);
  });

  test("leaves the plates to rings whose halves are alike", () => {
    const leaning = designRing({ ...FERRY, pressure: { shape: "harmonics", cosine: [], sine: [0.2] } });
    expect(engineFit(leaning).spread.map(({ by }) => by)).toEqual(["hand", "pliers"]);
  });

  test("asks for no expansion of a piston that is not warm", () => {
    const { groove } = engineFit(design, { piston: { ...PISTON, material: { youngsModulus: 70000 } } });
    expectLimits(groove?.cold.axialClearance ?? [], [0.05, 0.05]);
  });

  test("refuses a piston that does not go into its bore", () => {
    const error = refused(() =>
      engineFit(design, { piston: { diameter: 118.4, groove: { width: 2.05, depth: 5.2 } } }),
    );
    expect(error.field).toMatch(/piston/);
  });

  const cases: [what: string, input: Loose, field: RegExp, words: RegExp][] = [
    ["a list", [], /^engine$/, /must be an object/],
    ["a list of tolerances", { tolerance: [] }, /^tolerance$/, /must be an object/],
    ["a negative tolerance", { tolerance: { wall: -0.1 } }, /^tolerance\.wall$/, /from 0 to 10 mm/],
    ["an unknown field", { pistn: piston }, /^pistn$/, /nearest is "piston"/],
    ["an unknown field of a part", { tolerance: { wal: 0.1 } }, /^tolerance\.wal$/, /nearest is "wall"/],
    ["a piston of no size", { piston: { groove: piston.groove } }, /^piston\.diameter$/, /given/],
    [
      "limits upside down",
      { piston: { ...piston, diameter: [118, 117] } },
      /^piston\.diameter$/,
      /in that order/,
    ],
    ["a piston in °F", { piston: { ...piston, temperature: "300 F" } }, /^piston\.temperature$/, /°C/],
    [
      "a ring in the stars",
      { heat: { ...heat, ring: { temperature: 3000 } } },
      /^heat\.ring\.temperature$/,
      /1200 °C/,
    ],
    [
      "a ring hotter than its data",
      { heat: { ...heat, ring: { temperature: 460 } } },
      /^heat\.ring\.temperature$/,
      /450 °C/,
    ],
    ["no bore", { heat: { ring: {} } }, /^heat\.bore$/, /must be given/],
    [
      "a bore of unknown metal",
      { piston, heat: { ...heat, bore: { temperature: 120 } } },
      /^heat\.bore\.material$/,
      /must be given for a part at 120 °C/,
    ],
    [
      "a bore of unknown metal without a piston",
      { heat: { ...heat, bore: { temperature: 120 } } },
      /^heat\.bore\.material$/,
      /must be given for a part at 120 °C/,
    ],
    [
      "a bore mistyped",
      { heat: { ...heat, bore: { ...heat.bore, diameter: [118, 181] } } },
      /^heat\.bore\.diameter$/,
      /from 106\.200 to 129\.800 mm/,
    ],
    [
      "a piston that seizes when warm",
      { piston: { ...piston, diameter: 117.9 }, heat },
      /^piston\.diameter$/,
      /must be smaller: hot it is/,
    ],
    ["nothing", null, /^engine$/, /must be an object/],
    [
      "a ring that binds",
      { piston: { ...piston, groove: { width: 2, root: 107 } } },
      /^section\.axialHeight$/,
      /bind/,
    ],
  ];
  test.each(cases)("refuses %s", (_, input, field, words) => {
    const error = refused(() => engineFit(design, frozen(input)));
    expect(error.field).toMatch(field);
    expect(error.message).toMatch(words);
  });
});
