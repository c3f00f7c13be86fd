import { checkDiameter } from "../contact/bore.js";
import type { GivenRing } from "../contact/givenRing.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { parse } from "../spec/issues.js";
import { BEYOND, growthAt, softeningAt } from "../spec/materialAt.js";
import type { Material } from "../spec/materials.js";
import { TEMPERATURE } from "../spec/schema.js";
import { type Heat, type HeatInput, heatSchema } from "./fitSchema.js";
import { growthOf } from "./growth.js";
import { type Growth, hotGap } from "./hotGap.js";

/** A ring at work, warm, in the smallest bore given. mm, N, °C. */
export interface HotRing {
  /** By which ring and bore have grown by their temperatures; the bore's diameter does not count. */
  readonly growth: Growth;
  /** Gap between the ends; negative where they would overlap. */
  readonly closedGap: number;
  /** Whether the ends meet or overlap. */
  readonly butts: boolean;
  /** Pull of a tape that closes the warm ring to that gap, N; 0 where the bore is wider than the free ring, none where the ends butt. */
  readonly tangentialForce?: number;
  /** That force over the one at 20 °C in the bore that the ring is made for. */
  readonly forceShare?: number;
  /**
   * Temperature of the ring at which its ends meet, °C, the bore as small and as warm as given; −100 where they already do there, absent if it is
   * beyond the material's data.
   */
  readonly buttingTemperature?: number;
  /**
   * Smallest cold gap, in the bore that the ring is made for, that keeps the wanted hot gap in the smallest bore if the difference of expansions is
   * `factor` times that computed.
   */
  readonly smallestColdGap: number;
  /** In words; empty where all is well. */
  readonly warnings: string[];
}

/**
 * The ring at its working temperature: gap, force, and the temperature at which its ends butt.
 *
 * Ring and bore each have one temperature; a ring hotter inside than outside also bends, which is left out, as are creep and lost spring. The
 * warm ring is the cold one in a bore smaller by the ratio of growths, as stiff as its modulus then is. Where `bore.diameter` has limits, all is
 * told for the smallest bore, in which the gap is least and the force most.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`; its material must have its expansion
 * @param input temperatures (°C), the bore's material and its diameter at 20 °C (one or [smallest, largest], mm, up to 10 % off the ring's; by
 * default the ring's), hot gap to keep (mm, default 0) and factor (default 1.2; common practice, no source)
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
  return warmRing(ring, parse(heatSchema, input, "heat"));
}

type WarmedRing = Parameters<typeof hotRing>[0];

/**
 * The same, of what has been read.
 *
 * @param prefix before the names of its fields in messages
 * @param materialField where the ring's material stands
 */
export function warmRing(ring: WarmedRing, heat: Heat, prefix = "", materialField = "material"): HotRing {
  const { ring: own, bore, keepGap, factor } = heat;
  const { spec } = ring;
  const geometry = closedGeometry(spec.bore, spec.section.radialThickness, spec.closedGap);
  const growth = {
    ring: growthAt(spec.material, own.temperature, `${prefix}ring`, materialField),
    bore: growthOf(bore, `${prefix}bore`),
  };
  /** Of the smallest bore over the ring's own. */
  const size = (bore.diameter?.[0] ?? spec.bore) / spec.bore;
  for (const limit of bore.diameter ?? []) checkDiameter(limit, spec.bore, `${prefix}bore.diameter`);
  const hotBore = growth.bore * size;
  const cold = hotGap(geometry, { ring: 1, bore: size });
  const closedGap = hotGap(geometry, { ring: growth.ring, bore: hotBore });
  const butts = !(closedGap > 0);
  const butting = buttingTemperature(spec.material, geometry, hotBore);
  // What the smaller bore takes is known; what the heat takes may be more than computed.
  const smallestColdGap = Math.max(0, keepGap + (spec.closedGap - cold) + factor * (cold - closedGap));
  const force = butts ? undefined : hotForce(ring, closedGap, growth.ring, own.temperature, `${prefix}ring`);
  const where = bore.diameter ? ` in a bore of ${bore.diameter[0]} mm` : "";
  const warnings: string[] = [];
  if (butts) {
    warnings.push(
      `the ends butt: they would overlap by ${(-closedGap).toFixed(3)} mm at ${own.temperature} °C${where}; ends that butt score the bore and break lands`,
    );
  } else if (closedGap < keepGap) {
    warnings.push(
      `the hot gap of ${closedGap.toFixed(3)} mm${where} is less than the ${keepGap} mm to be kept`,
    );
  }
  if (spec.closedGap < smallestColdGap) {
    warnings.push(
      `the cold gap of ${spec.closedGap} mm is less than ${smallestColdGap.toFixed(3)} mm, which the factor of ${factor} asks for${where}`,
    );
  }
  if (force?.tangentialForce === 0) {
    warnings.push(`the ring is loose${where}: free, it is no wider than the warm bore`);
  }
  return {
    growth,
    closedGap,
    butts,
    ...force,
    ...(butting !== undefined && { buttingTemperature: butting }),
    smallestColdGap,
    warnings,
  };
}

function hotForce(ring: WarmedRing, gap: number, growth: number, temperature: number, field: string) {
  const softening = softeningAt(ring.spec.material, temperature, field);
  const atRoom = tapeTest(ring);
  // No tape holds a ring open further than it stands by itself.
  if (gap / growth >= atRoom.freeGap) return { tangentialForce: 0, forceShare: 0 };
  // Lengths over the growth make it the cold ring; forces go with their square. A tape knows no bore but by the gap.
  const cold = tapeTest(ring, { gap: gap / growth }).force;
  const tangentialForce = cold * softening * growth * growth;
  return { tangentialForce, forceShare: tangentialForce / atRoom.force };
}

/** Found to this, K. */
const WITHIN = 1e-6;

/** @param bore size of the bore when warm over that which the ring is made for */
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
