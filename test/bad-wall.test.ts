import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, SpecError } from "../src/index.js";
import { badTables, expectRefused, FERRY, frozen, type Loose, refusal, table } from "./refusals.js";
import { runs } from "./rings.js";

/** Every wall that no one could make, and slots that do not fit it, fail at once, by name, in one line. */

const withSection = (extra: object): Loose => ({ ...FERRY, section: { ...FERRY.section, ...extra } });
const walled = (wall: Loose) => withSection({ wall });
const slotted = (change: object) => {
  const fields = Object.entries({ count: 20, depth: 1, width: 1, ...change });
  return withSection({ slots: Object.fromEntries(fields.filter(([, value]) => value !== undefined)) });
};

test("the orders that the tests spoil are good", () => {
  for (const spec of [walled(table({})), walled(() => 1), slotted({})]) {
    expect(designRing(frozen(spec)).free.gap).toBeGreaterThan(11);
  }
});

describe("a wall refuses", () => {
  test.each(badTables("section.wall", walled))("%s", (_what, spec, field, value, allowed) => {
    expectRefused(spec, field, value, allowed);
  });

  test.each([null, 1, "0.9", true])("to be %j", (wall) => {
    expectRefused(walled(wall), "section.wall", wall, /must be an object/);
  });

  test.each([
    ["nothing left", [1, 0, 1, 1]],
    ["less than nothing", [1, -1, 1, 1]],
    ["more than a quarter of the bore", [1, 6.8, 1, 1]],
  ])("a table with %s, and says where", (_what, relative) => {
    const error = refusal(walled(table({ relative })));
    expect(error.field).toBe("section.wall");
    expect(error.allowed).toMatch(/thickness from 0\.118 to 29\.5 mm everywhere; .* at -?\d\.\d{4} rad/);
  });

  const infinity = Number.POSITIVE_INFINITY;
  test.each([0, -1, 7, Number.NaN, infinity, undefined, null, "1", true, {}, 1n, Symbol("one")])(
    "a function that returns %s",
    (value) => {
      const error = refusal(walled(() => value));
      expect(error.field).toBe("section.wall");
      expect(error.allowed).toMatch(/thickness from 0\.118 to 29\.5 mm everywhere/);
    },
  );
});

describe("slots refuse", () => {
  test.each([
    ["no slots", { count: 0 }, "count", 0, /from 1 to 10000/],
    ["half a slot", { count: 2.5 }, "count", 2.5, /whole number/],
    ["a count as a string", { count: "20" }, "count", "20", /number from 1/],
    ["no depth", { depth: undefined }, "depth", undefined, /must be given/],
    ["a depth of nil", { depth: 0 }, "depth", 0, /above 0 mm/],
    ["an angle for a depth", { depth: "1 deg" }, "depth", "1 deg", /not a length unit/],
    // 0.85 of 4.4 mm.
    ["to be deeper than the wall", { depth: 4.5 }, "depth", 4.5, /at most 0\.85 of the wall, 3\.74 mm/],
    ["to leave next to nothing", { depth: 3.741 }, "depth", 3.741, /at most 0\.85 of the wall/],
    // By hand: at the inner face, on a radius of 54.6 mm, the pitch is 2·3.13763·54.6/100 = 3.426 mm.
    ["to be wider than their pitch", { count: 100, width: 3.43 }, "width", 3.43, /the pitch, 3\.425\d* mm/],
    ["bare degrees", { from: -30 }, "from", -30, /"30 deg"/],
    ["a length for an angle", { to: "30 mm" }, "to", "30 mm", /not an angle unit/],
    ["a zone reversed", { from: 1, to: -1 }, "to", -1, /beyond "from", 1 rad/],
    ["a zone of nothing", { from: 1, to: 1 }, "to", 1, /beyond "from"/],
    ["a zone that starts off the ring", { from: -3.14, to: 1 }, "from", -3.14, /within ±3\.137/],
    ["a zone that ends off the ring", { from: -1, to: 3.14 }, "to", 3.14, /within ±3\.137/],
    ["an end off the ring, the start left out", { to: 3.14 }, "to", 3.14, /within ±3\.137/],
    [
      "an unknown field",
      { number: 7 },
      "number",
      7,
      /not a known field.*count, pitch, depth, width, from, to/,
    ],
  ] as [string, object, string, unknown, RegExp][])("%s", (_what, change, field, value, allowed) => {
    expectRefused(slotted(change), `section.slots.${field}`, value, allowed);
  });

  test.each([null, 20, "many"])("to be %j", (slots) => {
    expectRefused(withSection({ slots }), "section.slots", slots, /must be an object/);
  });

  test("count and pitch together, and neither", () => {
    for (const change of [{ pitch: 5 }, { count: undefined }]) {
      const error = refusal(slotted(change));
      expect(error.field).toBe("section.slots");
      expect(error.allowed).toMatch(/exactly one of count, pitch/);
    }
  });

  test("a pitch longer than the zone, and one so short that there would be more than 10000", () => {
    // Half a radian either way on mid wall is 56.8 mm long; the whole ring holds 17821 pitches of 0.02 mm.
    const order = { count: undefined, from: -0.5, to: 0.5 };
    expectRefused(
      slotted({ ...order, pitch: 57 }),
      "section.slots.pitch",
      57,
      /to the slotted zone's length, 56\.8/,
    );
    expect(refusal(slotted({ count: undefined, pitch: 0.02, width: 0.01 })).field).toBe(
      "section.slots.pitch",
    );
  });

  test("to be too deep for the thinnest wall of their zone, not of the ring", () => {
    const wall = table({ relative: [1, 1, 0.6, 0.5] });
    const order = (zone: object) => withSection({ wall, slots: { count: 5, width: 1, depth: 3, ...zone } });
    expect(() => designRing(frozen(order({ from: -1, to: 1 })))).not.toThrow();
    expectRefused(order({}), "section.slots.depth", 3, /at most 0\.85 of the wall, 1\.87\d* mm/);
  });

  test.each([
    ["depth", { depth: "4.4 mm" }, "4.4 mm"],
    ["width", { width: "1 in" }, "1 in"],
    ["pitch", { count: undefined, pitch: "14.1 in" }, "14.1 in"],
    ["to", { from: "30 deg", to: "-20 deg" }, "-20 deg"],
  ])("a %s that another field is in the way of, as it was given", (field, change, value) => {
    expect(refusal(slotted(change))).toMatchObject({ field: `section.slots.${field}`, value });
  });
});

test("slots far shallower than an atom change nothing", () => {
  const gap = (depth: number) => designRing(slotted({ depth })).free.gap;
  for (const depth of [1e-15, 1e-17, 1e-160, 1e-300])
    expect(gap(depth)).toBeCloseTo(designRing(FERRY).free.gap, 10);
});

const anything = fc.oneof(
  fc.anything({ maxDepth: 1 }),
  fc.double(),
  fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 3, maxLength: 5 }),
);
const places = [
  "wall",
  "wall.angle",
  "wall.relative",
  "slots",
  ...["count", "depth", "width", "from", "to"].map((field) => `slots.${field}`),
];

property.prop([fc.constantFrom(...places), anything], runs(500))(
  "anything in one field is either refused by name or designed without NaN",
  (place, value) => {
    const good: Loose = { wall: table({}), slots: { count: 20, depth: 1, width: 1, from: -1, to: 2 } };
    const [first, second] = place.split(".") as [string, string?];
    if (second === undefined) good[first] = value;
    else good[first][second] = value;
    let design: ReturnType<typeof designRing>;
    try {
      design = designRing(frozen(withSection(good)));
    } catch (error) {
      expect(error).toBeInstanceOf(SpecError);
      expect((error as SpecError).message).toMatch(/^[^\n]+$/);
      return;
    }
    expect(design.free.x.every(Number.isFinite)).toBe(true);
    expect(design.outline.slots?.flat(2).every(Number.isFinite)).not.toBe(false);
  },
);
