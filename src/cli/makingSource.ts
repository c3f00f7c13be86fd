import type { MakingInput } from "../making/makingSchema.js";
import { type Flags, flagTexts, isObject, putFlags } from "./fieldFlags.js";
import { readJson } from "./specSource.js";

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
  const draft = file === undefined ? {} : readJson(file, "--making");
  // What is no section is left for the reader to refuse.
  const sectionOf = (value: unknown) => (value === undefined ? {} : isObject(value) ? value : undefined);
  return putFlags(draft, MAKING_FLAGS, flagTexts(MAKING_FLAGS, flags), sectionOf) as MakingInput;
}
