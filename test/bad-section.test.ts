import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, proveClosure, SpecError } from "../src/index.js";
import { expectRefused, FERRY, frozen, type Loose, refusal, table } from "./refusals.js";
import { runs } from "./rings.js";

/** Every section that no one could make, and every table of a material that tells nothing, fails at once, by name, in one line. */

/** The ferry ring's wall is 4.4 mm, its height 2 mm. */
const withSection = (extra: object): Loose => ({ ...FERRY, section: { ...FERRY.section, ...extra } });
const withMaterial = (extra: object): Loose => ({ ...FERRY, material: { ...FERRY.material, ...extra } });
/** Without what is undefined. */
const given = (fields: object) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

const TAPER = { shape: "taper", angle: 0.02 };
const BARREL = { shape: "barrel", drop: 0.02 };
const UNDERCUT = { depth: 0.5, height: 0.6 };
const BEVEL = { shape: "bevel", side: "top", depth: 1, height: 0.8 };
const KEYSTONE = { shape: "keystone", angle: "10 deg" };
const CORNERS = [
  { x: 0, y: 0 },
  { x: 2, y: 0 },
  { x: 2, y: 4.4 },
  { x: 0, y: 4.4 },
];
const SLOTS = { count: 20, depth: 1, width: 1 };
const outlined = (outline: Loose) => withSection({ shape: "profile", outline });
/** The rectangle with one corner changed. */
const corner = (change: object, at = 0) =>
  outlined(CORNERS.map((one, i) => (i === at ? given({ ...one, ...change }) : one)));

const face = (change: object, base: object = TAPER) => withSection({ face: given({ ...base, ...change }) });
const barrel = (change: object) => face(change, BARREL);
const undercut = (change: object) => withSection({ undercut: given({ ...UNDERCUT, ...change }) });
const inner = (change: object) => withSection({ inner: given({ ...BEVEL, ...change }) });
const sides = (change: object) => withSection({ sides: given({ ...KEYSTONE, ...change }) });

type Refused = readonly [what: string, spec: Loose, field: string, value: unknown, allowed: RegExp];
const { NaN: nan, POSITIVE_INFINITY: inf } = Number;

test("the orders that the tests spoil are good", () => {
  const whole = { face: TAPER, undercut: UNDERCUT, inner: BEVEL, sides: KEYSTONE };
  for (const spec of [
    face({}),
    barrel({}),
    undercut({}),
    inner({}),
    sides({}),
    withSection(whole),
    outlined(CORNERS),
    corner({ bulge: -0.1 }),
  ]) {
    expect(designRing(frozen(spec)).free.gap).toBeGreaterThan(11);
  }
});

describe("a section refuses", () => {
  test.each<Refused>([
    ["a shape of no name", withSection({ shape: "round" }), "shape", "round", /"rectangle" or "profile"/],
    ["a shape that is no string", withSection({ shape: 1 }), "shape", 1, /"rectangle" or "profile"/],
    [
      "a misspelt field",
      withSection({ faces: TAPER }),
      "faces",
      TAPER,
      /not a known field; the nearest is "face"/,
    ],
    [
      "an undercut misspelt",
      withSection({ undrcut: UNDERCUT }),
      "undrcut",
      UNDERCUT,
      /nearest is "undercut"/,
    ],
    ["an outline misspelt", withSection({ outlines: [] }), "outlines", [], /nearest is "outline"/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.${field}`, value, allowed);
  });

  test.each(["face", "undercut", "inner", "sides"])("anything but an object for its %s", (name) => {
    for (const value of [null, 1, "taper", true]) {
      expectRefused(withSection({ [name]: value }), `section.${name}`, value, /must be an object/);
    }
    // A list has none of the fields, or fields of no name.
    expect(refusal(withSection({ [name]: [] })).field).toMatch(new RegExp(`^section\\.${name}`));
    expect(refusal(withSection({ [name]: [1] })).field).toMatch(new RegExp(`^section\\.${name}`));
  });
});

describe("a face refuses", () => {
  test.each<Refused>([
    ["a shape of no name", face({ shape: "flat" }), "shape", "flat", /"taper" or "barrel"/],
    ["no shape", face({ shape: undefined }), "shape", undefined, /must be given/],
    ["a taper without its angle", face({ angle: undefined }), "angle", undefined, /must be given/],
    ["a taper of nil", face({ angle: 0 }), "angle", 0, /above 0 .*\(0° to 45°\)/],
    ["a taper backwards", face({ angle: -0.01 }), "angle", -0.01, /above 0/],
    ["a taper over 45°", face({ angle: "46 deg" }), "angle", "46 deg", /0° to 45°/],
    ["bare degrees", face({ angle: 1 }), "angle", 1, /"30 deg"/],
    ["NaN for an angle", face({ angle: nan }), "angle", nan, /above 0/],
    ["an angle without unit", face({ angle: "1" }), "angle", "1", /a string with a unit such as "30 deg"/],
    ["a length for an angle", face({ angle: "1 mm" }), "angle", "1 mm", /"mm" is not an angle unit/],
    ["a drop of a taper", face({ drop: 0.1 }), "drop", 0.1, /not a known field.*known here: shape, angle/],
    ["a misspelt angle", face({ angel: 0.1 }), "angel", 0.1, /nearest is "angle"/],
    ["a barrel without its drop", barrel({ drop: undefined }), "drop", undefined, /must be given/],
    ["a barrel of nil", barrel({ drop: 0 }), "drop", 0, /above 0 mm/],
    ["a hollow barrel", barrel({ drop: -0.01 }), "drop", -0.01, /above 0 mm/],
    ["infinity for a drop", barrel({ drop: inf }), "drop", inf, /above 0 mm/],
    ["an angle for a drop", barrel({ drop: "1 deg" }), "drop", "1 deg", /"deg" is not a length unit/],
    // A quarter of the lower of wall and face height, 2 mm or what an undercut leaves of it.
    ["a drop over a quarter of the face", barrel({ drop: 0.51 }), "drop", 0.51, /at most 0\.500000 mm/],
    [
      "an angle of a barrel",
      barrel({ angle: 0.1 }),
      "angle",
      0.1,
      /not a known field.*known here: shape, drop/,
    ],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.face.${field}`, value, allowed);
  });

  test("to take more than nine tenths of the wall", () => {
    // By hand: 6 mm · tan 40° = 5.03 mm of 4.4, 0.9 · 4.4 = 3.96; over the inner bevel of 1 mm 2.96 = 6 mm · tan 26.3°.
    const tall = (extra: object) => withSection({ axialHeight: 6, ...extra });
    const steep = { shape: "taper", angle: "40 deg" };
    expectRefused(
      tall({ face: steep }),
      "section.face.angle",
      "40 deg",
      /smaller: .* too little of the wall/,
    );
    const slanted = (angle: string) => tall({ face: { shape: "taper", angle }, inner: BEVEL });
    expectRefused(slanted("27 deg"), "section.face.angle", "27 deg", /smaller/);
    expect(() => designRing(frozen(slanted("26 deg")))).not.toThrow();
    expect(() => designRing(frozen(tall({ face: { shape: "taper", angle: "33 deg" } })))).not.toThrow();
    expect(refusal(tall({ face: { shape: "taper", angle: "34 deg" } })).field).toBe("section.face.angle");
  });

  test("a drop over a quarter of what an undercut leaves of the face, as it was given", () => {
    const order = (drop: string) => withSection({ face: { shape: "barrel", drop }, undercut: UNDERCUT });
    expectRefused(order("0.36 mm"), "section.face.drop", "0.36 mm", /at most 0\.350000 mm/);
    expect(() => designRing(frozen(order("0.35 mm")))).not.toThrow();
  });
});

describe("an undercut refuses", () => {
  test.each<Refused>([
    ["no depth", undercut({ depth: undefined }), "depth", undefined, /must be given/],
    ["no height", undercut({ height: undefined }), "height", undefined, /must be given/],
    ["a depth of nil", undercut({ depth: 0 }), "depth", 0, /above 0 mm/],
    ["NaN for a height", undercut({ height: nan }), "height", nan, /above 0 mm/],
    ["a force for a depth", undercut({ depth: "1 N" }), "depth", "1 N", /"N" is not a length unit/],
    // 0.9 of 4.4 and of 2 mm.
    ["next to nothing of the wall", undercut({ depth: 3.97 }), "depth", 3.97, /at most 3\.96000 mm/],
    ["the same in inches", undercut({ depth: "0.16 in" }), "depth", "0.16 in", /at most 3\.96000 mm/],
    ["next to nothing of the face", undercut({ height: 1.81 }), "height", 1.81, /at most 1\.80000 mm/],
    ["an unknown field", undercut({ heigth: 1 }), "heigth", 1, /nearest is "height"/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.undercut.${field}`, value, allowed);
  });
});

describe("an inner bevel or step refuses", () => {
  test.each<Refused>([
    ["a shape of no name", inner({ shape: "chamfer" }), "shape", "chamfer", /"bevel" or "step"/],
    ["a side of no name", inner({ side: "upper" }), "side", "upper", /"top" or "bottom"/],
    ["no side", inner({ side: undefined }), "side", undefined, /must be given/],
    ["no depth", inner({ depth: undefined }), "depth", undefined, /must be given/],
    ["a depth below nil", inner({ depth: -1 }), "depth", -1, /above 0 mm/],
    ["an angle for a height", inner({ height: "45 deg" }), "height", "45 deg", /"deg" is not a length unit/],
    ["to go through the wall", inner({ depth: 5 }), "depth", 5, /at most 3\.96000 mm: .* of the wall/],
    ["next to nothing of the wall", inner({ depth: 3.97 }), "depth", 3.97, /at most 3\.96000 mm/],
    ["next to nothing of the height", inner({ height: 1.81 }), "height", 1.81, /at most 1\.80000 mm/],
    ["an unknown field", inner({ dept: 1 }), "dept", 1, /nearest is "depth"/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.inner.${field}`, value, allowed);
  });

  test("to leave no wall beside an undercut on the same side", () => {
    // 3.96 − 2.5 mm.
    const order = (depth: number, side: string) =>
      withSection({ inner: { ...BEVEL, side, depth }, undercut: { depth: 2.5, height: 0.6 } });
    expectRefused(order(1.5, "bottom"), "section.inner.depth", 1.5, /at most 1\.46000 mm/);
    expect(() => designRing(frozen(order(1.46, "bottom")))).not.toThrow();
    // On the other side there is more room.
    expect(() => designRing(frozen(order(1.5, "top")))).not.toThrow();
  });

  test.each<[string, Loose]>([
    [
      "an undercut on the other side that reaches as high",
      { undercut: { depth: 3, height: 1.5 }, inner: { shape: "step", side: "top", depth: 3, height: 1.5 } },
    ],
    [
      "a steep taper over a step at the bottom",
      {
        face: { shape: "taper", angle: "45 deg" },
        inner: { shape: "step", side: "bottom", depth: 3.9, height: 1.8 },
      },
    ],
    [
      "a high barrel at the top",
      {
        radialThickness: 2,
        face: { shape: "barrel", drop: 0.5 },
        inner: { shape: "bevel", side: "top", depth: 1.8, height: 1 },
      },
    ],
    [
      "a high barrel at the bottom",
      {
        radialThickness: 2,
        face: { shape: "barrel", drop: 0.5 },
        inner: { shape: "step", side: "bottom", depth: 1.6, height: 1 },
      },
    ],
  ])("to cut through %s", (_, section) => {
    // Inner and outer line cross: there is no such section.
    expect(refusal(withSection(section)).field).toMatch(/^section\.(inner|face|undercut)/);
  });
});

describe("sides refuse", () => {
  test.each<Refused>([
    ["a shape of no name", sides({ shape: "wedge" }), "shape", "wedge", /"keystone" or "halfKeystone"/],
    ["no angle", sides({ angle: undefined }), "angle", undefined, /must be given/],
    ["an angle of nil", sides({ angle: 0 }), "angle", 0, /above 0/],
    ["bare degrees", sides({ angle: 15 }), "angle", 15, /"30 deg"/],
    ["an angle over 45°", sides({ angle: "45.1 deg" }), "angle", "45.1 deg", /0° to 45°/],
    // By hand: 0.9 · 2 mm = 8.8 mm · tan 11.56°, so 23.12° between both sides; 4.4 mm · tan 22.25° for one.
    ["to meet inside", sides({ angle: "23.2 deg" }), "angle", "23.2 deg", /smaller: the sides would meet/],
    [
      "one side to meet the other",
      sides({ shape: "halfKeystone", angle: "22.3 deg" }),
      "angle",
      "22.3 deg",
      /smaller: the sides would meet/,
    ],
    ["an unknown field", sides({ angles: 1 }), "angles", 1, /nearest is "angle"/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.sides.${field}`, value, allowed);
  });

  test("no angle just below", () => {
    for (const change of [{ angle: "23.1 deg" }, { shape: "halfKeystone", angle: "22.2 deg" }])
      expect(() => designRing(frozen(sides(change)))).not.toThrow();
  });
});

describe("what contradicts itself is refused:", () => {
  test.each<Refused>([
    [
      "a profile without an outline",
      withSection({ shape: "profile" }),
      "outline",
      undefined,
      /must be given/,
    ],
    ["an outline of no profile", withSection({ outline: CORNERS }), "outline", CORNERS, /"shape": "profile"/],
    [
      "an outline of a rectangle",
      withSection({ shape: "rectangle", outline: CORNERS }),
      "outline",
      CORNERS,
      /"shape": "profile"/,
    ],
    [
      "a profile with features",
      withSection({ shape: "profile", inner: BEVEL }),
      "inner",
      BEVEL,
      /"shape": "rectangle"/,
    ],
    [
      "an outline with features",
      withSection({ shape: "profile", outline: CORNERS, sides: KEYSTONE }),
      "sides",
      KEYSTONE,
      /left out where the outline is given/,
    ],
    [
      "a wall that varies with a face",
      withSection({ wall: table({}), face: TAPER }),
      "wall",
      table({}),
      /left out/,
    ],
    [
      "a wall that varies with an outline",
      withSection({ wall: table({}), shape: "profile", outline: CORNERS }),
      "wall",
      table({}),
      /not a plain rectangle/,
    ],
    ["slots with an undercut", withSection({ slots: SLOTS, undercut: UNDERCUT }), "slots", SLOTS, /left out/],
    ["slots with a keystone", withSection({ slots: SLOTS, sides: KEYSTONE }), "slots", SLOTS, /left out/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.${field}`, value, allowed);
  });
});

describe("an outline refuses", () => {
  const scaled = (x: number, y: number) => CORNERS.map((one) => ({ x: one.x * x, y: one.y * y }));
  test.each<readonly [what: string, outline: Loose, allowed: RegExp]>([
    ["null", null, /must be a list of corners/],
    ["an object", { x: 0, y: 0 }, /must be a list of corners/],
    ["a string", "0,0 2,0", /must be a list of corners/],
    ["no corners", [], /at least 2 corners/],
    ["a single corner", [{ x: 0, y: 0 }], /at least 2 corners/],
    ["more than 400 corners", new Array(401).fill({ x: 1, y: 1 }), /at most 400 corners/],
    ["to run clockwise", [...CORNERS].reverse(), /must run counter-clockwise/],
    ["to enclose nothing", [CORNERS[0], CORNERS[3]], /must run counter-clockwise and enclose an area/],
    ["to fold back on itself", [CORNERS[0], CORNERS[2], CORNERS[3], CORNERS[2]], /enclose an area/],
    ["to be lower than the wall", scaled(1, 0.99), /reach from 0 to radialThickness, 4\.4 mm, in y/],
    ["to be thicker than the wall", scaled(1, 1.01), /reach from 0 to radialThickness, 4\.4 mm, in y/],
    [
      "not to start at the inner face",
      CORNERS.map(({ x, y }) => ({ x, y: Math.max(y, 0.1) })),
      /reach from 0 to radialThickness/,
    ],
    ["to be wider than the ring is high", scaled(1.01, 1), /stay from 0 to axialHeight, 2 mm, in x/],
    [
      "to cross itself",
      [
        { x: 0, y: 1 },
        { x: 2, y: 1 },
        { x: 2, y: 4.4 },
        { x: 1, y: 0 },
        { x: 0, y: 4.4 },
      ],
      /must not cross itself/,
    ],
    [
      "to be a bow tie",
      [
        { x: 0, y: 0 },
        { x: 2, y: 0 },
        { x: 0.8, y: 3 },
        { x: 2, y: 4.4 },
        { x: 0, y: 4.4 },
        { x: 1.2, y: 3 },
      ],
      /must not cross itself/,
    ],
    ["to touch itself", [...CORNERS.slice(0, 3), { x: 1, y: 0 }, { x: 0, y: 4.4 }], /must not cross itself/],
    ["a corner twice", [...CORNERS.slice(0, 3), ...CORNERS.slice(2)], /must not cross itself/],
  ])("%s", (_, outline, allowed) => {
    expectRefused(outlined(outline), "section.outline", outline, allowed);
  });

  test.each<Refused>([
    ["a corner that is none", outlined([null, ...CORNERS]), "0", null, /must be an object/],
    ["a corner without x", corner({ x: undefined }), "0.x", undefined, /must be given/],
    ["a corner without y", corner({ y: undefined }, 2), "2.y", undefined, /must be given/],
    ["NaN", corner({ x: nan }), "0.x", nan, /from 0 to 10000 mm/],
    ["infinity", corner({ y: inf }, 3), "3.y", inf, /from 0 to 10000 mm/],
    ["a number as a string", corner({ x: "2" }, 1), "1.x", "2", /a string with a unit such as "118 mm"/],
    ["a force", corner({ x: "2 N" }, 1), "1.x", "2 N", /"N" is not a length unit/],
    ["a corner below the ring", corner({ x: -0.1 }), "0.x", -0.1, /from 0 to 10000 mm/],
    ["a bulge over 1", corner({ bulge: 1.01 }), "0.bulge", 1.01, /number from -1 to 1/],
    ["a bulge under −1", corner({ bulge: -1.01 }), "0.bulge", -1.01, /number from -1 to 1/],
    ["NaN for a bulge", corner({ bulge: nan }), "0.bulge", nan, /number from -1 to 1/],
    ["a bulge as a string", corner({ bulge: "0.1" }), "0.bulge", "0.1", /number from -1 to 1/],
    ["null for a bulge", corner({ bulge: null }), "0.bulge", null, /number from -1 to 1/],
    ["an unknown field", corner({ z: 0 }), "0.z", 0, /not a known field.*known here: x, y, bulge/],
    ["a misspelt bulge", corner({ buldge: 0 }), "0.buldge", 0, /nearest is "bulge"/],
    ["pairs of numbers", outlined([[0, 0], ...CORNERS.slice(1)]), "0.0", 0, /not a known field/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `section.outline.${field}`, value, allowed);
  });

  test.each<readonly [what: string, outline: readonly object[]]>([
    [
      // 20 mm of chord with a bulge of −0.5 rise by 5 mm.
      "the face, 4.4 mm away",
      [
        { x: 0, y: 0, bulge: -0.5 },
        { x: 20, y: 0 },
        { x: 20, y: 4.4 },
        { x: 0, y: 4.4 },
      ],
    ],
    [
      // By 1.5 mm, and the groove leaves 1 mm.
      "the bottom of a groove in the face",
      [
        { x: 0, y: 0, bulge: -0.15 },
        { x: 20, y: 0 },
        { x: 20, y: 4.4 },
        { x: 12, y: 4.4 },
        { x: 12, y: 1 },
        { x: 8, y: 1 },
        { x: 8, y: 4.4 },
        { x: 0, y: 4.4 },
      ],
    ],
  ])("an arc that cuts through %s", (_, outline) => {
    const spec = { ...FERRY, section: { shape: "profile", radialThickness: 4.4, axialHeight: 20, outline } };
    expectRefused(spec, "section.outline", outline, /must (not cross itself|reach)/);
  });

  test.each<readonly [what: string, corner: number, axis: string]>([
    ["past the bore", 2, "y"],
    ["inside the inner face", 0, "y"],
    ["above the upper side", 1, "x"],
    ["below the lower side", 3, "x"],
  ])("an arc that bulges %s", (_, at, axis) => {
    // By 0.2 of half its chord: 0.2 mm of the faces, 0.44 mm of the sides. Then the ring is not of the size ordered, nor on the bore.
    const error = refusal(corner({ bulge: 0.2 }, at));
    expect(error.field).toBe("section.outline");
    expect(error.allowed).toMatch(new RegExp(`in ${axis}$`));
  });

  test("nothing that is off by rounding only", () => {
    const off = CORNERS.map(({ x, y }) => ({ x: x * (1 + 1e-9), y: y * (1 - 1e-9) }));
    expect(() => designRing(frozen(outlined(off)))).not.toThrow();
  });

  test("no hollow, hooked or forked section, and none of two arcs", () => {
    const hooked = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 2, y: 4.4 },
      { x: 1, y: 4.4 },
      { x: 1, y: 3 },
      { x: 1.6, y: 3 },
      { x: 1.6, y: 1 },
      { x: 0, y: 1 },
    ];
    const lens = [
      { x: 1, y: 0, bulge: 0.4 },
      { x: 1, y: 4.4, bulge: 0.4 },
    ];
    for (const outline of [hooked, lens]) expect(() => designRing(frozen(outlined(outline)))).not.toThrow();
  });
});

describe("cuts far shallower than an atom change nothing, nor do they upset the proof:", () => {
  const plain = designRing(FERRY).free.gap;
  const tiny = [1e-6, 1e-8, 1e-9, 1e-12, 1e-15, 1e-20, 1e-300];
  const expectPlain = (spec: Loose, size: number) => {
    const design = designRing(frozen(spec));
    // A millimetre off the wall costs some 3/4.4 of an opening of 11 mm.
    expect(Math.abs(design.free.gap - plain)).toBeLessThan(1e-9 + 10 * size);
    // The proof's stated 1e-11 of the bore.
    expect(Math.abs(proveClosure(design).closedGap - 0.45)).toBeLessThan(1e-11 * 118);
  };
  test.each(tiny)("a barrel of %d mm", (drop) => expectPlain(barrel({ drop }), drop));
  test.each(tiny)("a taper of %d rad", (angle) => expectPlain(face({ angle }), angle));
  test.each(tiny)("a bevel of %d mm", (depth) => expectPlain(inner({ depth }), depth));
  test.each(tiny)("an arc with a bulge of %d", (bulge) => expectPlain(corner({ bulge: -bulge }), bulge));
});

describe("a material's tables refuse", () => {
  const modulus = (change: object) =>
    withMaterial({
      modulus: given({ temperature: [20, 200, 400], value: [205000, 190000, 170000], ...change }),
    });
  const expansion = (change: object) =>
    withMaterial({ expansion: given({ temperature: [200, 400], value: [11.7e-6, 13e-6], ...change }) });

  test("nothing that is good", () => {
    for (const spec of [modulus({}), expansion({}), expansion({ temperature: ["200 °C", "400 degC"] })])
      expect(() => designRing(frozen(spec))).not.toThrow();
  });

  test.each<Refused>([
    [
      "no temperatures",
      modulus({ temperature: undefined }),
      "modulus.temperature",
      undefined,
      /must be given/,
    ],
    ["no values", expansion({ value: undefined }), "expansion.value", undefined, /must be given/],
    ["to be empty", modulus({ temperature: [], value: [] }), "modulus.temperature", [], /must not be empty/],
    [
      "more than 1000 temperatures",
      modulus({ temperature: new Array(1001).fill(20) }),
      "modulus.temperature",
      new Array(1001).fill(20),
      /at most 1000 values/,
    ],
    [
      "temperatures out of order",
      modulus({ temperature: [20, 400, 200] }),
      "modulus.temperature.2",
      200,
      /above the one before it, 400 °C/,
    ],
    [
      "a temperature twice",
      expansion({ temperature: [200, 200] }),
      "expansion.temperature.1",
      200,
      /above the one before it, 200 °C/,
    ],
    [
      "a value too few",
      modulus({ value: [205000, 190000] }),
      "modulus.value",
      [205000, 190000],
      /3 values, one for each/,
    ],
    [
      "a value too many",
      expansion({ value: [1e-5, 1e-5, 1e-5] }),
      "expansion.value",
      [1e-5, 1e-5, 1e-5],
      /2 values, one for each/,
    ],
    // 11.7 is how tables print it, in 10⁻⁶/K.
    [
      "an expansion of 11.7",
      expansion({ value: [11.7, 13] }),
      "expansion.value.0",
      11.7,
      /from 1e-7 to 0\.0001/,
    ],
    [
      "an expansion as a string",
      expansion({ value: ["11.7e-6", 1e-5] }),
      "expansion.value.0",
      "11.7e-6",
      /number from 1e-7/,
    ],
    ["shrinking", expansion({ value: [1e-5, -1e-5] }), "expansion.value.1", -1e-5, /from 1e-7 to 0\.0001/],
    [
      "a modulus in GPa",
      modulus({ value: [205, 190, 170] }),
      "modulus.value.0",
      205,
      /from 300 to 1000000 MPa/,
    ],
    [
      "a length for a modulus",
      modulus({ value: ["205 mm", 190000, 170000] }),
      "modulus.value.0",
      "205 mm",
      /"mm" is not a pressure unit/,
    ],
    [
      "hotter than 1200 °C",
      modulus({ temperature: [20, 200, 1201] }),
      "modulus.temperature.2",
      1201,
      /from -100 to 1200 °C/,
    ],
    [
      "colder than −100 °C",
      expansion({ temperature: [-101, 20] }),
      "expansion.temperature.0",
      -101,
      /from -100 to 1200 °C/,
    ],
    [
      "degrees Fahrenheit",
      expansion({ temperature: ["392 °F", 400] }),
      "expansion.temperature.0",
      "392 °F",
      /"°F" is not a temperature unit; use °C, degC, C/,
    ],
    [
      "kelvins",
      expansion({ temperature: ["473 K", 400] }),
      "expansion.temperature.0",
      "473 K",
      /"K" is not a temperature unit/,
    ],
    [
      "a temperature without unit",
      expansion({ temperature: ["200", 400] }),
      "expansion.temperature.0",
      "200",
      /"180 °C"/,
    ],
    [
      "NaN for a temperature",
      modulus({ temperature: [20, nan, 400] }),
      "modulus.temperature.1",
      nan,
      /from -100 to 1200 °C/,
    ],
    ["a number for a list", modulus({ temperature: 20 }), "modulus.temperature", 20, /must be a list/],
    ["a number for its values", expansion({ value: 1e-5 }), "expansion.value", 1e-5, /must be a list/],
    ["a misspelt field", expansion({ values: [] }), "expansion.values", [], /nearest is "value"/],
    ["a plain number", withMaterial({ expansion: 11.7e-6 }), "expansion", 11.7e-6, /must be an object/],
    ["null", withMaterial({ modulus: null }), "modulus", null, /must be an object/],
    ["a list", withMaterial({ modulus: [] }), "modulus.temperature", undefined, /must be given/],
    [
      "a misspelt table",
      withMaterial({ expansions: {} }),
      "expansions",
      {},
      /not a known field; the nearest is "expansion"/,
    ],
    ["a density in g/cm³", withMaterial({ density: 7.2 }), "density", 7.2, /from 500 to 25000 kg\/m³/],
    ["a yield stress of nil", withMaterial({ yieldStress: 0 }), "yieldStress", 0, /above 0 MPa/],
  ])("%s", (_, spec, field, value, allowed) => {
    expectRefused(spec, `material.${field}`, value, allowed);
  });

  test("temperatures out of order, as they were given", () => {
    const spec = expansion({ temperature: ["400 °C", "200 °C"] });
    expectRefused(spec, "material.expansion.temperature.1", "200 °C", /above the one before it, 400 °C/);
  });

  test("a value too few, as they were given", () => {
    const spec = modulus({ value: ["205 GPa", "190 GPa"] });
    expectRefused(spec, "material.modulus.value", ["205 GPa", "190 GPa"], /3 values, one for each/);
  });
});

const anything = fc.oneof(
  fc.anything({ maxDepth: 1 }),
  fc.double(),
  fc.integer({ min: 1, max: 500 }).map((value) => value / 100),
);
const places = [
  ...["face", "undercut", "inner", "sides"],
  ...["face.shape", "face.angle", "undercut.depth", "undercut.height"],
  ...["inner.shape", "inner.side", "inner.depth", "inner.height", "sides.shape", "sides.angle"],
];

property.prop([fc.constantFrom(...places), anything], runs(300))(
  "anything in one field of a feature is either refused by name or designed without NaN",
  (place, value) => {
    const good: Loose = structuredClone({ face: TAPER, undercut: UNDERCUT, inner: BEVEL, sides: KEYSTONE });
    const [first, second] = place.split(".") as [string, string?];
    if (second === undefined) good[first] = value;
    else good[first][second] = value;
    expectNameOrNumbers(withSection(good));
  },
);

const length = fc.oneof(
  fc.integer({ min: 0, max: 44 }).map((value) => value / 10),
  fc.constantFrom(0, 2, 4.4),
);
const anyCorner = fc.record(
  { x: length, y: length, bulge: fc.integer({ min: -10, max: 10 }).map((value) => value / 10) },
  { requiredKeys: ["x", "y"] },
);
property.prop(
  [fc.array(fc.oneof({ weight: 9, arbitrary: anyCorner }, anything), { maxLength: 8 })],
  runs(300),
)("any list for an outline is either refused by name or designed without NaN", (outline) => {
  expectNameOrNumbers(outlined(outline));
});

function expectNameOrNumbers(spec: Loose): void {
  let design: ReturnType<typeof designRing>;
  try {
    design = designRing(frozen(spec));
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).message).toMatch(/^[^\n]+$/);
    return;
  }
  expect(design.free.x.every(Number.isFinite)).toBe(true);
  expect(Number.isFinite(design.stress.closing.max)).toBe(true);
}
