import type { GivenRing } from "../contact/givenRing.js";
import { lightTest } from "../gauge/lightTest.js";
import { normalQuantile } from "../numeric/normalQuantile.js";
import { sobolPoint } from "../numeric/sobolSequence.js";

/** What the light test would say of the rings that points leave possible. */
export interface LightChance {
  /** How many rings were drawn. */
  readonly draws: number;
  /** Share of them that let no light past at all. */
  readonly passes: number;
  /** Least light-tight share among them, 0 to 1. */
  readonly least: number;
  /** Largest light-tight share among them. */
  readonly most: number;
}

const SEED = 1;

/**
 * @param draws how many
 * @param sensitivity narrowest slit that shows light, mm
 * @param normals how many standard normal numbers a ring takes
 * @param ringOf the ring of some
 */
export function lightChance(
  draws: number,
  sensitivity: number,
  normals: number,
  ringOf: (normals: readonly number[]) => GivenRing,
): LightChance {
  let [passes, least, most] = [0, 1, 0];
  for (let k = 0; k < draws; k++) {
    const { closure, passes: isTight } = lightTest(ringOf(sobolPoint(k, normals, SEED).map(normalQuantile)), {
      sensitivity,
    });
    if (isTight) passes++;
    least = Math.min(least, closure.contactShare);
    most = Math.max(most, closure.contactShare);
  }
  return { draws, passes: passes / draws, least, most };
}
