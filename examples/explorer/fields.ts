import type { BoreInput, RingSpecInput } from "../../src/index.js";

/** What can be moved on the page. Values are in mm, MPa, degrees or plain numbers; lengths may be shown in inches. */
export interface Field {
  readonly id: string;
  readonly label: string;
  readonly unit: "length" | "MPa" | "GPa" | "°" | "";
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly start: number;
}

/** Fields in groups, as they stand on the page. The ring is that of the ferry; invented data. */
export const GROUPS: readonly { readonly title: string; readonly fields: readonly Field[] }[] = [
  {
    title: "The ring",
    fields: [
      { id: "bore", label: "Bore diameter", unit: "length", min: 20, max: 400, step: 0.1, start: 118 },
      {
        id: "wall",
        label: "Radial wall thickness",
        unit: "length",
        min: 0.5,
        max: 14,
        step: 0.05,
        start: 4.4,
      },
      { id: "height", label: "Axial height", unit: "length", min: 0.3, max: 12, step: 0.05, start: 2 },
      { id: "gap", label: "Closed gap", unit: "length", min: 0, max: 4, step: 0.01, start: 0.45 },
      { id: "modulus", label: "Young's modulus", unit: "GPa", min: 60, max: 230, step: 1, start: 205 },
      {
        id: "pressure",
        label: "Contact pressure",
        unit: "MPa",
        min: 0.01,
        max: 0.6,
        step: 0.005,
        start: 0.15,
      },
      {
        id: "strength",
        label: "More pressure at the gap",
        unit: "",
        min: -1,
        max: 1.5,
        step: 0.05,
        start: 0,
      },
    ],
  },
  {
    title: "The bore that it stands in",
    fields: [
      {
        id: "larger",
        label: "Diameter larger by",
        unit: "length",
        min: -0.1,
        max: 0.3,
        step: 0.005,
        start: 0,
      },
      { id: "order", label: "Lobes to a turn", unit: "", min: 2, max: 12, step: 1, start: 4 },
      {
        id: "lobes",
        label: "Height of the lobes",
        unit: "length",
        min: 0,
        max: 0.2,
        step: 0.001,
        start: 0.01,
      },
      { id: "turned", label: "Ring turned by", unit: "°", min: -180, max: 180, step: 1, start: 0 },
    ],
  },
];

export const FIELDS: readonly Field[] = GROUPS.flatMap(({ fields }) => fields);
export type Values = Readonly<Record<string, number>>;
export const START: Values = Object.fromEntries(FIELDS.map(({ id, start }) => [id, start]));

/** Digits that a step needs. */
export const digitsOf = (step: number) => Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));

const DEGREE = Math.PI / 180;

export function specOf(values: Values): RingSpecInput {
  const { strength } = values;
  return {
    bore: values.bore,
    closedGap: values.gap,
    section: { radialThickness: values.wall, axialHeight: values.height },
    material: { youngsModulus: 1000 * values.modulus },
    load: { contactPressure: values.pressure },
    ...(strength !== 0 && {
      pressure: { shape: strength > 0 ? "moreAtGap" : "lessAtGap", strength: Math.abs(strength) },
    }),
  };
}

export function boreOf(values: Values): BoreInput {
  return {
    diameter: values.bore + values.larger,
    harmonics: [{ order: values.order, amplitude: values.lobes }],
    rotation: values.turned * DEGREE,
  };
}

/** What a link carries. */
export interface Shared {
  readonly spec: RingSpecInput;
  readonly bore: BoreInput;
}

/**
 * The fields of a shared ring.
 *
 * @throws Error in words for what this page has no field for
 */
export function valuesOf({ spec, bore }: Shared): Values {
  only(spec, "a ring", "bore closedGap section material load pressure");
  only(spec.section, "section", "radialThickness axialHeight");
  only(spec.material, "material", "youngsModulus");
  only(spec.load, "load", "contactPressure");
  only(spec.pressure ?? {}, "pressure", "shape strength");
  only(bore, "a bore", "diameter harmonics rotation");
  const waves = bore.harmonics ?? [];
  if (waves.length > 1) throw new Error("a bore of several waves has no fields on this page");
  for (const one of waves) only(one, "harmonics", "order amplitude");
  const number = (value: unknown, what: string) => {
    if (typeof value === "number" && Number.isFinite(value)) return value;
    throw new Error(`${what} must be a number`);
  };
  const { shape = "uniform", strength = 0 } = (spec.pressure ?? {}) as { shape?: string; strength?: number };
  const sign = new Map([
    ["uniform", 0],
    ["moreAtGap", 1],
    ["lessAtGap", -1],
  ]).get(shape);
  if (sign === undefined) throw new Error(`a pressure of shape ${shape} has no field on this page`);
  const material = spec.material as { youngsModulus?: unknown };
  const [wave = { order: START.order, amplitude: 0 }] = waves;
  const own = number(spec.bore, "bore");
  return {
    bore: own,
    wall: number(spec.section?.radialThickness, "section.radialThickness"),
    height: number(spec.section?.axialHeight, "section.axialHeight"),
    gap: number(spec.closedGap, "closedGap"),
    modulus: number(material?.youngsModulus, "material.youngsModulus") / 1000,
    pressure: number((spec.load as { contactPressure?: unknown })?.contactPressure, "load.contactPressure"),
    strength: sign * number(strength, "pressure.strength"),
    larger: number(bore.diameter ?? own, "bore.diameter") - own,
    order: number(wave.order, "harmonics.order"),
    lobes: number(wave.amplitude, "harmonics.amplitude"),
    turned: number(bore.rotation ?? 0, "rotation") / DEGREE,
  };
}

/** Refuses what this page has no field for: without it the ring would be another one. */
function only(given: unknown, what: string, fields: string): void {
  if (typeof given !== "object" || given === null) throw new Error(`${what} is missing`);
  const other = Object.keys(given).find((key) => !fields.split(" ").includes(key));
  if (other !== undefined) throw new Error(`${what} with ${other} has no field on this page`);
}
