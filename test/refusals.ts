import { expect } from "vitest";
import { type DesignOptions, designRing, SpecError } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

/** Orders that are wrong, and what a refusal must say. */

/** What may be wrong in any way. */
// biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
export type Loose = any;

export const FERRY: Loose = DEMO_RINGS["ferry 118 mm"];

/** A good half table with some fields replaced or (undefined) taken away. */
export function table(change: object): Loose {
  const fields = Object.entries({ angle: [0, 1, 2, Math.PI], relative: [1, 1, 1, 1], ...change });
  return Object.fromEntries(fields.filter(([, value]) => value !== undefined));
}

/** So that a reader that writes into its input fails. */
export function frozen(value: Loose): Loose {
  if (typeof value === "object" && value !== null) for (const part of Object.values(value)) frozen(part);
  return Object.freeze(value);
}

export function refusal(spec: Loose, options?: DesignOptions): SpecError {
  let error: unknown;
  try {
    designRing(frozen(spec), options);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

/** An order with the field that is named, the value that is shown, and what is told of what is allowed. */
export type Case = readonly [what: string, spec: Loose, field: string, value: unknown, allowed: RegExp];

export function expectRefused(spec: Loose, field: string, value: unknown, allowed: RegExp): void {
  const error = refusal(spec);
  expect(error.field).toBe(field);
  expect(error.value).toEqual(value);
  expect(error.allowed).toMatch(allowed);
  expect(error.message).toContain(error.allowed);
  expect(error.message.startsWith(`${field} = `)).toBe(true);
}

/** What is wrong with any table, at `place` in the order. */
export function badTables(place: string, order: (table: Loose) => Loose): Case[] {
  const bad = (what: string, change: object, field: string, value: unknown, allowed: RegExp): Case => [
    what,
    order(table(change)),
    `${place}.${field}`,
    value,
    allowed,
  ];
  const inf = Number.POSITIVE_INFINITY;
  const [nan, pi] = [Number.NaN, Math.PI];
  return [
    bad("angles out of order", { angle: [0, 2, 1, pi] }, "angle.2", 1, /out of order.* above .* 2/),
    bad("an angle twice", { angle: [0, 1, 1, pi] }, "angle.2", 1, /given twice/),
    bad("too few angles", { angle: [0, pi], relative: [1, 1] }, "angle", [0, pi], /3 to 100000 numbers/),
    bad("a table of nothing", { angle: [], relative: [] }, "angle", [], /3 to 100000 numbers/),
    bad(
      "angles short of the end",
      { angle: [0, 1, 2, 3] },
      "angle.3",
      3,
      /reach the end of the ring, 3\.137/,
    ),
    bad("angles short of the other end", { angle: [-3, 1, 2, pi] }, "angle.0", -3, /-3\.137/),
    bad("angles from 0.1 on", { angle: [0.1, 1, 2, pi] }, "angle.0", 0.1, /must be 0 .* one half/),
    bad("NaN for an angle", { angle: [0, nan, 2, pi] }, "angle.1", nan, /from -3\.15 to 3\.15 rad/),
    bad("bare degrees", { angle: [0, 60, 120, 180] }, "angle.1", 60, /a string .* "30 deg"/),
    bad("a string without unit", { angle: [0, "30", 2, pi] }, "angle.1", "30", /"30 deg"/),
    bad(
      "a length for an angle",
      { angle: [0, "30 mm", 2, pi] },
      "angle.1",
      "30 mm",
      /"mm" is not an angle unit/,
    ),
    bad("no list of angles", { angle: 1 }, "angle", 1, /list/),
    bad("no angles", { angle: undefined }, "angle", undefined, /must be given/),
    bad("no values", { relative: undefined }, "relative", undefined, /must be given/),
    bad("a value too few", { relative: [1, 1, 1] }, "relative", [1, 1, 1], /4 values.* has 3/),
    bad("a value too many", { relative: [1, 1, 1, 1, 1] }, "relative", [1, 1, 1, 1, 1], /4 values.* has 5/),
    bad("NaN for a value", { relative: [1, nan, 1, 1] }, "relative.1", nan, /number/),
    bad("infinity for a value", { relative: [1, 1, 1, inf] }, "relative.3", inf, /number/),
    bad("a string for a value", { relative: [1, "2", 1, 1] }, "relative.1", "2", /number/),
    bad("an unknown field", { value: 3 }, "value", 3, /not a known field.*angle, relative/),
  ];
}
