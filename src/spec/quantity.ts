/**
 * Quantities at the edge: a bare number is in the library's own unit (mm, N, MPa, rad, °C, kg/m³), a string carries its unit.
 * Inside the library every quantity is a number in that unit.
 */

/** Size of each unit in the library's unit. Inch, pound-force and their compounds are exact by definition. */
const POUND_FORCE = 4.4482216152605;
const PSI = POUND_FORCE / 25.4 ** 2;

export const UNITS = {
  length: {
    mm: 1,
    cm: 10,
    m: 1000,
    um: 1e-3,
    µm: 1e-3,
    in: 25.4,
    inch: 25.4,
    '"': 25.4,
    thou: 0.0254,
  },
  force: { N: 1, kN: 1000, lbf: POUND_FORCE },
  pressure: {
    MPa: 1,
    "N/mm2": 1,
    "N/mm²": 1,
    kPa: 1e-3,
    GPa: 1000,
    bar: 0.1,
    psi: PSI,
    ksi: 1000 * PSI,
  },
  angle: { rad: 1, deg: Math.PI / 180, "°": Math.PI / 180 },
  // Only degrees Celsius: other scales also shift the zero.
  temperature: { "°C": 1, degC: 1, C: 1 },
  density: { "kg/m3": 1, "kg/m³": 1, "g/cm3": 1000, "g/cm³": 1000, "kg/dm3": 1000, "kg/dm³": 1000 },
} as const;

export type Dimension = keyof typeof UNITS;

export const OWN_UNIT: Record<Dimension, string> = {
  length: "mm",
  force: "N",
  pressure: "MPa",
  angle: "rad",
  temperature: "°C",
  density: "kg/m³",
};

const EXAMPLES: Record<Dimension, string> = {
  length: '"118 mm", "3.5 in", "3 1/2 in", "18 thou"',
  force: '"12 N", "2.7 lbf"',
  pressure: '"0.15 MPa", "22 psi", "205 GPa"',
  angle: '"30 deg", "30°"',
  temperature: '"180 °C", "180 degC"',
  density: '"7850 kg/m3", "7.2 g/cm3"',
};

/** A decimal number, or a whole and a fraction as inch rules have them, then the unit. */
export const QUANTITY_PATTERN =
  /^\s*(?:(?<decimal>[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|(?:(?<whole>\d+)[ -])?(?<top>\d+)\/(?<bottom>\d+))\s*(?<unit>[A-Za-zµμ"°][A-Za-z0-9/²³]*)\s*$/;

/** The ways in which a quantity can be written, in words, for messages. */
export function waysToWrite(dimension: Dimension): string {
  return `a number in ${OWN_UNIT[dimension]} or a string with a unit such as ${EXAMPLES[dimension]}`;
}

/**
 * Reads a quantity.
 *
 * @param value number in the library's unit, or string with a unit
 * @returns the number in mm, N, MPa, rad, °C or kg/m³; or, where the text is not a quantity of that dimension, the reason
 */
export function readQuantity(value: number | string, dimension: Dimension): number | { reason: string } {
  if (typeof value === "number") return value;
  const { unit, decimal, whole, top, bottom } = QUANTITY_PATTERN.exec(value)?.groups ?? {};
  if (unit === undefined) return { reason: `must be ${waysToWrite(dimension)}` };
  const units: Record<string, number> = UNITS[dimension];
  // The Greek letter and the micro sign look alike.
  const name = unit.replace("μ", "µ");
  if (!Object.hasOwn(units, name)) {
    const known = Object.keys(units).join(", ");
    return {
      reason: `unit ${JSON.stringify(name)} is not ${dimension === "angle" ? "an" : "a"} ${dimension} unit; use ${known}`,
    };
  }
  const amount = decimal === undefined ? Number(whole ?? 0) + Number(top) / Number(bottom) : Number(decimal);
  return amount * units[name];
}
