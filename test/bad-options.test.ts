import { describe, expect, test } from "vitest";
import {
  closeInBore,
  compareRings,
  conformability,
  contactMap,
  describePressure,
  designRing,
  lightTest,
  ringFromScan,
  SpecError,
} from "../src/index.js";
import { refusalOf } from "./judging.js";
import { FERRY, type Loose } from "./refusals.js";

/** Options that are misspelt, of a wrong type or out of range: each is refused by name, none is passed over. */

const design = designRing(FERRY);

/** Every function that takes options, with options alone left to be given. */
const FUNCTIONS: readonly (readonly [string, (options: Loose) => unknown])[] = [
  ["designRing", (options) => designRing(FERRY, options)],
  ["closeInBore", (options) => closeInBore(design, {}, options)],
  ["compareRings", (options) => compareRings(design, design, options)],
  ["ringFromScan", (options) => ringFromScan(design.outline.outer, { spec: FERRY, ...options })],
];

describe("Options", () => {
  test.each(FUNCTIONS)("that are misspelt are told by the name that was meant: %s", (name, call) => {
    const [wrong, meant] = {
      designRing: ["prof", "proof"],
      closeInBore: ["sensitivty", "sensitivity"],
      compareRings: ["gian", "gain"],
      ringFromScan: ["smothness", "smoothness"],
    }[name] as [string, string];
    const error = refusalOf(() => call({ [wrong]: 1 }));
    expect([error.field, error.value]).toEqual([wrong, 1]);
    expect(error.allowed).toContain(`the nearest is "${meant}"`);
  });

  test.each(FUNCTIONS.slice(0, 3))("that are no object are called options: %s", (_, call) => {
    for (const options of [null, 3, "proof"]) {
      const error = refusalOf(() => call(options));
      expect([error.field, error.value]).toEqual(["options", options]);
      expect(error.allowed).toBe("must be an object");
    }
  });

  test("of a design are true or false", () => {
    for (const field of ["proof", "allowNegativePressure"]) {
      const error = refusalOf(() => designRing(FERRY, { [field]: "yes" } as Loose));
      expect([error.field, error.value, error.allowed]).toEqual([field, "yes", "must be true or false"]);
    }
  });

  test("of a map of contacts are those of a contact, and its own", () => {
    expect(refusalOf(() => contactMap(design, [3], [0.01], { stration: 3 } as Loose)).field).toBe("stration");
    const { contactShare } = contactMap(design, [3], [0.05], { sensitivity: "5 um", stations: 60 });
    expect(contactShare).toEqual(
      contactMap(design, [3], [0.05], { sensitivity: 0.005, stations: 60 }).contactShare,
    );
  });

  test("of the eye may have a unit", () => {
    expect(lightTest(design, { sensitivity: "5 um" }).closure.sensitivity).toBe(0.005);
    for (const sensitivity of [0, -1, 1.001, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(refusalOf(() => lightTest(design, { sensitivity })).allowed).toMatch(/^must be above 0 to 1 mm/);
    }
  });

  test.each<Loose>([{}, { spec: {} }, { spec: { bore: 118 } }, { spec: { bore: 118 }, free: {} }, 5])(
    "of a comparison: told to make %j, which is no ring",
    (commanded) => {
      const { field, allowed } = refusalOf(() => compareRings(design, design, { commanded }));
      expect(field).toBe("commanded");
      expect(allowed).toMatch(/^must be a ring for the drawing's bore of 118 mm, with its 180 stations/);
    },
  );
});

describe("Orders", () => {
  test.each<[Loose, string]>([
    [[1], "orders.0"],
    [[2, 2.5], "orders.1"],
    [[Number.NaN], "orders.0"],
    [[4, 101], "orders.1"],
    [["4"], "orders.0"],
    [[], "orders"],
    [4, "orders"],
  ])("of bores to follow are whole numbers from 2 to 100: not %j", (orders, field) => {
    const error = refusalOf(() => conformability(design, orders));
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(/^must be a (whole number from 2 to 100|list of one order at least)$/);
  });

  test("of a pressure are counted from 0 to 100", () => {
    expect(describePressure(design, 0).harmonics).toEqual([]);
    expect(describePressure(design, 100).harmonics).toHaveLength(100);
    for (const highest of [-1, 1.5, 101, Number.NaN, "3" as Loose]) {
      const error = refusalOf(() => describePressure(design, highest));
      expect([error.field, error.value]).toEqual(["highestOrder", highest]);
      expect(error.allowed).toBe("must be a whole number from 0 to 100");
    }
  });
});

test("A list of millions is told in a short line, and soon", () => {
  const start = performance.now();
  const { message } = new SpecError("rows", [new Array(5_000_000).fill(null)], "must be shorter");
  expect(message).toMatch(/^rows = \[\[null,null,.{1,60}\.\.\.: must be shorter$/);
  expect(performance.now() - start).toBeLessThan(500);
});
