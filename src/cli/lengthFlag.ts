import { SpecError } from "../spec/error.js";
import { readQuantity } from "../spec/quantity.js";
import { numberOrText } from "./fieldFlags.js";

/** A length given as a flag, in mm. */
export function lengthFlag(flag: string, text: string): number {
  const length = readQuantity(numberOrText(text), "length");
  if (typeof length !== "number") throw new SpecError(flag, text, length.reason);
  return length;
}
