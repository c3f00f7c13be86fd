import * as v from "valibot";
import { type Dimension, OWN_UNIT, readQuantity, waysToWrite } from "./quantity.js";

/** Kinds of field, each with the words that a wrong value is refused with. */

/** Range of a number; `above` excludes its bound, `min` and `max` include theirs. */
export type Range = { above?: number; min?: number; max: number };

/** What `v.metadata` carries so that the JSON Schema can tell the same range. */
export type QuantityMetadata = { dimension: Dimension; range: Range };

function inRange(value: number, { above, min, max }: Range): boolean {
  return (above === undefined || value > above) && (min === undefined || value >= min) && value <= max;
}

function rangeInWords({ above, min, max }: Range, unit: string): string {
  const from = above === undefined ? `from ${min}` : `above ${above}`;
  const to = max < Number.MAX_VALUE ? ` to ${max}` : "";
  return `${from}${to}${unit}`;
}

/** Angles are thought of in degrees. */
function inDegrees(dimension: Dimension, { above, min = above, max }: Range): string {
  if (dimension !== "angle") return "";
  const degrees = (angle = 0) => `${Number(((angle * 180) / Math.PI).toPrecision(4))}°`;
  return ` (${degrees(min)} to ${degrees(max)})`;
}

/** A finite number in the library's unit, or a string with a unit; always a number in the library's unit after reading. */
export function quantity(dimension: Dimension, range: Range, what: string) {
  const inWords = `${rangeInWords(range, ` ${OWN_UNIT[dimension]}`)}${inDegrees(dimension, range)}`;
  const words = `must be ${inWords}, as ${waysToWrite(dimension)}`;
  return v.pipe(
    v.custom<number | string>((value) => typeof value === "number" || typeof value === "string", words),
    v.metadata({ description: `${what} (${OWN_UNIT[dimension]})`, quantity: { dimension, range } }),
    v.rawTransform(({ dataset, addIssue, NEVER }) => {
      const read = readQuantity(dataset.value, dimension);
      if (typeof read !== "number") {
        addIssue({ message: read.reason });
        return NEVER;
      }
      if (!(Number.isFinite(read) && inRange(read, range))) {
        addIssue({ message: words });
        return NEVER;
      }
      return read;
    }),
  );
}

/** An object whose fields may all be left out: without this a list would pass for one that is empty. */
export function optionalFields<Schema extends v.GenericSchema>(schema: Schema): Schema {
  return v.lazy((input) => (Array.isArray(input) ? NO_LIST : schema)) as unknown as Schema;
}
const NO_LIST = v.custom(() => false, "must be an object");

/** One of several names. */
export function oneOf<const Names extends readonly [string, ...string[]]>(names: Names, also = "") {
  const quoted = names.map((name) => JSON.stringify(name));
  const words = names.length === 2 ? quoted.join(" or ") : `one of ${quoted.join(", ")}`;
  return v.picklist(names, `must be ${words}${also}`);
}

/** Objects of several kinds, chosen by the `shape` they name, so that an error inside keeps its own path. */
export function byShape<Schemas extends Record<string, v.GenericSchema>>(schemas: Schemas) {
  type One = Schemas[keyof Schemas];
  const some = v.looseObject({ shape: oneOf(Object.keys(schemas) as [string, ...string[]]) });
  return v.lazy((input) => {
    const shape = (input as { shape?: unknown } | null | undefined)?.shape;
    return typeof shape === "string" && Object.hasOwn(schemas, shape) ? schemas[shape] : some;
  }) as unknown as v.GenericSchema<v.InferInput<One>, v.InferOutput<One>>;
}

export function wholeNumber(min: number, max: number, what: string) {
  const words = `must be a whole number from ${min} to ${max}`;
  return v.pipe(
    v.number(words),
    v.integer(words),
    v.minValue(min, words),
    v.maxValue(max, words),
    v.description(what),
  );
}

export function plainNumber(min: number, max: number, what: string) {
  const words = `must be a number ${rangeInWords({ min, max }, "")}`;
  return v.pipe(
    v.number(words),
    v.finite(words),
    v.minValue(min, words),
    v.maxValue(max, words),
    v.description(what),
  );
}

export function positive(dimension: Dimension, what: string) {
  return quantity(dimension, { above: 0, max: Number.MAX_VALUE }, what);
}

/** Values at angles from the back; what depends on the ring and on neighbours is checked in `tables`. */
const TABLE_LENGTH = { min: 3, max: 100000 };
/** A little over half a turn: users round π up. */
const HALF_TURN = 3.15;

/** What `v.metadata` carries for a list. */
export type ListMetadata = { item: v.GenericSchema; min: number; max: number };

type NumberItem = v.GenericSchema<number | string, number> | v.GenericSchema<number, number>;

/**
 * A list of numbers, each as `item` reads it. Plain numbers within the range are taken as they are, without the schema
 * library's work for each: tables are long.
 */
export function list<Item extends NumberItem>(
  item: Item,
  range: Range,
  min: number,
  max: number,
  what: string,
) {
  const words = `must be a list of ${min} to ${max} numbers`;
  const isList = (value: unknown) => Array.isArray(value) && value.length >= min && value.length <= max;
  return v.pipe(
    v.custom<v.InferInput<Item>[]>(isList, words),
    v.metadata({ description: what, list: { item, min, max } satisfies ListMetadata }),
    v.rawTransform(({ dataset, addIssue, NEVER }) => {
      const input = dataset.value;
      const numbers = new Array<number>(input.length);
      for (const [key, value] of input.entries()) {
        if (typeof value === "number" && inRange(value, range)) {
          numbers[key] = value;
          continue;
        }
        const read = v.safeParse(item as v.GenericSchema<unknown, number>, value);
        if (!read.success) {
          addIssue({
            message: read.issues[0].message,
            input: value,
            path: [{ type: "array", origin: "value", input, key, value }],
          });
          return NEVER;
        }
        numbers[key] = read.output;
      }
      return numbers;
    }),
  );
}

/** Any finite number. */
const FINITE: Range = { min: -Number.MAX_VALUE, max: Number.MAX_VALUE };
export const finiteNumber = v.pipe(v.number("must be a finite number"), v.finite("must be a finite number"));

const ANGLE: Range = { min: -HALF_TURN, max: HALF_TURN };
/** An angle from the back, in either direction. */
export const angleFromBack = (what: string) => quantity("angle", ANGLE, what);

export function anglesAndValues(what: string) {
  return {
    angle: list(
      angleFromBack("angle from the back"),
      ANGLE,
      TABLE_LENGTH.min,
      TABLE_LENGTH.max,
      "angles from the back, increasing: from 0 on for a ring whose halves are alike, or for the whole ring",
    ),
    relative: list(finiteNumber, FINITE, TABLE_LENGTH.min, TABLE_LENGTH.max, `${what}, one an angle`),
  };
}
