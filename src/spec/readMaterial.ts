import { SpecError } from "./error.js";
import { MATERIALS, type Material, type OverTemperature } from "./materials.js";
import type { BodyOutput } from "./schema.js";

/**
 * A material by name or in full.
 *
 * @param material as read by the schema
 * @param field where it stands
 * @throws SpecError for tables over the temperature that are not in order
 */
export function readMaterial(
  material: BodyOutput["material"],
  field: string,
  given: unknown = material,
): Material {
  if (typeof material === "string") return { name: material, ...structuredClone(MATERIALS[material]) };
  const { modulus, expansion } = material;
  const as = given as typeof material;
  checkOrder(modulus, `${field}.modulus`, as.modulus);
  checkOrder(expansion, `${field}.expansion`, as.expansion);
  // Only what is given, so that the spec survives JSON.
  return Object.fromEntries(
    Object.entries(material).filter(([, value]) => value !== undefined),
  ) as unknown as Material;
}

function checkOrder(
  table: OverTemperature | undefined,
  field: string,
  given: OverTemperature | undefined,
): void {
  if (!table) return;
  const { temperature, value } = table;
  if (value.length !== temperature.length) {
    throw new SpecError(
      `${field}.value`,
      given?.value,
      `must have ${temperature.length} values, one for each temperature`,
    );
  }
  for (let k = 1; k < temperature.length; k++) {
    if (temperature[k] > temperature[k - 1]) continue;
    throw new SpecError(
      `${field}.temperature.${k}`,
      given?.temperature[k],
      `must be above the one before it, ${temperature[k - 1]} °C`,
    );
  }
}
