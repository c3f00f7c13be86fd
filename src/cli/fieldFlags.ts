import { Option } from "commander";

/** Flags that stand for fields of a file. */

/** What will be read as the file's object. */
export type Draft = Record<string, unknown>;

/** Flags of a command, by the parser's names for them. */
export type Flags = Record<string, string | boolean | undefined>;

/** A flag, the field that it sets, perhaps in a section, and what kind of value it takes. */
export interface FieldFlag {
  readonly flag: string;
  readonly field: readonly [outer: string, inner?: string];
  readonly value: string;
  /** Fields of the same section that go with it. */
  readonly implies?: Readonly<Record<string, unknown>>;
}

/** Those of a command's flags that set fields, by their own names. */
export function flagTexts(known: readonly FieldFlag[], flags: Flags): Record<string, string> {
  const named = known.map(({ flag }) => [flag, flags[new Option(`--${flag}`).attributeName()]] as const);
  return Object.fromEntries(named.filter((entry): entry is [string, string] => typeof entry[1] === "string"));
}

/**
 * Puts flags into the fields of a file; flags win.
 *
 * @param draft what the file holds
 * @param known the flags that there are
 * @param texts values by flag name, as typed
 * @param sectionOf what to put a field into, from what stands there; none to leave that for the reader to refuse
 */
export function putFlags(
  draft: Draft,
  known: readonly FieldFlag[],
  texts: Readonly<Record<string, string | undefined>>,
  sectionOf: (value: unknown) => object | undefined,
): Draft {
  const all = { ...draft };
  for (const { flag, field, value, implies } of known) {
    const text = texts[flag];
    if (text === undefined) continue;
    const [outer, inner] = field;
    const read = value === "name" ? text : numberOrText(text);
    const section = sectionOf(all[outer]);
    if (inner === undefined) all[outer] = read;
    else if (section) all[outer] = { ...section, ...implies, [inner]: read };
  }
  return all;
}

/** A flag's value as a file would have it: a plain number is one in mm, N or MPa; anything else stays text. */
export function numberOrText(text: string): number | string {
  return text.trim() === "" || Number.isNaN(Number(text)) ? text : Number(text);
}

export const isObject = (value: unknown): value is object =>
  typeof value === "object" && value !== null && !Array.isArray(value);
