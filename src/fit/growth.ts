import { SpecError } from "../spec/error.js";
import { growthAt, ROOM } from "../spec/materialAt.js";
import type { Material } from "../spec/materials.js";
import { readMaterial } from "../spec/readMaterial.js";
import type { BodyOutput } from "../spec/schema.js";
import type { Heat, Piston } from "./fitSchema.js";

/** Sizes hot over sizes at 20 °C, of all three. */
export interface Growths {
  readonly ring: number;
  readonly piston: number;
  readonly bore: number;
}

/** All at 20 °C. */
export const COLD: Growths = { ring: 1, piston: 1, bore: 1 };

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

/**
 * Sizes hot over sizes at 20 °C of ring, piston and bore, fields named as in an engine or an order.
 *
 * @param materialField where the ring's material stands, for messages
 */
export function growths(
  { ring, bore }: Heat,
  piston: Piston,
  material: Material,
  materialField: string,
): Growths {
  return {
    ring: growthAt(material, ring.temperature, "heat.ring", materialField),
    piston: growthOf(piston, "piston"),
    bore: growthOf(bore, "heat.bore"),
  };
}
