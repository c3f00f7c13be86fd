import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { planVariation, SpecError, variation } from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { type Case, expectRefused, thrown } from "./refused.js";
import { DEMO_RINGS, runs } from "./rings.js";

/** Every wrong tolerance fails at once, by name: a SpecError with field, value and what is allowed. Options and parts: `bad-study.test.ts`. */

const FERRY: Loose = { ...DEMO_RINGS["ferry 118 mm"], stations: 16 };
const [nan, inf] = [Number.NaN, Number.POSITIVE_INFINITY];

describe("tolerances are refused:", () => {
  const names = /radialThickness, axialHeight, youngsModulus, freeGap, closedGap, bore, bendRadius, lobes/;
  const size = /from 0 to 1000000 mm, as a number in mm or a string/;
  const lobe = (change: object): Loose => ({ lobes: [{ order: 4, tolerance: 0.004, ...change }] });
  const bend = (change: object): Loose => ({ bendRadius: [{ order: 3, tolerance: 0.05, ...change }] });
  const place = "tolerances.lobes.0";
  const many = (order: number) => ({ order, tolerance: 0.001 });
  test.each<Case>([
    ["none", {}, "tolerances", {}, names],
    ["empty lists of waves", { lobes: [], bendRadius: [] }, "tolerances", expect.anything(), names],
    ["nothing", undefined, "tolerances", undefined, /object/],
    ["null", null, "tolerances", null, /object/],
    ["a number", 0.02, "tolerances", 0.02, /object/],
    ["a string", "0.02 mm", "tolerances", "0.02 mm", /object/],
    ["a list", [0.02], "tolerances", [0.02], /object/],
    ["a misspelt name", { radialThicknes: 0.1 }, "tolerances.radialThicknes", 0.1, /"radialThickness"/],
    ["a name of the spec", { thickness: 0.1 }, "tolerances.thickness", 0.1, /"radialThickness"/],
    ["a misspelt limit", { bore: { lowr: 0, upper: 1 } }, "tolerances.bore.lowr", 0, /"lower"/],
    ["no upper limit", { bore: { lower: 0 } }, "tolerances.bore.upper", undefined, /must be given/],
    [
      "limits upside down",
      { bore: { lower: 0.02, upper: 0.01 } },
      "tolerances.bore.lower",
      0.02,
      /above upper, 0\.01/,
    ],
    [
      "an unknown law",
      { bore: { lower: 0, upper: 0.1, distribution: "flat" } },
      "tolerances.bore.distribution",
      "flat",
      /"normal".*"uniform"/,
    ],
    ["less than nothing", { bore: -0.1 }, "tolerances.bore", -0.1, size],
    ["NaN", { bore: nan }, "tolerances.bore", nan, size],
    ["infinity", { freeGap: inf }, "tolerances.freeGap", inf, size],
    ["NaN for a limit", { bore: { lower: nan, upper: 1 } }, "tolerances.bore.lower", nan, /from -1000000/],
    ["a string without unit", { bore: "0.1" }, "tolerances.bore", "0.1", /string with a unit/],
    ["a pressure for a length", { bore: "0.1 MPa" }, "tolerances.bore", "0.1 MPa", /not a length unit/],
    [
      "a length for a modulus",
      { youngsModulus: "5 mm" },
      "tolerances.youngsModulus",
      "5 mm",
      /not a pressure unit/,
    ],
    ["null for one", { bore: null }, "tolerances.bore", null, size],
    ["true for one", { bore: true }, "tolerances.bore", true, size],
    ["a list for one", { bore: [0, 0.1] }, "tolerances.bore", [0, 0.1], size],
    ["no list of waves", { lobes: {} }, "tolerances.lobes", {}, /list of waves/],
    ["null for a wave", { lobes: [null] }, place, null, /object/],
    ["a wave of no order", lobe({ order: undefined }), `${place}.order`, undefined, /given|whole number/],
    ["a wave of no size", { lobes: [{ order: 4 }] }, `${place}.tolerance`, undefined, /given|from 0/],
    ["half a wave", lobe({ order: 1.5 }), `${place}.order`, 1.5, /whole number from 1 to 30/],
    ["too many waves to a turn", lobe({ order: 31 }), `${place}.order`, 31, /whole number from 1 to 30/],
    ["lobes of order 0, which is the diameter", lobe({ order: 0 }), `${place}.order`, 0, /from 1 to 30/],
    ["bends of order −1", bend({ order: -1 }), "tolerances.bendRadius.0.order", -1, /from 0 to 30/],
    ["a wave misspelt", lobe({ fase: 1 }), `${place}.fase`, 1, /"phase"/],
    ["a phase in bare degrees", lobe({ phase: 90 }), `${place}.phase`, 90, /from -3\.15 to 3\.15 rad/],
    ["an order twice", { lobes: [many(4), many(4)] }, "tolerances.lobes.1.order", 4, /once for each order/],
    [
      "an order twice behind others of both kinds",
      { bendRadius: [many(4), many(5)], lobes: [many(5), many(9), many(4), many(9)] },
      "tolerances.lobes.3.order",
      9,
      /once for each order/,
    ],
    [
      "a wave upside down",
      lobe({ tolerance: { lower: 1, upper: 0 } }),
      `${place}.tolerance.lower`,
      1,
      /above upper, 0/,
    ],
    ["a huge wall", { radialThickness: 1 }, "tolerances.radialThickness", 1, /within 0\.6600 mm/],
    [
      "a huge modulus",
      { youngsModulus: "60 GPa" },
      "tolerances.youngsModulus",
      60000,
      /within 3\.075e\+4 MPa/,
    ],
    [
      "a huge bore to one side",
      { bore: { lower: -10, upper: 0 } },
      "tolerances.bore",
      10,
      /within 3\.540 mm/,
    ],
    [
      "a huge wave of the bend",
      bend({ tolerance: 30 }),
      "tolerances.bendRadius.0.tolerance",
      30,
      /within 3\.540 mm/,
    ],
    ["a huge lobe", lobe({ tolerance: 3 }), "tolerances.lobes.0.tolerance", 3, /within 0\.7080 mm/],
    [
      "a huge lobe behind others",
      { bendRadius: [many(3)], lobes: [many(4), many(3), { order: 2, tolerance: { lower: -3, upper: 0 } }] },
      "tolerances.lobes.2.tolerance",
      3,
      /within 0\.7080 mm/,
    ],
    [
      "lobes that are huge together",
      { lobes: [2, 3, 5].map((order) => ({ order, tolerance: 0.3 })) },
      "tolerances.lobes",
      expect.closeTo(0.9),
      /0\.7080 mm of round together/,
    ],
    [
      "33 factors",
      { bendRadius: [2, 3, 4].map(many), lobes: Array.from({ length: 30 }, (_, k) => many(k + 1)) },
      "tolerances",
      33,
      /at most 32/,
    ],
  ])("%s", (_, tolerances, field, value, allowed) => {
    expectRefused(
      thrown(() => variation(FERRY, frozen(tolerances), { samples: 8 })),
      field,
      value,
      allowed,
    );
  });

  test("no cut shorter than nothing", () => {
    const tolerances = { closedGap: { lower: -0.01, upper: 0.1 } };
    const error = thrown(() => variation({ ...FERRY, closedGap: 0 }, tolerances));
    expectRefused(error, "tolerances.closedGap", -0.01, /closed gap of 0/);
  });

  const [x, y] = [2, 4.4];
  const corners = [
    { x: 0, y: 0 },
    { x, y: 0 },
    { x, y },
    { x: 0, y },
  ];
  test.each(["radialThickness", "axialHeight"])("%s of a section that is an outline", (name) => {
    const spec = { ...FERRY, section: { ...FERRY.section, shape: "profile", outline: corners } };
    expect(variation(spec, { bore: 0.01 }, { samples: 8 }).variants.butts).toBe(0);
    const error = thrown(() => variation(spec, { bore: 0.01, [name]: 0.02 }));
    expectRefused(error, `tolerances.${name}`, 0.02, /outline/);
  });

  test("a height that leaves an undercut no room", () => {
    const section = { ...FERRY.section, undercut: { depth: 0.5, height: 1.7 } };
    const error = thrown(() => variation({ ...FERRY, section }, { axialHeight: 0.28 }));
    expectRefused(error, "tolerances.axialHeight", 0.28, /undercut/);
  });

  test.each([
    ["normal", 0.12],
    ["uniform", 0.2],
  ] as const)("a height that leaves it none at the far end: %s", (distribution, most) => {
    // An undercut takes nine tenths of the height at most, here of 1.8 mm. The far end is five standard deviations out, 5/3 of a normal tolerance, and the limit of an even one.
    const section = { ...FERRY.section, undercut: { depth: 0.5, height: 1.62 } };
    const plan = (size: number) =>
      planVariation({ ...FERRY, section }, { axialHeight: { lower: -size, upper: size, distribution } });
    expect(plan(0.9999 * most).factors).toHaveLength(1);
    const error = thrown(() => plan(1.0001 * most));
    expectRefused(error, "tolerances.axialHeight", 1.0001 * most, /undercut/);
  });

  test("ones of which nothing works", () => {
    const error = thrown(() => variation(FERRY, { bore: { lower: -3.5, upper: -3 } }, { samples: 8 }));
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).message).toMatch(/^tolerances.*every variant butts or is loose$/);
  });
});

const bore = { bore: 0.01 };
const FIELDS = [
  "radialThickness",
  "axialHeight",
  "youngsModulus",
  "freeGap",
  "closedGap",
  "bore",
  "bendRadius",
  "lobes",
];
const value = fc.oneof(
  fc.anything({ maxDepth: 2 }),
  fc.double(),
  fc.constantFrom("0.01 mm", "1 GPa", "5 um", 0.01),
);
property.prop(
  [fc.constantFrom(...FIELDS), value, fc.constantFrom("samples", "seed", "limits"), value],
  runs(150),
)(
  "anything for a tolerance and an option is refused by name or planned",
  (field, tolerance, option, setting) => {
    for (const run of [
      () => planVariation(FERRY, { [field]: tolerance } as Loose),
      () => planVariation(FERRY, bore, { [option]: setting } as Loose),
      () => planVariation(FERRY, tolerance as Loose, setting as Loose),
    ]) {
      try {
        run();
      } catch (error) {
        expect(error).toBeInstanceOf(SpecError);
        expect((error as SpecError).message).toMatch(/^[^\n]{1,400}$/);
      }
    }
  },
);
