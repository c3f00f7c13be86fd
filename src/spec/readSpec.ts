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

/** The thinnest ratio of bore to wall: the curved-bar law's series is checked up to a/r = 2/3. */
const SMALLEST_BORE_TO_WALL = 4;
/** A gap of half the bore still leaves every pressure of a balanced uniform ring positive. */
const LARGEST_GAP_TO_BORE = 0.5;

/**
 * Checks a spec and brings it to the library's units, with defaults filled in.
 *
 * @param input the spec as written: numbers in mm, N, MPa or strings with a unit
 * @returns a new, normalised spec; the input is not changed
 * @throws SpecError naming field, value and what is allowed
 */
export function readSpec(input: RingSpecInput): RingSpec {
  const result = v.safeParse(specSchema, input, { abortEarly: true });
  if (!result.success) throw toSpecError(result.issues[0]);
  const { bore, closedGap, section, material, load, pressure, theory, stations } = result.output;
  const { radialThickness, axialHeight } = section;
  const widestWall = bore / SMALLEST_BORE_TO_WALL;
  if (!(radialThickness <= widestWall)) {
    throw new SpecError(
      "section.radialThickness",
      radialThickness,
      `must be at most bore/4 = ${widestWall} mm`,
    );
  }
  if (!(axialHeight <= bore)) {
    throw new SpecError("section.axialHeight", axialHeight, `must be at most the bore, ${bore} mm`);
  }
  const widestGap = bore * LARGEST_GAP_TO_BORE;
  if (!(closedGap <= widestGap)) {
    throw new SpecError("closedGap", closedGap, `must be at most half the bore, ${widestGap} mm`);
  }
  return {
    bore,
    closedGap,
    section: { shape: section.shape, radialThickness, axialHeight },
    material:
      typeof material === "string"
        ? ({ name: material, ...MATERIALS[material] } as Material)
        : readMaterial(material),
    load: readLoad(load, closedGap),
    pressure: { shape: pressure.shape },
    theory,
    stations,
  };
}

function readMaterial({
  youngsModulus,
  poissonRatio,
  stressLimit,
}: Exclude<SpecOutput["material"], string>): Material {
  return stressLimit === undefined
    ? { youngsModulus, poissonRatio }
    : { youngsModulus, poissonRatio, stressLimit };
}

const ONE_LOAD = "must hold exactly one of tangentialForce, contactPressure, freeGap";

function readLoad(load: SpecOutput["load"], closedGap: number): Load {
  const { tangentialForce, contactPressure, freeGap } = load;
  const given = [tangentialForce, contactPressure, freeGap].filter((value) => value !== undefined);
  if (given.length !== 1) throw new SpecError("load", load, ONE_LOAD);
  if (tangentialForce !== undefined) return { tangentialForce };
  if (contactPressure !== undefined) return { contactPressure };
  if (!((freeGap as number) > closedGap)) {
    throw new SpecError("load.freeGap", freeGap, `must be wider than closedGap, ${closedGap} mm`);
  }
  return { freeGap: freeGap as number };
}

function toSpecError(issue: v.BaseIssue<unknown>): SpecError {
  const path = (issue.path ?? []).map((item) => String(item.key));
  const field = path.join(".") || "spec";
  if (issue.type !== "strict_object") return new SpecError(field, issue.input, issue.message);
  if (issue.expected === "never") {
    const known = knownFields(path.slice(0, -1));
    const name = path.at(-1) as string;
    const [nearest] = [...known].sort((a, b) => distance(name, a) - distance(name, b));
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
