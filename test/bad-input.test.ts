import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, SpecError } from "../src/index.js";
import { DEMO_RINGS, runs } from "./rings.js";

/** Every wrong spec fails at once, by name: a SpecError with field, value and what is allowed, in one line. */

/** A spec that may be spoilt at will. */
// biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
type Loose = any;

const good = (): Loose => structuredClone({ ...DEMO_RINGS["ferry 118 mm"] });

/** The good spec with one field, given by its path, replaced or (undefined) taken away. */
function spoilt(path: string, value: unknown): Loose {
  const spec = good();
  const keys = path.split(".");
  const last = keys.pop() as string;
  let part = spec;
  for (const key of keys) {
    part[key] ??= {};
    part = part[key];
  }
  if (value === undefined) delete part[last];
  else part[last] = value;
  return spec;
}

/** How a value appears in a message: as in JSON, but numbers that JSON lacks by name. */
function shown(value: unknown): string {
  if (value === undefined) return "(missing)";
  return typeof value === "number" ? String(value) : (JSON.stringify(value) as string);
}

function refusal(spec: Loose): SpecError {
  let error: unknown;
  try {
    designRing(spec);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  return error as SpecError;
}

function expectRefused(spec: Loose, field: string, value: unknown, allowed: RegExp): void {
  const error = refusal(spec);
  expect(error.field).toBe(field);
  expect(error.value).toEqual(value);
  expect(error.allowed).toMatch(allowed);
  expect(error.message).toMatch(/^.+$/);
  expect(error.message).toContain(field);
  expect(error.message).toContain(shown(value));
  expect(error.message).toContain(error.allowed);
}

test("the spec that the tests spoil is good", () => {
  expect(() => designRing(good())).not.toThrow();
});

/** Fields that take a quantity, and the words that must be in the refusal. */
const QUANTITIES: { field: string; allowed: RegExp; unit: string; zero?: true; optional?: true }[] = [
  { field: "bore", allowed: /from 1 to 10000 mm/, unit: "mm" },
  { field: "closedGap", allowed: /from 0 to 10000 mm/, unit: "mm", zero: true },
  { field: "section.radialThickness", allowed: /above 0 mm/, unit: "mm" },
  { field: "section.axialHeight", allowed: /above 0 mm/, unit: "mm" },
  { field: "material.youngsModulus", allowed: /from 300 to 1000000 MPa/, unit: "MPa" },
  { field: "material.stressLimit", allowed: /above 0 MPa/, unit: "MPa", optional: true },
  { field: "load.contactPressure", allowed: /above 0 MPa/, unit: "MPa", optional: true },
  { field: "load.tangentialForce", allowed: /above 0 N/, unit: "N", optional: true },
  { field: "load.freeGap", allowed: /above 0 mm/, unit: "mm", optional: true },
];

const WRONG_TYPES = [{ value: null }, { value: [] }, { value: [118] }, { value: {} }, { value: true }];

describe.each(QUANTITIES)("$field", ({ field, allowed, unit, zero, optional }) => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1, -1e-9])(
    "refuses %s",
    (value) => {
      expectRefused(spoilt(field, value), field, value, allowed);
    },
  );

  if (!zero) {
    test.each([0, -0, `0 ${unit}`])("refuses zero as %s", (value) => {
      expectRefused(spoilt(field, value), field, value, allowed);
    });
  }

  test.each(WRONG_TYPES)("refuses $value, a wrong type", ({ value }) => {
    expectRefused(spoilt(field, value), field, value, allowed);
  });

  test.each(["", " ", "4", "4.4", "1e3", "mm", "four mm", "4,4 mm", "--4 mm", "1/2", "NaN mm", "4 mm wide"])(
    "refuses '%s', a string without number or unit",
    (value) => {
      expectRefused(
        spoilt(field, value),
        field,
        value,
        /(a number in .* or a string with a unit|unit ".*" is not)/,
      );
    },
  );

  test.each(["4 furlong", "4 MM", "4 kg", "4 °", unit === "mm" ? "4 MPa" : "4 mm"])(
    "refuses the unit of '%s'",
    (value) => {
      expectRefused(spoilt(field, value), field, value, /(is not a|a string with a unit)/);
    },
  );

  test.each([`-4 ${unit}`, `1/0 ${unit}`, `0/0 ${unit}`, `1e999 ${unit}`])(
    "refuses '%s', out of range",
    (value) => {
      expectRefused(spoilt(field, value), field, value, allowed);
    },
  );

  if (!optional) {
    test("must be given", () => {
      expectRefused(spoilt(field, undefined), field, undefined, /must be given/);
    });
  }
});

describe("the bounds of a field are tight:", () => {
  test.each([
    ["bore", 0.999],
    ["bore", 10001],
    ["bore", "0.118 mm"],
    ["material.youngsModulus", 205],
    ["material.youngsModulus", 205e9],
    ["material.poissonRatio", 0.501],
    ["material.poissonRatio", -0.001],
    ["stations", 15],
    ["stations", 20001],
  ])("%s = %s is refused", (field, value) => {
    expectRefused(spoilt(field, value), field, value, /from/);
  });

  test.each([
    ["material.poissonRatio", 0],
    ["material.poissonRatio", 0.5],
    ["stations", 16],
    ["closedGap", 0],
    ["closedGap", 59],
    ["section.radialThickness", 29.5],
    ["section.axialHeight", 118],
    ["load.contactPressure", 1e-9],
  ])("%s = %s is taken", (field, value) => {
    expect(Number.isFinite(designRing(spoilt(field, value)).free.gap)).toBe(true);
  });
});

describe("plain numbers and choices:", () => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, -1, 15, 16.5, 180.0001, 1e9, "180", null, true])(
    "stations refuses %j",
    (value) => {
      expectRefused(spoilt("stations", value), "stations", value, /from 16 to 20000/);
    },
  );

  test.each([Number.NaN, Number.POSITIVE_INFINITY, -0.1, 0.6, "0.3", "0.3 mm", null, true])(
    "material.poissonRatio refuses %j",
    (value) => {
      expectRefused(spoilt("material.poissonRatio", value), "material.poissonRatio", value, /from 0 to 0\.5/);
    },
  );

  test.each([
    ["theory", /"thin" or "curved"/],
    ["pressure.shape", /"uniform"/],
    ["section.shape", /"rectangle"/],
    ["material", /"EN-GJS-500-7"/],
  ])("%s refuses what is not on its list, and gives the list", (field, allowed) => {
    for (const value of ["steel", "", "Thin", "toString", 7, true]) {
      expectRefused(spoilt(field, value), field, value, allowed);
    }
    expectRefused(spoilt(field, null), field, null, allowed);
  });

  test.each(["section", "load", "pressure"])("%s refuses what is not an object", (field) => {
    for (const value of [null, "x", 7, true])
      expectRefused(spoilt(field, value), field, value, /must be an object/);
  });

  test.each([null, "x", 7, true, undefined])("the spec itself refuses to be %j", (value) => {
    expectRefused(value, "spec", value, /must be an object/);
  });

  test.each(["section", "material", "load"])("%s must be given", (field) => {
    expectRefused(spoilt(field, undefined), field, undefined, /must be given/);
  });

  test.each(["section.radialThickness", "material.youngsModulus", "pressure.shape"])(
    "an empty array lacks %s",
    (field) => {
      const [part] = field.split(".") as [string];
      const error = refusal(spoilt(part, []));
      expect([part, field]).toContain(error.field);
    },
  );
});

describe("an unknown field names the nearest known one:", () => {
  test.each([
    ["boer", "bore"],
    ["closedgap", "closedGap"],
    ["station", "stations"],
    ["section.radialThicknes", "radialThickness"],
    ["section.height", "axialHeight"],
    ["material.youngModulus", "youngsModulus"],
    ["material.poissonsRatio", "poissonRatio"],
    ["load.freegap", "freeGap"],
    ["load.contactpressure", "contactPressure"],
    ["pressure.shap", "shape"],
  ])("%s → %s", (field, nearest) => {
    const spec = good();
    spec.pressure = { shape: "uniform" };
    const [first, second] = field.split(".") as [string, string?];
    if (second === undefined) spec[first] = 5;
    else spec[first][second] = 5;
    expectRefused(spec, field, 5, new RegExp(`not a known field; the nearest is "${nearest}"`));
  });

  test("a misspelt field is named rather than the field it leaves missing", () => {
    const { bore, ...rest } = good();
    expectRefused({ ...rest, boer: bore }, "boer", bore, /nearest is "bore"/);
  });

  test("names of Object's own are unknown too", () => {
    for (const name of ["toString", "constructor", "hasOwnProperty"]) {
      expectRefused({ ...good(), [name]: 1 }, name, 1, /not a known field/);
    }
    const text = JSON.stringify(good()).replace("{", '{"__proto__":1,');
    expectRefused(JSON.parse(text), "__proto__", 1, /not a known field/);
  });

  test("a field name with a line break still gives a message of one line", () => {
    expect(refusal({ ...good(), "bo\nre": 1 }).message).toMatch(/^.+$/);
  });
});

describe("fields that contradict each other:", () => {
  const spec = good();

  test("no load, two loads and three loads", () => {
    for (const load of [
      {},
      { contactPressure: 0.15, freeGap: 11 },
      { contactPressure: 0.15, tangentialForce: 18 },
      { contactPressure: 0.15, tangentialForce: 18, freeGap: 11 },
    ]) {
      expectRefused(
        { ...spec, load },
        "load",
        load,
        /exactly one of tangentialForce, contactPressure, freeGap/,
      );
    }
  });

  test("a closed gap wider than half the bore, or than the bore", () => {
    for (const closedGap of [59.001, 118, 200]) {
      expectRefused(
        { ...spec, closedGap },
        "closedGap",
        closedGap,
        /from 0 to 59 mm .* at most half the bore/,
      );
    }
  });

  test("a wall thicker than a quarter of the bore, or than its radius", () => {
    for (const wall of [29.501, 60, 200]) {
      const section = { radialThickness: wall, axialHeight: 2 };
      expectRefused(
        { ...spec, section },
        "section.radialThickness",
        wall,
        /from 0\.118 to 29\.5 mm .* bore\/4/,
      );
    }
  });

  test("a section taller than the bore", () => {
    const section = { radialThickness: 4.4, axialHeight: 119 };
    expectRefused({ ...spec, section }, "section.axialHeight", 119, /from 0\.118 to 118 mm .* to the bore/);
  });

  test("a free gap not wider than the closed one", () => {
    for (const freeGap of [0.45, 0.1]) {
      expectRefused(
        { ...spec, load: { freeGap } },
        "load.freeGap",
        freeGap,
        /wider than closedGap, 0\.45 mm/,
      );
    }
  });

  test("a value refused because of another field is reported as it was given", () => {
    expectRefused({ ...spec, closedGap: "5 in" }, "closedGap", "5 in", /at most half the bore/);
    const load = { contactPressure: "22 psi", freeGap: 11 };
    expectRefused({ ...spec, load }, "load", load, /exactly one/);
  });
});

describe("a load past K = 0.5", () => {
  // K = p·h·R·r²/(E·I): by hand for bore 118, wall 4.4, E 205000, where K = ½ at p = 0.5·E·a³/(12·R·r²);
  // the gap of 0.45 mm moves the limit in the sixth digit.
  const limit = (0.5 * 205000 * 4.4 ** 3) / 12 / (59 * 56.8 ** 2);

  test.each([
    ["contactPressure", limit, /at most 3\.8225\d MPa .* K = .* 0\.5/],
    ["tangentialForce", limit * 59 * 2, /at most 451\.06\d N .* K = .* 0\.5/],
  ])("is refused as %s, and the limit given is the limit", (field, most, allowed) => {
    expectRefused({ ...good(), load: { [field]: most * 1.001 } }, `load.${field}`, most * 1.001, allowed);
    expect(designRing({ ...good(), load: { [field]: most * 0.999 } }).stiffnessParameter).toBeCloseTo(
      0.4995,
      10,
    );
  });

  test("is refused as freeGap, and the limit given is the limit", () => {
    const error = refusal({ ...good(), load: { freeGap: 500 } });
    expect([error.field, error.value]).toEqual(["load.freeGap", 500]);
    const widest = Number(/at most ([\d.]+) mm/.exec(error.allowed)?.[1]);
    expect(designRing({ ...good(), load: { freeGap: widest - 0.001 } }).stiffnessParameter).toBeCloseTo(
      0.5,
      4,
    );
    expectRefused(
      { ...good(), load: { freeGap: widest + 0.001 } },
      "load.freeGap",
      widest + 0.001,
      /K = .* 0\.5/,
    );
  });

  test("is never NaN, even for a wall so thin that its stiffness underflows", () => {
    const section = { radialThickness: 1e-120, axialHeight: 2 };
    const error = refusal({ ...good(), section, load: { freeGap: 9 } });
    expect(error.message).not.toContain("NaN");
  });
});

property.prop([fc.anything({ withNullPrototype: true, withDate: true, withBigInt: true })], runs(500))(
  "anything at all is refused with a SpecError of one line",
  (anything) => {
    expect(refusal(anything).message).toMatch(/^[^\n]+$/);
  },
);

property.prop(
  [
    fc.constantFrom(
      ...QUANTITIES.map(({ field }) => field),
      "stations",
      "theory",
      "material",
      "section",
      "load",
    ),
    fc.anything({ maxDepth: 1 }),
  ],
  runs(500),
)("anything in one field is either refused by a field's name or designed without NaN", (field, value) => {
  let gap: number;
  try {
    gap = designRing(spoilt(field, value)).free.gap;
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).message).toMatch(/^[^\n]+$/);
    return;
  }
  expect(Number.isFinite(gap)).toBe(true);
});
