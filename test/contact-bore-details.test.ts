import { describe, expect, test } from "vitest";
import { type Bore, readBore } from "../src/contact/bore.js";
import { boreSchema } from "../src/contact/boreSchema.js";
import { parse } from "../src/spec/issues.js";
import { jsonSchemaOf } from "../src/spec/jsonSchema.js";
import { near, refusalOf } from "./judging.js";

/** Bores as they are written and what their radius is, by hand. */

const [bore, R] = [118, 59];

describe("a bore", () => {
  const angle = Array.from({ length: 12 }, (_, k) => -2.9 + 0.5 * k);
  const value = angle.map((t, k) => 0.01 * Math.cos(2 * t) + (k % 3) * 0.004);
  const samples = { angle, deviation: value };
  const put = (place: number, one: number) => angle.map((t, k) => (k === place ? one : t));

  test("is by default round and as wide as the ring's own", () => {
    const { deviationAt, ...rest } = readBore({}, bore);
    expect(rest).toEqual({ meanRadius: R, largest: 0, backPressure: 0 });
    expect(deviationAt(1)).toBe(0);
  });

  test("is the sum of its waves and samples, turned", () => {
    const harmonics = [
      { order: 2, amplitude: 0.03, phase: 0.4 },
      { order: 5, amplitude: -0.01 },
    ];
    const waves = (t: number) => 0.03 * Math.cos(2 * t - 0.4) - 0.01 * Math.cos(5 * t);
    const one = readBore({ harmonics, rotation: 0.3, diameter: 120, backPressure: 2 }, bore);
    expect([one.meanRadius, one.backPressure]).toEqual([60, 2]);
    for (const t of [-3, -1, 0, 0.4, 2.7]) near(one.deviationAt(t), waves(t + 0.3), 1e-15);
    // Tried every 0.1°, from which the crest is off by 0.05° at the most.
    const crest = Math.max(...Array.from({ length: 6284 }, (_, k) => Math.abs(waves(k / 1000))));
    near(one.largest, crest, 3e-7);
    const both = readBore({ harmonics, samples, rotation: 0.3 }, bore);
    for (const [k, t] of angle.entries()) near(both.deviationAt(t - 0.3), waves(t) + value[k], 1e-14);
  });

  test("goes on where its samples close, smoothly, wherever they begin", () => {
    const from = (k: number): Bore => {
      const turned = [...angle.slice(k), ...angle.slice(0, k).map((t) => t + 2 * Math.PI)];
      const shift = k > 5 ? 2 * Math.PI : 0;
      const deviation = [...value.slice(k), ...value.slice(0, k)];
      return readBore({ samples: { angle: turned.map((t) => t - shift), deviation } }, bore);
    };
    const bores = [0, 1, 3, 6, 10, 11].map(from);
    for (let t = -9; t < 9; t += 0.23) {
      const [one, ...others] = bores.map((each) => each.deviationAt(t));
      near(Math.max(...others), one, 1e-14);
      near(Math.min(...others), one, 1e-14);
    }
    // Between its samples it stays between their values.
    near(bores[0].deviationAt(2.6 + 0.39), (value[11] + value[0]) / 2, Math.abs(value[11] - value[0]) / 2);
  });

  test.each([106.2, 129.8])("may be a tenth narrower or wider: %s mm", (diameter) => {
    // A hair within, as 118·0.9 rounds.
    const inward = diameter < bore ? 1e-9 : -1e-9;
    expect(readBore({ diameter: diameter + inward }, bore).meanRadius).toBeCloseTo(diameter / 2, 8);
    const { field, value, allowed } = refusalOf(() => readBore({ diameter: diameter - 1e6 * inward }, bore));
    expect([field, value]).toEqual(["bore.diameter", diameter - 1e6 * inward]);
    expect(allowed).toBe("must be from 106.200 to 129.800 mm for this ring");
  });

  test("keeps within 2 % of its mean radius; the error tells which part does not, how far and where", () => {
    const wave = (order: number, amplitude: number) => ({ order, amplitude, phase: 0.7 * order });
    // 2 % of 50 is 1; the crest of cos θ is at θ = 0, which is tried.
    expect(readBore({ harmonics: [{ order: 1, amplitude: 1 }] }, 100).largest).toBe(1);
    // Both waves have a crest at 0.7 of the bore, that is, at 0.5 of the ring as turned.
    const harmonics = [wave(1, 0.8), wave(2, 0.8)];
    const byWaves = refusalOf(() => readBore({ harmonics, rotation: 0.2, samples }, bore));
    expect([byWaves.field, byWaves.value]).toEqual(["bore.harmonics", harmonics]);
    expect(byWaves.allowed).toMatch(
      /^must keep the radius within 1\.180 mm of the mean; it is 1\.6\d\d mm off at 0\.[67]\d\d rad$/,
    );
    const wild = { angle, deviation: value.map((_, k) => (k === 8 ? -1.5 : 0)) };
    const bySamples = refusalOf(() =>
      readBore({ harmonics: [wave(3, 0.01)], samples: wild, rotation: 1 }, bore),
    );
    expect([bySamples.field, bySamples.value]).toEqual(["bore.samples", wild]);
    // However far it is turned, the place is told within half a turn of the back.
    const turned = refusalOf(() => readBore({ harmonics, rotation: -6 }, bore));
    expect(turned.allowed).toMatch(/ mm off at 0\.[67]\d\d rad$/);
    // The eighth stands at −2.9 + 8·0.5.
    expect(bySamples.allowed).toMatch(/it is 1\.[45]\d\d mm off at 1\.(09|10)\d rad$/);
  });

  test.each<[string, object, string, unknown, RegExp]>([
    [
      "with a value too few",
      { deviation: value.slice(1) },
      "deviation",
      value.slice(1),
      /12 values.* has 11/,
    ],
    [
      "with an angle twice",
      { angle: put(4, angle[3]) },
      "angle.4",
      angle[3],
      /^must be above the angle before it, -1\.4$/,
    ],
    ["with a last angle too small", { angle: put(11, 2) }, "angle.11", 2, /^must be above .* 2\.1$/],
    [
      "over a whole turn",
      { angle: put(11, angle[0] + 2 * Math.PI) },
      "angle.11",
      angle[0] + 2 * Math.PI,
      /^must be less than a whole turn after the first: the curve closes by itself$/,
    ],
  ])("is refused %s", (_, change, field, found, allowed) => {
    const error = refusalOf(() => readBore({ samples: { ...samples, ...change } }, bore));
    expect(error.field).toBe(`bore.samples.${field}`);
    expect(error.value).toEqual(found);
    expect(error.allowed).toMatch(allowed);
  });
});

describe("a bore as it is written", () => {
  const read = (input: object) => parse(boreSchema(), input);
  const wave = (change: object) => ({ harmonics: [{ order: 3, amplitude: 0.1, ...change }] });
  const eight = [0, 0.5, 1, 2, 3, 4, 5, 6];
  const sampled = (change: object) => ({ samples: { angle: eight, deviation: eight, ...change } });
  const first = (one: number) => [one, ...eight.slice(1)];

  test("may say nothing, or all in any units", () => {
    expect(read({})).toEqual({ harmonics: [], rotation: 0, backPressure: 0 });
    expect(
      read({
        ...{ diameter: "11.8 cm", rotation: "180 deg", backPressure: "10 bar" },
        ...{ ...wave({ amplitude: "20 um" }), ...sampled({ angle: ["-90°", ...eight.slice(1)] }) },
      }),
    ).toEqual({
      ...{ diameter: 118, rotation: Math.PI, backPressure: 1 },
      harmonics: [{ order: 3, amplitude: 0.02, phase: 0 }],
      samples: { angle: first(-Math.PI / 2), deviation: eight },
    });
  });

  test.each<[string, (one: number) => object, number, number, number, RegExp]>([
    ["diameter", (one) => ({ diameter: one }), 1, 10000, 1e-6, /^must be from 1 to 10000 mm/],
    ["rotation", (one) => ({ rotation: one }), -6.3, 6.3, 1e-6, /^must be from -6\.3 to 6\.3 rad/],
    ["backPressure", (one) => ({ backPressure: one }), 0, 1000, 1e-6, /^must be from 0 to 1000 MPa/],
    ["harmonics.0.order", (order) => wave({ order }), 1, 100, 1, /^must be a whole number from 1 to 100/],
    ["harmonics.0.amplitude", (one) => wave({ amplitude: one }), -1000, 1000, 1e-6, /^must be from -1000 to/],
    ["harmonics.0.phase", (phase) => wave({ phase }), -6.3, 6.3, 1e-6, /^must be from -6\.3 to 6\.3 rad/],
    ["samples.angle.0", (one) => sampled({ angle: first(one) }), -6.3, 6.3, 1e-6, /^must be from -6\.3 to/],
    ["samples.deviation.0", (one) => sampled({ deviation: first(one) }), -1000, 1000, 1e-6, /from -1000 to/],
  ])("keeps its %s within limits", (field, input, low, high, beyond, words) => {
    for (const one of [low, high]) expect(() => read(input(one))).not.toThrow();
    for (const one of [low - beyond, high + beyond, Number.NaN]) {
      const error = refusalOf(() => read(input(one)));
      expect([error.field, error.value]).toEqual([field, one]);
      expect(error.allowed).toMatch(words);
    }
  });

  test.each<[string, object, string, RegExp]>([
    ["of half a wave", wave({ order: 1.5 }), "harmonics.0.order", /^must be a whole number from 1 to 100$/],
    ["with no list of waves", { harmonics: {} }, "harmonics", /^must be a list of harmonics$/],
    ["of seven samples", sampled({ angle: eight.slice(1) }), "samples.angle", /list of 8 to 100000 numbers/],
    [
      "of seven deviations",
      sampled({ deviation: eight.slice(1) }),
      "samples.deviation",
      /list of 8 to 100000 numbers/,
    ],
    [
      "with an unknown field",
      { radius: 1 },
      "radius",
      /diameter, harmonics, samples, rotation, backPressure/,
    ],
    ["with one in a wave", wave({ angle: 1 }), "harmonics.0.angle", /order, amplitude, phase/],
    ["with one in its samples", sampled({ x: 1 }), "samples.x", /angle, deviation/],
    ["without an amplitude", { harmonics: [{ order: 3 }] }, "harmonics.0.amplitude", /^must be given$/],
    ["with a length for an angle", { rotation: "3 mm" }, "rotation", /not an angle unit/],
    ["with a length for a phase", wave({ phase: "3 mm" }), "harmonics.0.phase", /not an angle unit/],
    ["with a length for a pressure", { backPressure: "3 mm" }, "backPressure", /not a pressure unit/],
    ["with an angle for its size", { diameter: "3 deg" }, "diameter", /not a length unit/],
  ])("is refused %s", (_, input, field, words) => {
    const error = refusalOf(() => read(input));
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(words);
  });

  test("has a description of each field", () => {
    const { properties } = jsonSchemaOf(boreSchema(), "bore", "a bore");
    const words = (schema: { description?: string } | undefined) => schema?.description ?? "";
    expect(words(properties?.diameter)).toMatch(/diameter.*by default.*\(mm\)$/);
    expect(words(properties?.harmonics)).toMatch(/waves of the radius/);
    expect(words(properties?.samples)).toMatch(/measured radii/);
    expect(words(properties?.rotation)).toMatch(/turned, counter-clockwise \(rad\)$/);
    expect(words(properties?.backPressure)).toMatch(/inner face \(MPa\)$/);
    const item = properties?.harmonics.items as { properties: Record<string, { description: string }> };
    expect(words(item.properties.order)).toMatch(/waves/);
    expect(words(item.properties.amplitude)).toMatch(/amplitude of the radius \(mm\)$/);
    expect(words(item.properties.phase)).toMatch(/crest times the order \(rad\)$/);
    const { angle, deviation } = properties?.samples.properties ?? {};
    expect(words(angle)).toMatch(/from the back .* increasing/);
    expect(words(angle?.items as object)).toMatch(/^angle \(rad\)$/);
    expect(words(deviation)).toMatch(/one an angle$/);
    expect(words(deviation?.items as object)).toMatch(/^deviation \(mm\)$/);
  });
});
