import { SpecError } from "./error.js";
import { parse } from "./issues.js";
import { readMaterial } from "./readMaterial.js";
import { readProfile } from "./readProfile.js";
import { readWall } from "./readWall.js";
import type { BodySpec, Load, PressureSpec, RingSpec } from "./ringSpec.js";
import {
  type BodyOutput,
  type BodySpecInput,
  bodySchema,
  type RingSpecInput,
  type SpecOutput,
  specSchema,
} from "./schema.js";
import { checkTable } from "./tables.js";

/** Bore over wall or height: below, foil for which a bar theory means nothing and numbers start to underflow. */
const THINNEST = 1000;
/** Bore over wall: the curved-bar law's series is checked up to a/r = 2/3. */
const THICKEST = 4;
/** Closed gap over bore: half the bore still leaves every pressure of a balanced uniform ring positive. */
const WIDEST_GAP = 0.5;

/**
 * Checks a spec and brings it to the library's units, with defaults filled in.
 *
 * @param input the spec as written: numbers in mm, N, MPa, rad or strings with a unit
 * @returns a new, normalised spec; the input is not changed
 * @throws SpecError naming field, value and what is allowed
 *
 * @example
 * readSpec({ ...spec, bore: "4 1/2 in" }).bore; // 114.3, mm
 */
export function readSpec(input: RingSpecInput): RingSpec {
  const output = parse(specSchema, input);
  const body = readBody(output, input);
  return {
    ...body,
    load: readLoad(output.load, input.load, body.closedGap),
    pressure: readPressure(output.pressure, input.pressure, body),
  };
}

/** The same for a ring without load and pressure, such as one given by its free curvature. */
export function readBodySpec(input: BodySpecInput): BodySpec {
  return readBody(parse(bodySchema, input), input);
}

function readBody(output: BodyOutput, input: BodySpecInput): BodySpec {
  const { bore, closedGap, section, material, theory, stations } = output;
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
    section: {
      shape: section.shape,
      radialThickness,
      axialHeight,
      ...readProfile(section, input.section),
      ...readWall(section, input.section, {
        bore,
        closedGap,
        thinnest: bore / THINNEST,
        thickest: bore / THICKEST,
      }),
    },
    material: readMaterial(material, "material", input.material),
    theory,
    stations,
  };
}

/** Stations to the shortest wave of a pressure at least, over both halves. */
const STATIONS_A_WAVE = 8;

function readPressure(
  pressure: SpecOutput["pressure"],
  given: RingSpecInput["pressure"],
  { bore, closedGap, stations }: BodySpec,
): PressureSpec {
  if (pressure.shape === "sampled") {
    checkTable("pressure", pressure, Math.PI - Math.asin(closedGap / bore), given);
    return { shape: "sampled", angle: pressure.angle, relative: pressure.relative };
  }
  if (pressure.shape !== "harmonics") return pressure;
  const { cosine, sine } = pressure;
  const order = Math.max(cosine.length, sine?.length ?? 0) + 1;
  const needed = (STATIONS_A_WAVE * order) / 2;
  if (stations < needed) {
    throw new SpecError(
      "stations",
      stations,
      `must be at least ${needed} for a pressure with harmonics up to order ${order}`,
    );
  }
  return { shape: "harmonics", cosine, ...(sine !== undefined && { sine }) };
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
