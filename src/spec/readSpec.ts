import { distance } from "fastest-levenshtein";
import * as v from "valibot";
import { SpecError } from "./error.js";
import { MATERIALS, type Material } from "./materials.js";
import { type RingSpecInput, type SpecOutput, specSchema } from "./schema.js";

/** Exactly one of the three ways to say how strong the ring is. Units: N, MPa, mm. */
export type Load = { tangentialForce: number } | { contactPressure: number } | { freeGap: number };

/** A checked spec: every length in mm, force in N, pressure and modulus in MPa. */
export interface RingSpec {
  readonly bore: number;
  readonly closedGap: number;
  readonly section: {
    readonly shape: "rectangle";
    readonly radialThickness: number;
    readonly axialHeight: number;
  };
  readonly material: Material;
  readonly load: Load;
  readonly pressure: { readonly shape: "uniform" };
  readonly theory: "thin" | "curved";
  readonly stations: number;
}

/** Bore over wall or height: below, foil for which a bar theory means nothing and numbers start to underflow. */
const THINNEST = 1000;
/** Bore over wall: the curved-bar law's series is checked up to a/r = 2/3. */
const THICKEST = 4;
/** Closed gap over bore: half the bore still leaves every pressure of a balanced uniform ring positive. */
const WIDEST_GAP = 0.5;

/**
 * Checks a spec and brings it to the library's units, with defaults filled in.
 *
 * @param input the spec as written: numbers in mm, N, MPa or strings with a unit
 * @returns a new, normalised spec; the input is not changed
 * @throws SpecError naming field, value and what is allowed
 */
export function readSpec(input: RingSpecInput): RingSpec {
  const result = v.safeParse(specSchema, input);
  if (!result.success) throw toSpecError(result.issues.find(isUnknownField) ?? result.issues[0]);
  const { bore, closedGap, section, material, load, pressure, theory, stations } = result.output;
  const { radialThickness, axialHeight } = section;
  const limit = (field: string, value: number, given: unknown, low: number, high: number, why: string) => {
    if (!(value >= low && value <= high)) {
      throw new SpecError(field, given, `must be from ${low} to ${high} mm for this ring: ${why}`);
    }
  };
  limit(
    "section.radialThickness",
    radialThickness,
    input.section.radialThickness,
    bore / THINNEST,
    bore / THICKEST,
    `bore/${THINNEST} to bore/${THICKEST}`,
  );
  limit(
    "section.axialHeight",
    axialHeight,
    input.section.axialHeight,
    bore / THINNEST,
    bore,
    `bore/${THINNEST} to the bore`,
  );
  limit("closedGap", closedGap, input.closedGap, 0, bore * WIDEST_GAP, "at most half the bore");
  return {
    bore,
    closedGap,
    section: { shape: section.shape, radialThickness, axialHeight },
    material: readMaterial(material),
    load: readLoad(load, input.load, closedGap),
    pressure: { shape: pressure.shape },
    theory,
    stations,
  };
}

function readMaterial(material: SpecOutput["material"]): Material {
  if (typeof material === "string") return { name: material, ...MATERIALS[material] };
  const { name, youngsModulus, poissonRatio, stressLimit } = material;
  return {
    ...(name !== undefined && { name }),
    youngsModulus,
    poissonRatio,
    ...(stressLimit !== undefined && { stressLimit }),
  };
}

const ONE_LOAD = "must hold exactly one of tangentialForce, contactPressure, freeGap";

function readLoad(load: SpecOutput["load"], given: RingSpecInput["load"], closedGap: number): Load {
  const { tangentialForce, contactPressure, freeGap } = load;
  const count = [tangentialForce, contactPressure, freeGap].filter((value) => value !== undefined).length;
  if (count !== 1) throw new SpecError("load", given, ONE_LOAD);
  if (tangentialForce !== undefined) return { tangentialForce };
  if (contactPressure !== undefined) return { contactPressure };
  if (!((freeGap as number) > closedGap)) {
    throw new SpecError("load.freeGap", given.freeGap, `must be wider than closedGap, ${closedGap} mm`);
  }
  return { freeGap: freeGap as number };
}

/** A misspelt field is also a missing one; the misspelling tells more. */
function isUnknownField(issue: v.BaseIssue<unknown>): boolean {
  return issue.type === "strict_object" && issue.expected === "never";
}

function toSpecError(issue: v.BaseIssue<unknown>): SpecError {
  const path = (issue.path ?? []).map((item) => String(item.key));
  const field = path.join(".") || "spec";
  if (issue.type !== "strict_object") return new SpecError(field, issue.input, issue.message);
  if (isUnknownField(issue)) {
    const known = knownFields(path.slice(0, -1));
    const name = path.at(-1) as string;
    const [nearest] = [...known].sort((a, b) => unlikeness(name, a) - unlikeness(name, b));
    const value = issue.path?.at(-1)?.value;
    return new SpecError(
      field,
      value,
      `is not a known field; the nearest is "${nearest}" (known here: ${known.join(", ")})`,
    );
  }
  if (issue.expected === "Object") return new SpecError(field, issue.input, "must be an object");
  return new SpecError(field, undefined, "must be given");
}

/** Edits between two names; none where one is a part of the other, as in "height" for "axialHeight". */
function unlikeness(name: string, known: string): number {
  const [given, lower] = [name.toLowerCase(), known.toLowerCase()];
  return given.length > 2 && lower.includes(given) ? 0 : distance(given, lower);
}

type SchemaNode = {
  entries?: Record<string, SchemaNode>;
  wrapped?: SchemaNode;
  getter?: (input: unknown) => SchemaNode;
};

/** The known fields of the object at `path`. */
function knownFields(path: string[]): string[] {
  let entries = specSchema.entries as unknown as Record<string, SchemaNode>;
  for (const key of path) {
    let node = entries[key] as SchemaNode;
    node = node.wrapped ?? node.getter?.({}) ?? node;
    entries = node.entries ?? {};
  }
  return Object.keys(entries);
}
