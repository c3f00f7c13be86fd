import { SpecError } from "../spec/error.js";
import { growthAt, ROOM } from "../spec/materialAt.js";
import { readMaterial } from "../spec/readMaterial.js";
import type { BodyOutput } from "../spec/schema.js";

/** A part of the engine as read: what it is made of, if given, and how warm it is, °C. */
interface WarmPart {
  readonly material?: BodyOutput["material"] | undefined;
  readonly temperature: number;
}

/**
 * Size of a part over its size at 20 °C; at 20 °C it is 1, whatever the part is made of.
 *
 * @param field names the part in messages
 * @throws SpecError where it is warm and its material, or that one's expansion, is not given
 */
export function growthOf({ material, temperature }: WarmPart, field: string): number {
  if (temperature === ROOM) return 1;
  if (material !== undefined)
    return growthAt(readMaterial(material, `${field}.material`), temperature, field);
  throw new SpecError(`${field}.material`, undefined, `must be given for a part at ${temperature} °C`);
}
