import { SpecError } from "../spec/error.js";
import { readSpec } from "../spec/readSpec.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type Factor, fieldOf, kindOf, TO_LIMIT } from "./factors.js";

/** How far tolerances may reach, so that each ring and bore of the batch can be. */

/** How far from nominal the far ends of a tolerance may lie, as a share of the dimension. */
const FARTHEST = 0.25;
/** Standard deviations from the middle that a far end is taken at; one ring in 1.7 million passes either, by the normal law. */
const FAR = 5;
/** So much farther than its limit is the far end of a normal factor. */
const BEYOND = FAR / TO_LIMIT;

/**
 * @param factors of the batch, in the order in which they were read
 * @throws SpecError for a tolerance that leaves bodies, or bores, for which the theory does not hold
 */
export function checkReach(spec: RingSpec, factors: readonly Factor[]): void {
  const { bore, section, material, closedGap } = spec;
  const sizes: Record<string, number> = {
    radialThickness: section.radialThickness,
    axialHeight: section.axialHeight,
    youngsModulus: material.youngsModulus,
    bore: 0.2 * bore,
    // A gap may close: that is an outcome.
    closedGap: bore,
    freeGap: bore,
    bendRadius: 0.2 * bore,
    lobes: 0.04 * bore,
  };
  const ofSection = factors.filter(({ name }) => name === "radialThickness" || name === "axialHeight");
  if (section.outline && ofSection.length > 0) {
    const [{ name, lower, upper }] = ofSection;
    throw new SpecError(
      `tolerances.${name}`,
      Math.max(-lower, upper),
      "must be left out where the section is an outline",
    );
  }
  const allowedFor = (kind: string) => (FARTHEST * sizes[kind]) / BEYOND;
  for (const factor of factors) {
    const { name, lower, upper } = factor;
    const allowed = allowedFor(kindOf(factor));
    const worst = Math.max(Math.abs(lower), Math.abs(upper));
    if (worst <= allowed) continue;
    throw new SpecError(
      fieldOf(factor, factors, "tolerance"),
      worst,
      `must stay within ${allowed.toPrecision(4)} ${name === "youngsModulus" ? "MPa" : "mm"} of nominal for this ring`,
    );
  }
  const cut = factors.find(({ name }) => name === "closedGap");
  if (cut && closedGap === 0 && cut.lower < 0)
    throw new SpecError("tolerances.closedGap", cut.lower, "must not go below a closed gap of 0");
  // All crests may fall on one place.
  const lobes = factors.filter((factor) => kindOf(factor) === "lobes");
  const highest = lobes.reduce((sum, { lower, upper }) => sum + Math.max(-lower, upper), 0);
  const allowed = allowedFor("lobes");
  if (highest > allowed) {
    throw new SpecError(
      "tolerances.lobes",
      highest,
      `must stay within ${allowed.toPrecision(4)} mm of round together for this ring`,
    );
  }
  checkSections(spec, ofSection);
}

/** Features that a thinner wall or a lower height has no room for. */
function checkSections(spec: RingSpec, ofSection: readonly Factor[]): void {
  const ends = (name: string) => {
    const factor = ofSection.find((one) => one.name === name);
    return factor ? farEnds(factor) : [0];
  };
  for (const thicker of ends("radialThickness")) {
    for (const higher of ends("axialHeight")) {
      const { section } = spec;
      const own = {
        ...section,
        radialThickness: section.radialThickness + thicker,
        axialHeight: section.axialHeight + higher,
      };
      try {
        readSpec({ ...spec, section: own } as RingSpecInput);
      } catch (error) {
        if (!(error instanceof SpecError)) throw error;
        throw new SpecError(
          `tolerances.${ofSection[0].name}`,
          Math.max(-ofSection[0].lower, ofSection[0].upper),
          `must leave sections that can be; at the far end ${error.message}`,
        );
      }
    }
  }
}

/** Least and most deviation that is reckoned with: an even one keeps to its limits. */
function farEnds({ lower, upper, distribution }: Factor): [least: number, most: number] {
  const middle = (lower + upper) / 2;
  const reach = ((upper - lower) / 2) * (distribution === "uniform" ? 1 : BEYOND);
  return [middle - reach, middle + reach];
}
