import type { GivenRing } from "../contact/givenRing.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { BEYOND, growthAt, ROOM, softeningAt } from "../spec/materialAt.js";
import type { Material } from "../spec/materials.js";
import { TEMPERATURE } from "../spec/schema.js";
import { type HeatInput, heatSchema } from "./fitSchema.js";
import { growthOf } from "./growth.js";

/** Sizes hot over sizes at 20 °C. */
export interface Growth {
  /** Of the ring. */
  readonly ring: number;
  /** Of the bore. */
  readonly bore: number;
}

/**
 * Gap between the ends of a ring that is warmer than it was measured, in a bore that is, too: chord at mid wall, mm; negative where the ends
 * would overlap.
 *
 * The line keeps its length but for its own growth, and lies half a grown wall inside the grown bore.
 */
export function hotGap(
  { outerRadius: R, centroidRadius: r, centroidLimit }: Geometry,
  growth: Growth,
): number {
  const wall = 2 * (R - r);
  const radius = R * growth.bore - (wall / 2) * growth.ring;
  const open = 2 * Math.PI - (2 * centroidLimit * r * growth.ring) / radius;
  return 2 * radius * Math.sin(open / 2);
}

/** A ring at work, warm. mm, N, °C. */
export interface HotRing {
  /** By which ring and bore have grown. */
  readonly growth: Growth;
  /** Gap between the ends; negative where they would overlap. */
  readonly closedGap: number;
  /** Whether the ends meet or overlap. */
  readonly butts: boolean;
  /** Pull of a tape that closes the warm ring to that gap, N; none where the ends butt. */
  readonly tangentialForce?: number;
  /** That force over the one at 20 °C. */
  readonly forceShare?: number;
  /** Temperature of the ring at which its ends meet, °C, the bore as warm as given; absent if that is beyond the material's data. */
  readonly buttingTemperature?: number;
  /** Smallest cold gap that keeps the wanted hot gap if the difference of expansions is `factor` times that computed. */
  readonly smallestColdGap: number;
  /** In words; empty where all is well. */
  readonly warnings: string[];
}

/**
 * The ring at its working temperature: gap, force, and the temperature at which its ends butt.
 *
 * Ring and bore each have one temperature; a ring hotter inside than outside also bends, which is left out, as are creep and lost spring. The
 * warm ring is the cold one in a bore smaller by the ratio of growths, as stiff as its modulus then is.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`; its material must have its expansion
 * @param input temperatures (°C), the bore's material, hot gap to keep (mm, default 0) and factor (default 1.2; common practice, no source)
 * @throws SpecError when a value is out of range or a material has no expansion
 * @throws NotFound when no equilibrium in the tape is found
 *
 * @example
 * const ring = designRing({ ...spec, material: "EN-GJS-500-7" });
 * hotRing(ring, { ring: { temperature: 180 }, bore: { material: "EN-GJL-250", temperature: 120 } }).closedGap; // 0.1432, mm
 */
export function hotRing(
  ring: GivenRing & {
    /** Its tables, besides. */
    free: {
      /** Along the unloaded line from the left end, mm; computed where it is not given. */
      arcLength?: number[];
    };
  },
  input: HeatInput,
): HotRing {
  const { ring: own, bore, keepGap, factor } = parse(heatSchema, input);
  const { spec } = ring;
  const geometry = closedGeometry(spec.bore, spec.section.radialThickness, spec.closedGap);
  const growth = {
    ring: growthAt(spec.material, own.temperature, "ring", "material"),
    bore: growthOf(bore, "bore"),
  };
  const closedGap = hotGap(geometry, growth);
  const butts = !(closedGap > 0);
  const butting = buttingTemperature(spec.material, geometry, growth.bore);
  const smallestColdGap = Math.max(0, keepGap + factor * (spec.closedGap - closedGap));
  const warnings: string[] = [];
  if (butts) {
    warnings.push(
      `the ends butt: they would overlap by ${(-closedGap).toFixed(3)} mm at ${own.temperature} °C; ends that butt score the bore and break lands`,
    );
  } else if (closedGap < keepGap) {
    warnings.push(`the hot gap of ${closedGap.toFixed(3)} mm is less than the ${keepGap} mm to be kept`);
  }
  if (spec.closedGap < smallestColdGap) {
    warnings.push(
      `the cold gap of ${spec.closedGap} mm is less than ${smallestColdGap.toFixed(3)} mm, which the factor of ${factor} asks for`,
    );
  }
  return {
    growth,
    closedGap,
    butts,
    ...(!butts && hotForce(ring, closedGap, growth.ring, own.temperature)),
    ...(butting !== undefined && { buttingTemperature: butting }),
    smallestColdGap,
    warnings,
  };
}

function hotForce(
  ring: GivenRing & { free: { arcLength?: number[] } },
  gap: number,
  growth: number,
  temperature: number,
) {
  const softening = softeningAt(ring.spec.material, temperature, "ring");
  // Lengths over the growth make it the cold ring; forces go with their square.
  const cold = tapeTest(ring, { gap: gap / growth }).force;
  const tangentialForce = cold * softening * growth * growth;
  return { tangentialForce, forceShare: tangentialForce / tapeTest(ring).force };
}

/** Found to this, K. */
const WITHIN = 1e-6;

function buttingTemperature(material: Material, geometry: Geometry, bore: number): number | undefined {
  const table = material.expansion?.temperature;
  if (!table) return undefined;
  const gapAt = (temperature: number) =>
    hotGap(geometry, { ring: growthAt(material, temperature, "ring", "material"), bore });
  let [low, high] = [TEMPERATURE.min, table[table.length - 1] + BEYOND];
  if (gapAt(high) > 0) return undefined;
  while (high - low > WITHIN) {
    const middle = (low + high) / 2;
    if (gapAt(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}

/** A starting value of the trade for the cold gap, as a share of the bore. */
export interface GapRule {
  /** How hard the engine works, in words. */
  readonly duty: string;
  /** Closed gap, cold, over the bore. */
  readonly gapPerBore: number;
}

/** Common practice, no source; from memory. They are for first values only: the engine maker's come before them. */
export const GAP_RULES: readonly GapRule[] = [
  { duty: "water-cooled, moderate load", gapPerBore: 0.0035 },
  { duty: "air-cooled or high load", gapPerBore: 0.0045 },
  { duty: "supercharged or racing", gapPerBore: 0.006 },
];

/** What a measuring room off 20 °C does to what is read. mm. */
export interface RoomError {
  /** Of the bore's diameter. */
  readonly bore: number;
  /** Of the ring's wall. */
  readonly wall: number;
  /** Of the closed gap, in a gauge of the bore's material. */
  readonly closedGap: number;
}

/** No measuring room is further off 20 °C. */
const MOST_OFF = 30;

/**
 * What a measuring room that is not at 20 °C does to what is read there, by the linear expansions of ring and gauge; worked.
 *
 * @param ring a design, or `ringOfCurvature(…)`; its material must have its expansion
 * @param gauge material of bore and gauge; it must have its expansion, too
 * @param off degrees above 20 °C, −30 to 30
 * @returns readings less those at 20 °C, mm
 * @throws SpecError when that is out of range or a material has no expansion
 *
 * @example
 * const ring = designRing({ ...spec, material: "EN-GJS-500-7" });
 * roomError(ring, MATERIALS["EN-GJL-250"], 5).bore; // 0.006903, mm
 */
export function roomError(ring: GivenRing, gauge: Material, off: number): RoomError {
  const { bore, section, closedGap, material } = ring.spec;
  if (!(Math.abs(off) <= MOST_OFF))
    throw new SpecError("off", off, `must be a number from -${MOST_OFF} to ${MOST_OFF} K`);
  const growth = {
    ring: growthAt(material, ROOM + off, "ring", "material"),
    bore: growthAt(gauge, ROOM + off, "gauge"),
  };
  return {
    bore: bore * (growth.bore - 1),
    wall: section.radialThickness * (growth.ring - 1),
    closedGap: hotGap(closedGeometry(bore, section.radialThickness, closedGap), growth) - closedGap,
  };
}
