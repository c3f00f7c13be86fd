import { describe, expect, test } from "vitest";
import { type ClosureOptions, closeInBore, designRing, type GivenRing, SpecError } from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_RINGS } from "./rings.js";

/** Every wrong bore, option or ring fails at once, by name: a SpecError with field, value and what is allowed. */

const FERRY = designRing(DEMO_RINGS["ferry 118 mm"]);
const [nan, inf] = [Number.NaN, Number.POSITIVE_INFINITY];

function refusal(bore: Loose, options: Loose = {}, ring: GivenRing = FERRY): SpecError {
  let error: unknown;
  try {
    closeInBore(ring, frozen(bore), options as ClosureOptions);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

function expectRefused(error: SpecError, field: string, value: unknown, allowed: RegExp): void {
  expect(error.field).toBe(field);
  expect(error.value).toEqual(value);
  expect(error.allowed).toMatch(allowed);
  expect(error.message.startsWith(`${field} = `)).toBe(true);
}

const ANGLE = [-3, -2, -1, 0, 0.5, 1, 2, 3];
const NOTHING = ANGLE.map(() => 0);
const harmonic = (change: object): Loose => ({ harmonics: [{ order: 3, amplitude: 0.01, ...change }] });
const samples = (change: object): Loose => ({ samples: { angle: ANGLE, deviation: NOTHING, ...change } });
const put = (list: readonly number[], place: number, value: unknown): unknown[] =>
  list.map((one, i) => (i === place ? value : one));

describe("a bore is taken", () => {
  test.each<[string, Loose]>([
    ["that says nothing", {}],
    [
      "with every field, in other units",
      { diameter: "118.1 mm", rotation: "30 deg", backPressure: "10 bar" },
    ],
    ["with strings in harmonics", harmonic({ amplitude: "20 um", phase: "-90°" })],
    ["with strings in samples", samples({ deviation: put(NOTHING, 2, "3 um") })],
    ["of a deviation just within 2 % of its radius", harmonic({ amplitude: 1.179 })],
    ["into which the ring's line just goes", { diameter: 117.8573 }],
  ])("%s", (_, bore) => {
    expect(closeInBore(FERRY, frozen(bore)).force).toBeGreaterThan(0);
  });
});

describe("a bore is refused:", () => {
  const fields = /not a known field.*diameter, harmonics, samples, rotation, backPressure/;
  const size = /must be from -1000 to 1000 mm/;
  const whole = /must be a whole number from 1 to 100/;
  const order = /must be a whole number from 1 to 100/;
  const turn = /must be from -6\.3 to 6\.3 rad/;
  test.each<[string, Loose, string, unknown, RegExp]>([
    // Line 2·56.8·(π − asin(0.45/113.6)) = 356.434 mm; round r = (117.8 − 4.4)/2 goes 2π·56.7 = 356.257.
    ["shorter round than the ring's line", { diameter: 117.8 }, "bore.diameter", 117.8, /wider.* 0\.178 mm/],
    // 10 % either way of the ring's own.
    ["far too small", { diameter: 106 }, "bore.diameter", 106, /from 106\.2.* to 129\.8.* mm/],
    ["far too wide", { diameter: 130 }, "bore.diameter", 130, /from 106\.2.* to 129\.8.* mm/],
    ["smaller than the wall twice", { diameter: 4 }, "bore.diameter", 4, /from 106\.2.* mm/],
    ["of no diameter", { diameter: 0 }, "bore.diameter", 0, /from 1 to 10000 mm/],
    ["NaN wide", { diameter: nan }, "bore.diameter", nan, /from 1 to 10000 mm/],
    ["of infinite width", { diameter: inf }, "bore.diameter", inf, /from 1 to 10000 mm/],
    ["with a string without unit", { diameter: "118" }, "bore.diameter", "118", /"118 mm"/],
    ["with an angle for a length", { diameter: "118 deg" }, "bore.diameter", "118 deg", /not a length unit/],
    ["that is a number", 118, "bore", 118, /object/],
    ["that is nothing", null, "bore", null, /object/],
    ["with an unknown field", { radius: 59 }, "bore.radius", 59, fields],
    ["turned by NaN", { rotation: nan }, "bore.rotation", nan, turn],
    ["turned by bare degrees", { rotation: 30 }, "bore.rotation", 30, turn],
    ["turned by a length", { rotation: "3 mm" }, "bore.rotation", "3 mm", /not an angle unit/],
    ["with suction behind the ring", { backPressure: -1 }, "bore.backPressure", -1, /from 0 to 1000 MPa/],
    ["with NaN behind it", { backPressure: nan }, "bore.backPressure", nan, /from 0 to 1000 MPa/],
    ["with infinity behind it", { backPressure: inf }, "bore.backPressure", inf, /from 0 to 1000 MPa/],
    ["with a length behind it", { backPressure: "3 mm" }, "bore.backPressure", "3 mm", /not a pressure unit/],
    ["with no list of harmonics", { harmonics: {} }, "bore.harmonics", {}, /list of harmonics/],
    ["of order 0", harmonic({ order: 0 }), "bore.harmonics.0.order", 0, order],
    ["of order 1.5", harmonic({ order: 1.5 }), "bore.harmonics.0.order", 1.5, whole],
    ["of order −2", harmonic({ order: -2 }), "bore.harmonics.0.order", -2, order],
    ["of order 101", harmonic({ order: 101 }), "bore.harmonics.0.order", 101, order],
    ["of order NaN", harmonic({ order: nan }), "bore.harmonics.0.order", nan, order],
    ["of an order in letters", harmonic({ order: "3" }), "bore.harmonics.0.order", "3", order],
    ["without amplitude", { harmonics: [{ order: 3 }] }, "bore.harmonics.0.amplitude", undefined, /be given/],
    ["of amplitude NaN", harmonic({ amplitude: nan }), "bore.harmonics.0.amplitude", nan, size],
    ["of amplitude −infinity", harmonic({ amplitude: -inf }), "bore.harmonics.0.amplitude", -inf, size],
    ["of an amplitude without unit", harmonic({ amplitude: "20" }), "bore.harmonics.0.amplitude", "20", /mm/],
    ["of phase NaN", harmonic({ phase: nan }), "bore.harmonics.0.phase", nan, turn],
    ["of a phase in mm", harmonic({ phase: "3 mm" }), "bore.harmonics.0.phase", "3 mm", /not an angle unit/],
    [
      "of a harmonic with an unknown field",
      harmonic({ angle: 1 }),
      "bore.harmonics.0.angle",
      1,
      /order, amp/,
    ],
    [
      "whose harmonics go further than linear theory",
      harmonic({ amplitude: 1.19 }),
      "bore.harmonics",
      [{ order: 3, amplitude: 1.19 }],
      // 2 % of 59 mm.
      /within 1\.180 mm of the mean; it is 1\.190 mm off/,
    ],
    [
      "whose harmonics do so together, at the gap",
      { harmonics: [2, 4].map((n) => ({ order: n, amplitude: 0.7 })) },
      "bore.harmonics",
      expect.any(Array),
      /it is 1\.400 mm off at -3\.142 rad/,
    ],
    ["without angles", { samples: { deviation: NOTHING } }, "bore.samples.angle", undefined, /be given/],
    ["without deviations", { samples: { angle: ANGLE } }, "bore.samples.deviation", undefined, /be given/],
    ["of three samples", samples({ angle: [0, 1, 2] }), "bore.samples.angle", [0, 1, 2], /8 to 100000/],
    [
      "with a value too many",
      samples({ deviation: [...NOTHING, 0] }),
      "bore.samples.deviation",
      [...NOTHING, 0],
      /8 values.* 9/,
    ],
    [
      "with a value too few",
      samples({ angle: [-3.1, ...ANGLE] }),
      "bore.samples.deviation",
      NOTHING,
      /9 values.* has 8/,
    ],
    [
      "with angles out of order",
      samples({ angle: put(ANGLE, 3, -1.5) }),
      "bore.samples.angle.3",
      -1.5,
      /above .* -1$/,
    ],
    [
      "with an angle twice",
      samples({ angle: put(ANGLE, 2, -2) }),
      "bore.samples.angle.2",
      -2,
      /above .* -2$/,
    ],
    [
      "over a whole turn",
      samples({ angle: [-Math.PI, ...ANGLE.slice(1, 7), Math.PI] }),
      "bore.samples.angle.7",
      Math.PI,
      /closes by itself/,
    ],
    ["with bare degrees", samples({ angle: put(ANGLE, 7, 90) }), "bore.samples.angle.7", 90, turn],
    ["with an angle NaN", samples({ angle: put(ANGLE, 2, nan) }), "bore.samples.angle.2", nan, turn],
    [
      "with a deviation NaN",
      samples({ deviation: put(NOTHING, 2, nan) }),
      "bore.samples.deviation.2",
      nan,
      size,
    ],
    [
      "with an infinite deviation",
      samples({ deviation: put(NOTHING, 0, inf) }),
      "bore.samples.deviation.0",
      inf,
      size,
    ],
    [
      "with a deviation without unit",
      samples({ deviation: put(NOTHING, 7, "3") }),
      "bore.samples.deviation.7",
      "3",
      /mm/,
    ],
    ["with samples and an unknown field", samples({ value: 1 }), "bore.samples.value", 1, /angle, deviation/],
    [
      "with a sample far off",
      samples({ deviation: put(NOTHING, 2, -2) }),
      "bore.samples",
      expect.any(Object),
      /within 1\.180 mm of the mean; it is 2\.000 mm off at -1\.000 rad/,
    ],
  ])("%s", (_, bore, field, value, allowed) => {
    expectRefused(refusal(bore), field, value, allowed);
  });

  test.each([0, -0.001, 1.001, nan, -inf, inf])("a sensitivity of %s", (sensitivity) => {
    expectRefused(refusal({}, { sensitivity }), "sensitivity", sensitivity, /above 0 to 1 mm/);
  });

  test.each([7, 8.5, 0, -90, nan, inf, 20001, "90"])("%s stations", (stations) => {
    expectRefused(refusal({}, { stations }), "stations", stations, /whole number from 8 to 2000/);
  });
});

describe("a ring is refused", () => {
  type Tables = { theta: number[]; curvature: number[] };
  const bad: [string, (free: Tables) => void, string, RegExp][] = [
    ["with a curvature too few", (free) => free.curvature.pop(), "free.curvature", /361 values.* has 360/],
    ["with one too many", (free) => free.curvature.push(0.016), "free.curvature", /361 values.* has 362/],
    ["with a curvature NaN", (free) => free.curvature.fill(nan, 30, 31), "free.curvature.30", /finite/],
    ["with an infinite one", (free) => free.curvature.fill(inf, 0, 1), "free.curvature.0", /finite/],
    ["with an angle NaN", (free) => free.theta.fill(nan, 30, 31), "free.theta.30", /finite/],
    ["with angles out of order", (free) => free.theta.fill(3, 8, 9), "free.theta.9", /not be below/],
    [
      "of one half",
      (free) => [free.theta.splice(0, 180), free.curvature.splice(0, 180)],
      "free.theta",
      /end to end/,
    ],
    ["with an end off", (free) => free.theta.fill(-3.13, 0, 1), "free.theta", /end to end/],
    [
      "of three stations",
      (free) => [free.theta.splice(1, 358), free.curvature.splice(1, 358)],
      "free.theta",
      /at least/,
    ],
    ["of none", (free) => [free.theta.splice(0), free.curvature.splice(0)], "free.theta", /at least/],
  ];
  test.each(bad)("%s", (_, spoil, field, allowed) => {
    const free = { theta: [...FERRY.free.theta], curvature: [...FERRY.free.curvature] };
    spoil(free);
    const error = refusal({}, {}, { spec: FERRY.spec, free });
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(allowed);
  });

  test.each([
    ["thickness", 0, /above 0 mm/],
    ["thickness", nan, /above 0 mm/],
    ["taper", 2, /from -1 to 1/],
    ["netShare", 1.1, /from 0 to 1/],
  ] as const)("with a wall whose %s is %d somewhere", (key, value, allowed) => {
    const all = (one: number) => FERRY.free.theta.map(() => one);
    const wall = { thickness: all(4.4), taper: all(0), netShare: all(0), slotDepth: 0 };
    expect(closeInBore({ ...FERRY, wall }).contactShare).toBe(1);
    const short = refusal({}, {}, { ...FERRY, wall: { ...wall, [key]: wall[key].slice(1) } });
    expectRefused(short, `wall.${key}`, wall[key].slice(1), /361 values.* has 360/);
    wall[key][5] = value;
    expectRefused(refusal({}, {}, { ...FERRY, wall }), `wall.${key}.5`, value, allowed);
  });
});
