import { SpecError } from "./error.js";
import type { Material, OverTemperature } from "./materials.js";

/** Room temperature, at which sizes are given, °C (ISO 1). */
export const ROOM = 20;

/** How far past a table's last temperature its value is still taken, K. */
export const BEYOND = 50;

/**
 * A property at a temperature: straight between the points, and below the first one its value.
 *
 * @throws SpecError where the table ends more than 50 K below the temperature
 */
function valueAt({ temperature, value }: OverTemperature, at: number, field: string): number {
  const last = temperature.length - 1;
  if (at > temperature[last] + BEYOND) {
    throw new SpecError(
      field,
      at,
      `must be at most ${temperature[last] + BEYOND} °C: the material's data end at ${temperature[last]} °C`,
    );
  }
  if (at <= temperature[0]) return value[0];
  if (at >= temperature[last]) return value[last];
  const k = temperature.findIndex((known) => known >= at);
  const share = (at - temperature[k - 1]) / (temperature[k] - temperature[k - 1]);
  return value[k - 1] + share * (value[k] - value[k - 1]);
}

/**
 * Size at a temperature over the size at 20 °C: 1 + α·(T − 20 °C) with the mean coefficient.
 *
 * @param material with its expansion
 * @param at °C
 * @param field names what is warm, in messages
 * @param materialField and where its material is given,
 * @param temperatureField and its temperature
 * @throws SpecError where no expansion is known
 */
export function growthAt(
  material: Pick<Material, "name" | "expansion">,
  at: number,
  field: string,
  materialField = `${field}.material`,
  temperatureField = `${field}.temperature`,
): number {
  if (at === ROOM) return 1;
  const { name = "the material", expansion } = material;
  if (!expansion) throw new SpecError(materialField, name, "must have its expansion given for a temperature");
  return 1 + valueAt(expansion, at, temperatureField) * (at - ROOM);
}

/** Young's modulus at a temperature over that at 20 °C; 1 where no table is known. */
export function softeningAt({ modulus }: Pick<Material, "modulus">, at: number, field: string): number {
  if (!modulus) return 1;
  return valueAt(modulus, at, `${field}.temperature`) / valueAt(modulus, ROOM, field);
}
