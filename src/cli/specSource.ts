import type { Command } from "commander";
import { type ParseError, parse, printParseErrorCode } from "jsonc-parser";
import type { RingSpecInput } from "../spec/schema.js";
import { type Draft, type Flags, flagTexts, isObject, putFlags } from "./fieldFlags.js";
import { InputError } from "./inputError.js";
import { readText } from "./readText.js";

export { type Flags, numberOrText } from "./fieldFlags.js";

/** Common spec fields as flags: the field they set, a placeholder and what they mean. */
export const SPEC_FLAGS = [
  { flag: "bore", field: ["bore"], value: "length", help: "bore diameter" },
  { flag: "gap", field: ["closedGap"], value: "length", help: "gap between the ends in the bore" },
  { flag: "wall", field: ["section", "radialThickness"], value: "length", help: "radial wall thickness" },
  { flag: "height", field: ["section", "axialHeight"], value: "length", help: "axial height" },
  { flag: "material", field: ["material"], value: "name", help: "material by name, instead of a modulus" },
  { flag: "modulus", field: ["material", "youngsModulus"], value: "pressure", help: "Young's modulus" },
  { flag: "force", field: ["load", "tangentialForce"], value: "force", help: "load: tangential force" },
  { flag: "pressure", field: ["load", "contactPressure"], value: "pressure", help: "load: contact pressure" },
  { flag: "free-gap", field: ["load", "freeGap"], value: "length", help: "load: free gap" },
  {
    flag: "more-at-gap",
    field: ["pressure", "strength"],
    value: "strength",
    help: "pressure at the gap higher by this share of the mean, 0 to about 2",
    implies: { shape: "moreAtGap" },
  },
  {
    flag: "less-at-gap",
    field: ["pressure", "strength"],
    value: "strength",
    help: "pressure at the gap lower by this share of the mean, 0 to 1",
    implies: { shape: "lessAtGap" },
  },
  { flag: "theory", field: ["theory"], value: "name", help: "curved (default) or thin" },
  { flag: "stations", field: ["stations"], value: "number", help: "stations per half ring" },
] as const;

type SpecFlag = (typeof SPEC_FLAGS)[number];

/** Gives a command the flags that set spec fields, but for some. */
export function addSpecFlags(command: Command, isLeftOut: (one: SpecFlag) => boolean = () => false): void {
  for (const one of SPEC_FLAGS) if (!isLeftOut(one)) command.option(`--${one.flag} <${one.value}>`, one.help);
}

/** Those that set spec fields, by their own names. */
export const specFlags = (flags: Flags): Record<string, string> => flagTexts(SPEC_FLAGS, flags);

/** What the message says where there is neither file nor flag, and what the file is called. */
interface SourceWords {
  /** Name of the argument. Default "SPEC.json". */
  readonly file?: string;
  /** What must be given. */
  readonly missing?: string;
}

/** In place of a file of a spec. */
const MISSING =
  "SPEC.json or flags such as --bore must be given; camround example prints a spec to start from";

/**
 * Puts a spec together from a file and from flags; flags win. A load or a pressure given by flag replaces the file's, and
 * a material name its modulus, so that a flag never contradicts the file; two load flags do contradict each other.
 *
 * @param file path of a JSON spec, comments allowed
 * @param flags values by flag name, as typed
 * @param words of the command
 * @throws InputError when the file cannot be read as JSON or flags contradict each other
 */
export function specFrom(
  file: string | undefined,
  flags: Partial<Record<SpecFlag["flag"], string>>,
  { file: name = "SPEC.json", missing = MISSING }: SourceWords = {},
): RingSpecInput {
  const given = SPEC_FLAGS.filter(({ flag }) => flags[flag] !== undefined);
  if (file === undefined && given.length === 0) {
    throw new InputError(missing);
  }
  return withFlags(file === undefined ? {} : readJson(file, name), flags);
}

/** A spec, as read from a file, with the flags put in. */
export function withFlags(file: Draft, flags: Partial<Record<SpecFlag["flag"], string>>): RingSpecInput {
  const draft = { ...file };
  const given = SPEC_FLAGS.filter(({ flag }) => flags[flag] !== undefined);
  for (const group of ["load", "material", "pressure"]) {
    const members = given.filter(({ field }) => field[0] === group);
    if (members.length > 1) {
      const names = members.map(({ flag }) => `--${flag}`).join(" and ");
      throw new InputError(`${names} contradict each other: give one of them`);
    }
  }
  for (const group of ["load", "pressure"]) {
    if (given.some(({ field }) => field[0] === group)) draft[group] = {};
  }
  // What stands in the file and is no section, such as a material's name, gives way.
  const sectionOf = (value: unknown) => (isObject(value) ? value : {});
  return putFlags(draft, given, flags, sectionOf) as unknown as RingSpecInput;
}

/** One JSON object from a file, comments allowed; `what` names the argument in messages. */
export function readJson(file: string, what = "SPEC.json"): Draft {
  return parseJson(readText(file, what), `${what} = ${JSON.stringify(file)}`);
}

/** @param name of the text in messages */
export function parseJson(text: string, name: string): Draft {
  const errors: ParseError[] = [];
  let value: unknown;
  try {
    value = parse(text.replace(/^\ufeff/, ""), errors, { allowTrailingComma: true });
  } catch (error) {
    // The parser calls itself for each level.
    if (error instanceof RangeError) throw new InputError(`${name}: nested too deeply`);
    throw error;
  }
  const [first] = errors;
  if (first !== undefined) {
    const before = text.slice(0, first.offset).split("\n");
    const place = `line ${before.length}, column ${(before.at(-1) as string).length + 1}`;
    throw new InputError(`${name}: not JSON, ${printParseErrorCode(first.error)} at ${place}`);
  }
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError(`${name}: must hold one object`);
  }
  // An editor's pointer to the JSON Schema is no field of ours.
  const { $schema: _schema, ...fields } = value as Draft;
  return fields;
}
