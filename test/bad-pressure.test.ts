import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, SpecError } from "../src/index.js";
import { badTables, expectRefused, FERRY, frozen, type Loose, refusal, table } from "./refusals.js";
import { runs } from "./rings.js";

/** Every wrong pressure fails at once, by name, in one line; and the order is left as it was. */

const pressed = (pressure: Loose): Loose => ({ ...FERRY, pressure });
const sampled = (good: Loose) => pressed({ shape: "sampled", ...good });
const samples = (...relative: number[]) => sampled(table({ relative }));

test("the orders that the tests spoil are good", () => {
  for (const spec of [samples(1, 1, 1, 1), pressed({ shape: "harmonics", cosine: [] })]) {
    expect(designRing(frozen(spec)).free.gap).toBeGreaterThan(11);
  }
});

const [more, less] = [{ shape: "moreAtGap" }, { shape: "lessAtGap" }];
const harmonic = { shape: "harmonics", cosine: [0.1] };

test.each([
  ["an unknown shape", { shape: "pear" }, "shape", "pear", /one of "uniform".*"sampled"/],
  ["a name of Object's own", { shape: "toString" }, "shape", "toString", /one of "uniform"/],
  ["no shape", { strength: 1 }, "shape", undefined, /must be given/],
  ["a strength of the uniform", { shape: "uniform", strength: 1 }, "strength", 1, /known here: shape\)/],
  ["a misspelt strength", { ...more, strenght: 1 }, "strenght", 1, /nearest is "strength"/],
  ["misspelt cosines", { ...harmonic, cosines: [0] }, "cosines", [0], /nearest is "cosine"/],
  ["no strength", less, "strength", undefined, /must be given/],
  ["less than none at the gap", { ...less, strength: 1.1 }, "strength", 1.1, /from 0 to 1/],
  ["a strength below 0", { ...more, strength: -0.1 }, "strength", -0.1, /from 0 to 10/],
  ["a strength per cent", { ...more, strength: 30 }, "strength", 30, /from 0 to 10/],
  ["a strength of NaN", { ...more, strength: Number.NaN }, "strength", Number.NaN, /from 0 to 10/],
  ["a strength as a string", { ...more, strength: "0.5" }, "strength", "0.5", /from 0 to 10/],
  ["an amplitude per cent", { ...harmonic, cosine: [0, 20] }, "cosine.1", 20, /from -10 to 10/],
  ["NaN for an amplitude", { ...harmonic, sine: [Number.NaN] }, "sine.0", Number.NaN, /from -10 to 10/],
  ["no list of cosines", { ...harmonic, cosine: 0.1 }, "cosine", 0.1, /list of 0 to 400/],
  ["no cosines", { shape: "harmonics" }, "cosine", undefined, /must be given/],
] as [string, Loose, string, unknown, RegExp][])("refuses %s", (_what, pressure, field, value, allowed) => {
  expectRefused(pressed(pressure), `pressure.${field}`, value, allowed);
});

test.each([
  // Eight stations to a wave round the ring, by hand 8·5/2 a half for order 5, which is the fourth entry.
  { pressure: { ...harmonic, cosine: [0, 0, 0, 0.1] }, order: 5, least: 20 },
  { pressure: { ...harmonic, sine: new Array(9).fill(0.01) }, order: 10, least: 40 },
])("takes order $order at $least stations, and refuses it at one less", ({ pressure, order, least }) => {
  const spec = (stations: number) => ({ ...pressed(pressure), stations });
  const allowed = new RegExp(`at least ${least} .* order ${order}`);
  expectRefused(spec(least - 1), "stations", least - 1, allowed);
  expect(() => designRing(frozen(spec(least)))).not.toThrow();
});

describe("a sampled pressure refuses", () => {
  test.each(badTables("pressure", sampled))("%s", (_what, spec, field, value, allowed) => {
    expectRefused(spec, field, value, allowed);
  });

  test.each([
    ["whose mean is nil", [0, 0, 0, 0]],
    ["that pull everywhere", [-1, -1, -1, -1]],
    ["that pull more than they press", [1, -2, -2, 1]],
  ])("samples %s, also where a negative pressure is allowed", (_what, relative) => {
    for (const options of [{}, { allowNegativePressure: true }]) {
      const error = refusal(samples(...relative), options);
      expect(error.field).toMatch(/^pressure/);
      expect(error.message).not.toContain("NaN");
    }
  });

  test("samples that are negative in places, unless that is allowed", () => {
    expect(refusal(samples(1, -0.5, 1, 1)).allowed).toMatch(/not be negative .* as ordered/);
    const { warnings } = designRing(samples(1, -0.5, 1, 1), { allowNegativePressure: true });
    expect(warnings.map(({ code }) => code)).toEqual(["negative-pressure"]);
  });
});

const anything = fc.oneof(
  fc.anything({ maxDepth: 1 }),
  fc.double(),
  fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 3, maxLength: 5 }),
);
const bases = [{ ...more, strength: 0.2 }, harmonic, { shape: "sampled", ...table({}) }];

property.prop(
  [
    fc.constantFrom(...bases),
    fc.constantFrom("shape", "strength", "cosine", "sine", "angle", "relative"),
    anything,
    fc.boolean(),
  ],
  runs(500),
)("anything in one field is either refused by name or designed without NaN", (base, field, value, allow) => {
  const spec = frozen(pressed({ ...base, [field]: value }));
  let design: ReturnType<typeof designRing>;
  try {
    design = designRing(spec, { allowNegativePressure: allow });
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).message).toMatch(/^[^\n]+$/);
    return;
  }
  expect(design.free.x.every(Number.isFinite)).toBe(true);
  expect(design.installed.moment.every(Number.isFinite)).toBe(true);
});
