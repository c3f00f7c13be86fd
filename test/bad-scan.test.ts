import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { designRing, type Point, ringFromScan, type ScanOptions, SpecError } from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_RINGS, runs } from "./rings.js";
import { scanned } from "./scans.js";

/** Points that are not of the ring, and wrong options: a SpecError that says what they seem to be, or a true result, never a wrong one. */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const ferry = designRing(FERRY);
const { outer: OUTER, inner: INNER } = ferry.outline;
const outerOf = (change: object) => designRing({ ...FERRY, ...change }).outline.outer;
const [nan, inf] = [Number.NaN, Number.POSITIVE_INFINITY];

/** Evenly spread from −1 to 1, the same on every machine: multiples of the golden section less their wholes. */
const spread = (i: number) => 2 * ((i * 0.6180339887498949) % 1) - 1;
const circle = (count: number, radius = 59, gap = 0.45) =>
  Array.from({ length: count }, (_, i): Point => {
    const angle = Math.PI / 2 + gap / (2 * radius) + ((2 * Math.PI - gap / radius) * i) / (count - 1);
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
const moved = (points: readonly Point[], dx: number, dy = 0, turn = 0) => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return points.map(([x, y]): Point => [c * x - s * y + dx, s * x + c * y + dy]);
};
const scaled = (points: readonly Point[], by: number) => points.map(([x, y]): Point => [by * x, by * y]);
const rough = (points: readonly Point[], size = 0.001) =>
  points.map(([x, y], i): Point => [x + size * spread(i), y + size * spread(7 * i + 3)]);
/** A share of the points thrown about. */
const strewn = (share: number, far: number) =>
  rough(OUTER).map(([x, y], i): Point => {
    const out = (i * 7919) % 361 < 361 * share;
    return out ? [x + far * spread(i), y + far * spread(3 * i + 1)] : [x, y];
  });
const hiding = (count: number, at: number) => rough(OUTER).filter((_, i) => Math.abs(i - at) > count / 2);

const scan = (points: Loose, options: Loose = {}) =>
  ringFromScan(points, { spec: FERRY, ...options } as ScanOptions);

/** The ring, or the refusal. */
function outcome(points: Loose, options: Loose = {}): ReturnType<typeof scan> | SpecError {
  try {
    return scan(frozen(points), options);
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    return error as SpecError;
  }
}

function refusal(points: Loose, options: Loose = {}): SpecError {
  const error = outcome(points, options) as SpecError;
  expect(error).toBeInstanceOf(SpecError);
  expect(error.message).toMatch(/^.{1,300}$/);
  return error;
}

/** Whether it says anything at all. */
const speaks = (found: ReturnType<typeof outcome>) => found instanceof SpecError || found.warnings.length > 0;

/** The ferry's ring, as near as rough points let it come: the force to two parts in a thousand, light nowhere. */
function expectTrue({ load, scan: { light } }: ReturnType<typeof scan>): void {
  expect(Math.abs(load.tangentialForce / ferry.load.tangentialForce - 1)).toBeLessThan(2e-3);
  expect(light.closure.contactShare).toBe(1);
}

const two = /one ring|two rings|gap/;
const closed = /gap|closed/;
const WHOLES: [what: string, points: Point[], words: RegExp][] = [
  ["too sparse to show the gap", OUTER.filter((_, i) => i % 6 === 0), /gap.*too few points/],
  ["of one half", OUTER.slice(0, 181), /all along the ring; they cover 50 %.* 370\.3 mm/],
  ["of four fifths", OUTER.slice(60), /all along the ring; they cover 8\d %/],
  ["of all but a tenth in the middle", hiding(40, 180), /all along the ring|gap/],
  ["of the inner face", INNER, /outer face; .* 112\.6\d mm across, less than the bore of 118 mm/],
  ["of a closed circle", circle(360, 59, 0), closed],
  ["of a ring scanned closed", circle(1000), closed],
  ["of a ring scanned closed, dense", circle(5000), closed],
  ["of a ring scanned closed, very dense", rough(circle(40000)), closed],
  ["of both faces of a closed ring", [...circle(1000), ...circle(1000, 54.6)], closed],
  ["of rings side by side", [...OUTER, ...moved(OUTER, 140)], /one ring; 8\d % .*two rings, or not/],
  ["of rings 3 mm apart, rough", rough([...OUTER, ...moved(OUTER, 0, 3)], 0.005), two],
  ["of rings turned against each other", [...OUTER, ...moved(OUTER, 0, 0, 3)], two],
  ["of a ring closely within a ring", [...OUTER, ...scaled(OUTER, 0.9)], two],
  // 2.9 mm apart; the wall is 4.4 by the spec.
  ["of a ring where the inner face would be", [...OUTER, ...scaled(OUTER, 0.95)], /wall|two/],
  ["of a smaller ring", designRing(DEMO_RINGS["motorcycle 54 mm"]).outline.outer, /bore of 118 mm.*another/],
  ["of a larger ring", designRing(DEMO_RINGS["gas engine 340 mm"]).outline.outer, /36\d\.\d mm.*another/],
  ["in one place", OUTER.map((): Point => [3, 4]), /at least 60 different points/],
  ["in a cloud", OUTER.map((_, i): Point => [60 * spread(i), 60 * spread(i * i)]), /ring/],
  ["too large", scaled(OUTER, 1e300), /bore of 118 mm/],
  ["strewn about, a third of them", strewn(0.33, 8), two],
  ["rougher than any instrument", rough(OUTER, 0.6), /one ring; .*scatter by 0\.\d+ mm/],
];

describe("points are refused", () => {
  test.each(WHOLES)("that are %s", (_, points, words) => {
    const error = refusal(points);
    expect(error.field).toBe("points");
    expect(error.allowed).toMatch(words);
    expect(error.message).toContain(error.allowed);
    expect(error.message).not.toMatch(/NaN|Infinity|undefined/);
  });

  test("but not for a gap that is short beside points evenly spread, or for a short hole in a soft ring", () => {
    // 80 points from corner to corner are 4.5 mm apart, 2.7 of which make the gap.
    const { points } = scanned(ferry, { count: 80 });
    expectTrue(scan(points));
    const soft = { ...DEMO_RINGS["motorcycle 54 mm"], load: { freeGap: 1.5 }, stations: 500 };
    const design = designRing(soft);
    const { outer, inner } = design.outline;
    const held = [...outer.filter((_, i) => i < 300 || i > 304), ...inner];
    expect(Math.abs(ringFromScan(held, { spec: soft }).free.gap - design.free.gap)).toBeLessThan(0.001);
  });

  test("and never called missing when they are there", () => {
    for (const [, points] of WHOLES.slice(0, 8)) expect(refusal(points).message).not.toContain("missing");
  });

  test.each([
    ["inches given as mm", scaled(OUTER, 1 / 25.4), "mm", "in"],
    ["mm given as inches", OUTER, "in", "mm"],
    ["µm given as mm", scaled(OUTER, 1000), "mm", "um"],
    ["mm given as µm", OUTER, "µm", "mm"],
    ["metres given as mm", scaled(OUTER, 0.001), "mm", "m"],
  ] as const)("in a wrong unit, with the one that would fit: %s", (_, points, unit, right) => {
    const wouldFit = new RegExp(`bore of 118 mm; .* across: in the unit "${right}" it would fit`);
    expect(refusal(points, { unit }).allowed).toMatch(wouldFit);
    expectTrue(scan(points, { unit: right }));
  });

  test("that are inches, of a ring for 4 inches against one for 100 mm", () => {
    const points = scaled(outerOf({ bore: "4 in" }), 1 / 25.4);
    expect(refusal(points, { spec: { ...FERRY, bore: 100 } }).allowed).toMatch(/the unit "in" it would fit/);
  });

  test.each<[string, unknown, string]>([
    ["NaN", [nan, 1], "[NaN,1]"],
    ["infinity", [1, -inf], "[1,-Infinity]"],
    ["a hole", undefined, "(missing)"],
    ["a triple", [1, 2, 3], "[1,2,3]"],
  ])("that have %s among them, by its index", (_, value, shown) => {
    const error = refusal([...OUTER.slice(0, 9), value, ...OUTER.slice(9)]);
    expect(error.field).toBe("points.9");
    expect(error.value).toEqual(value);
    expect(error.allowed).toBe("must be a pair of finite numbers [x, y]");
    expect(error.message.startsWith(`points.9 = ${shown}`)).toBe(true);
  });

  test("that are no list, too many or none", () => {
    const none = [undefined, null, "x_mm,y_mm", { 0: [1, 2], length: 400 }, new Set(OUTER)];
    for (const points of none)
      expect(refusal(points).message).toMatch(/^points = .* list of points \[x, y\]$/);
    expect(refusal(new Array(5_000_001)).message).toBe("points = 5000001: must be at most 5000000 points");
    expect(refusal([]).message).toMatch(/^points = 0: must be at least 60/);
  });
});

describe("points that can be the ring's give it", () => {
  test("given twice: set aside and listed", () => {
    const ring = scan(frozen([...OUTER, ...OUTER.slice(0, 50), OUTER[3]]));
    const { given, outer, duplicates } = ring.scan.points;
    expect([given, outer]).toEqual([412, 361]);
    expect(duplicates).toEqual(Array.from({ length: 51 }, (_, k) => 361 + k));
    expect(ring.free).toEqual(scan(OUTER).free);
  });

  test.each<[string, Point[]]>([
    ["strewn about, a fifth of them", strewn(0.2, 8)],
    ["strewn far, a tenth of them", strewn(0.1, 300)],
    ["of both faces, the inner one twice", [...OUTER, ...INNER, ...rough(INNER, 0.002)]],
    [
      "with some too far for numbers",
      [...rough(OUTER), ...OUTER.slice(9, 50).map(([x]): Point => [1e300 * x, x])],
    ],
  ])("%s", (_, points) => {
    expectTrue(scan(frozen(points)));
  });

  // Clamps hide points, over more than the gap's width too. To be refused is right; to be laid with the gap in that hole is not.
  test.each([
    [10, 180],
    [20, 180],
    [20, 90],
  ])("or are refused, with %i of 361 hidden about the %ith", (count, at) => {
    const found = outcome(hiding(count, at));
    if (!(found instanceof SpecError)) expectTrue(found);
  });

  test("but not without a word where the ends would overlap in the bore", () => {
    // 122 mm: 12.6 mm more face than the bore has room for, where the points show the ends to some 2 mm.
    const points = rough(outerOf({ bore: 122 }));
    for (const length of ["spec", "points"]) expect(speaks(outcome(points, { length }))).toBe(true);
  });

  test("nor where they scatter a hundred times as much as they are said to", () => {
    // 12 µm: the band that goes with 0.1 µm is a hundred times too narrow.
    expect(speaks(outcome(rough(OUTER, 0.02), { noise: 1e-4 }))).toBe(true);
    expect(speaks(outcome(rough(OUTER, 0.02), { noise: 0.012 }))).toBe(false);
  });
});

const length = /mm/;
test.each<[field: string, values: unknown[], allowed: RegExp]>([
  ["unit", ["parsec", 5, null], /must be one of "mm", "cm", "m", "um"/],
  ["noise", [0, -1, nan, inf, 2, "1", "1 N"], length],
  ["sensitivity", [0, -1, nan, -inf, 2, "2", "2 deg"], length],
  ["smoothness", ["spline", 3, nan], /must be "likelihood" or "crossValidation"/],
  ["length", ["ends", 0, nan], /must be "spec" or "points"/],
  ["mirrored", ["yes", 1, nan, null], /must be true or false/],
  ["confidence", [0, 0.4999, 1, nan, "95 %"], /must be a number from 0\.5 to 0\.9999/],
  ["noize", [0.001], /nearest is "noise" .*unit, .*noise, .*length, .*mirrored, .*sensitivity/],
  ["draws", [-1, 0.5, nan, "9"], /whole number from 0/],
  ["spec", [undefined, null, "ferry", 118], /must be given: the ring that it should be/],
])("an option is refused by name: %s", (field, values, allowed) => {
  for (const value of values) {
    const error = refusal(OUTER, { [field]: value });
    expect([error.field, error.value]).toEqual([field, value]);
    expect(error.allowed).toMatch(allowed);
  }
});

test("a spec's own fields keep their path, and its load is not looked at", () => {
  const bad = { bore: -1, closedGap: 500, boer: 118, stations: 4 };
  for (const [field, value] of Object.entries(bad))
    expect(refusal(OUTER, { spec: { ...FERRY, [field]: value } }).field).toBe(field);
  expectTrue(scan(OUTER, { spec: { ...FERRY, load: { contactPressure: nan }, pressure: "any" } }));
});

test("junk ends with a SpecError: there is no ring in it", () => {
  const [any, number] = [fc.double(), fc.integer({ min: -99, max: 99 })];
  const junk = [fc.anything(), fc.tuple(any, any), fc.tuple(number, number), fc.tuple(any, number)];
  const list = fc.oneof(...junk.map((one) => fc.array<unknown>(one, { minLength: 60, maxLength: 300 })));
  const refused = (points: unknown) => expect(refusal(points).message).not.toContain("NaN mm");
  fc.assert(
    fc.property(fc.oneof(fc.anything(), list), (points) => void refused(points)),
    runs(300),
  );
});

test("a spoilt ring ends with one that is finite all over, or with a SpecError", () => {
  const share = fc.integer({ min: -60, max: -5 }).map((power) => 10 ** (power / 10));
  const shares = fc.array(fc.oneof(fc.constant(0), share), { minLength: 6, maxLength: 6 });
  const options = fc.constantFrom(
    {},
    { length: "points" },
    { noise: 1e-5 },
    { smoothness: "crossValidation" },
  );
  const spoil = ([stretch, shear, step, size, cut, twice]: number[], given: object) => {
    const points = rough(OUTER, size)
      .filter((_, i) => i >= 90 * cut && Math.abs(spread(i)) >= cut / 2)
      .map(
        ([x, y], i): Point => [x * (1 + stretch + (i < 180 ? step / 9 : 0)), y * (1 - stretch) + shear * x],
      );
    const all = twice > 0 ? [...points, ...moved(points, 9 * twice, 0, twice)] : points;
    const found = outcome(all, given);
    if (found instanceof SpecError) expect(found.message).toMatch(/^(?!.*NaN).{1,300}$/);
    else expect(JSON.stringify(found)).not.toContain("null");
  };
  fc.assert(fc.property(shares, options, spoil), runs(15));
});
