import { describe, expect, test } from "vitest";
import { designRing, type GivenRing, pressureOf, ringOfCurvature, SpecError } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

/** Every wrong ring given by its free curvature fails at once, by name: a SpecError with field, value and what is allowed. */

const { load: _, ...BODY } = DEMO_RINGS["ferry 118 mm"];
// biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
type Loose = any;

function refusal(attempt: () => unknown): SpecError {
  let error: unknown;
  try {
    attempt();
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.+$/);
  return error as SpecError;
}

/** The ring's tables, changed in place by `spoil`. */
function spoilt(spoil: (free: { theta: number[]; curvature: number[] }) => void): GivenRing {
  const { spec, free } = designRing(DEMO_RINGS["ferry 118 mm"]);
  const { theta, curvature } = free;
  const tables = { theta: [...theta], curvature: [...curvature] };
  spoil(tables);
  return { spec, free: tables };
}

describe("pressureOf refuses", () => {
  test("nothing of the ring that the tests spoil, nor ends that are off by rounding", () => {
    expect(() => pressureOf(spoilt(() => {}))).not.toThrow();
    const nearly = spoilt(({ theta }) => {
      theta[0] += 5e-7;
    });
    expect(() => pressureOf(nearly)).not.toThrow();
  });

  test.each<[string, (free: { theta: number[]; curvature: number[] }) => void, string, unknown, RegExp]>([
    [
      "angles out of order",
      ({ theta }) => {
        [theta[7], theta[8]] = [theta[8], theta[7]];
      },
      "free.theta.8",
      expect.closeTo(-3.0156, 4),
      /must not be below the angle before it, -2\.998/,
    ],
    [
      "an angle that is no number",
      ({ theta }) => {
        theta[30] = Number.NaN;
      },
      "free.theta.30",
      Number.NaN,
      /must be a finite number of radians/,
    ],
    [
      "a curvature that is no number",
      ({ curvature }) => {
        curvature[30] = Number.NaN;
      },
      "free.curvature.30",
      Number.NaN,
      /must be a finite number in 1\/mm/,
    ],
    [
      "an infinite curvature",
      ({ curvature }) => {
        curvature[0] = Number.POSITIVE_INFINITY;
      },
      "free.curvature.0",
      Number.POSITIVE_INFINITY,
      /must be a finite number in 1\/mm/,
    ],
    [
      "a curvature too few",
      ({ curvature }) => curvature.pop(),
      "free.curvature",
      expect.any(Array),
      /must have 361 values, one for each angle; has 360/,
    ],
    [
      "a curvature too many",
      ({ curvature }) => curvature.push(0.016),
      "free.curvature",
      expect.any(Array),
      /must have 361 values, one for each angle; has 362/,
    ],
    [
      "a table of which one end is missing",
      ({ theta, curvature }) => {
        theta.pop();
        curvature.pop();
      },
      "free.theta",
      expect.closeTo(3.1202, 4),
      /must run from end to end, -3\.137631 to 3\.137631 rad/,
    ],
    [
      "a table of one half",
      ({ theta, curvature }) => {
        theta.splice(0, 180);
        curvature.splice(0, 180);
      },
      "free.theta",
      0,
      /must run from end to end/,
    ],
    [
      "an end that is off by more than rounding",
      ({ theta }) => {
        theta[0] += 2e-6;
      },
      "free.theta",
      expect.closeTo(-3.137629, 6),
      /must run from end to end/,
    ],
    [
      "empty tables",
      ({ theta, curvature }) => {
        theta.length = 0;
        curvature.length = 0;
      },
      "free.theta",
      [],
      /must have at least 18 different angles/,
    ],
    [
      "17 angles, though given twice",
      (free) => {
        const every = (values: number[]) =>
          Array.from({ length: 17 }, (_, k) => values[Math.round(k * 22.5)]);
        free.theta = every(free.theta).flatMap((value) => [value, value]);
        free.curvature = every(free.curvature).flatMap((value) => [value, value]);
      },
      "free.theta",
      expect.any(Array),
      /must have at least 18 different angles/,
    ],
  ])("%s", (_name, spoil, field, value, allowed) => {
    const error = refusal(() => pressureOf(spoilt(spoil)));
    expect(error.field).toBe(field);
    expect(error.value).toEqual(value);
    expect(error.allowed).toMatch(allowed);
  });
});

describe("ringOfCurvature", () => {
  test.each<[string, unknown]>([
    ["no number", Number.NaN],
    ["infinite", Number.NEGATIVE_INFINITY],
    ["missing", undefined],
    ["null", null],
    ["text", "0.016"],
    ["a bigint", 1n],
    ["an object", { curvature: 0.016 }],
  ])("refuses a curvature that is %s, and names the angle where a function gives it", (_name, value) => {
    const plain = refusal(() => ringOfCurvature(BODY, value as Loose));
    expect(plain.field).toBe("curvature");
    expect(plain.value).toEqual(value);
    // The first station, the left end: −θC = −(π − asin(0.45/113.6)) = −3.137631.
    expect(plain.allowed).toMatch(
      /^must be a finite number in 1\/mm everywhere; this is the one at -3\.1376 rad/,
    );
    // The 58th station beyond the back is the first beyond 1 rad: 58·3.137631/180 = 1.01101.
    const late = refusal(() =>
      ringOfCurvature(BODY, ((theta: number) => (theta > 1 ? value : 0.016)) as Loose),
    );
    expect(late.field).toBe("curvature");
    expect(late.value).toEqual(value);
    expect(late.allowed).toContain("this is the one at 1.0110 rad from the back");
  });

  test.each<[string, object, string]>([
    ["a load", { load: { contactPressure: 0.15 } }, "load"],
    ["a pressure", { pressure: { shape: "uniform" } }, "pressure"],
    ["a wall too thin", { section: { radialThickness: 0.1, axialHeight: 2 } }, "section.radialThickness"],
    ["no material", { material: undefined }, "material"],
  ])("refuses a body with %s", (_name, change, field) => {
    expect(refusal(() => ringOfCurvature({ ...BODY, ...change } as Loose, 1 / 62)).field).toBe(field);
  });

  test("reads the body as designRing does", () => {
    const centimetres = ringOfCurvature({ ...BODY, bore: "11.8 cm" }, 1 / 62);
    expect(centimetres).toEqual(ringOfCurvature(BODY, 1 / 62));
    const { load: _, pressure: _2, ...body } = designRing(DEMO_RINGS["ferry 118 mm"]).spec;
    expect(centimetres.spec).toEqual(body);
  });
});

test.each([
  ["thickness", [4.4], /must have 361 values, one for each angle; has 1/],
  ["thickness", new Array(361).fill(Number.NaN), /must be a number above 0 mm/],
  ["thickness", new Array(361).fill(0), /must be a number above 0 mm/],
  ["taper", new Array(361).fill(-2), /must be a number from -1 to 1/],
  ["netShare", new Array(361).fill(1.1), /must be a number from 0 to 1/],
  ["netShare", [], /must have 361 values/],
])("pressureOf refuses a wall whose %s is wrong", (key, values, allowed) => {
  const { spec, free } = designRing(DEMO_RINGS["ferry 118 mm"]);
  const wall = {
    thickness: new Array(361).fill(4.4),
    taper: new Array(361).fill(0),
    netShare: new Array(361).fill(0),
    slotDepth: 0,
  };
  expect(() => pressureOf({ spec, free, wall })).not.toThrow();
  const error = refusal(() => pressureOf({ spec, free, wall: { ...wall, [key]: values } }));
  expect(error.field.startsWith(`wall.${key}`)).toBe(true);
  expect(error.allowed).toMatch(allowed);
});
