import { Option } from "commander";
import type { MakingInput } from "../making/makingSchema.js";
import { type Flags, numberOrText, readJson } from "./specSource.js";

/** Fields of the making file as flags. */
export const MAKING_FLAGS = [
  {
    flag: "tolerance",
    field: ["tolerance"],
    value: "length",
    help: "largest distance of arcs and Béziers from the curve",
  },
  {
    flag: "yield",
    field: ["coiling", "yieldStress"],
    value: "pressure",
    help: "yield stress of the wire, for springback",
  },
  { flag: "batch", field: ["coiling", "batch"], value: "number", help: "rings in the batch" },
  {
    flag: "filing-stock",
    field: ["gap", "filingStock"],
    value: "length",
    help: "stock left to file on each end",
  },
  {
    flag: "held-gap",
    field: ["gap", "heldGap"],
    value: "length",
    help: "opening at which the ring is held for cutting",
  },
  { flag: "nose", field: ["cam", "noseRadius"], value: "length", help: "radius of the turning tool's nose" },
  { flag: "page", field: ["page"], value: "name", help: "sheet of the template: A4, A3 or Letter" },
] as const;

/** The making file with the flags put in; flags win. */
export function makingFrom(file: string | undefined, flags: Flags): MakingInput {
  const draft: Record<string, unknown> = file === undefined ? {} : readJson(file, "--making");
  for (const { flag, field, value } of MAKING_FLAGS) {
    const text = flags[new Option(`--${flag}`).attributeName()];
    if (typeof text !== "string") continue;
    const [outer, inner] = field as readonly [string, string?];
    const read = value === "name" ? text : numberOrText(text);
    const section = draft[outer] === undefined ? {} : draft[outer];
    if (inner === undefined) draft[outer] = read;
    // What is no section is left for the reader to refuse.
    else if (typeof section === "object" && section !== null && !Array.isArray(section)) {
      draft[outer] = { ...section, [inner]: read };
    }
  }
  return draft as MakingInput;
}
