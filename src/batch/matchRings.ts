import { munkres } from "munkres";
import type { BoreInput } from "../contact/boreSchema.js";
import { type Closure, closeInBore } from "../contact/closeInBore.js";
import type { GivenRing } from "../contact/givenRing.js";
import { NoContact } from "../contact/noContact.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { SpecError } from "../spec/error.js";

/** What is wanted of rings in bores. */
export interface MatchOptions {
  /** Wanted gap in the bore, mm; by default the mean of the rings' closed gaps. */
  closedGap?: number;
  /** Deviation of the gap that weighs as much as one of the force by `forceTolerance`, mm. Default 0.05. */
  gapTolerance?: number;
  /** Wanted tangential force, N; by default the rings' mean. */
  tangentialForce?: number;
  /** Deviation of the force that weighs as much as one of the gap by `gapTolerance`, N; by default a tenth of the wanted force. */
  forceTolerance?: number;
  /** Least gap in the bore, mm; a ring that has less is never put there. Default 0. */
  leastGap?: number;
  /** Least light-tight share in the bore, 0 to 1; a ring that has less is never put there. Default 0: any. */
  leastContactShare?: number;
}

/** A ring in a bore. */
export interface Match {
  /** Index of the ring, as given, from 0. */
  readonly ring: number;
  /** Index of the bore, as given, from 0. */
  readonly bore: number;
  /** Gap as it comes out there, mm. */
  readonly closedGap: number;
  /** Light-tight share of the circumference there, 0 to 1. */
  readonly contactShare: number;
  /** In the tape, N. */
  readonly tangentialForce: number;
  /** ((gap − wanted)/gapTolerance)² + ((force − wanted)/forceTolerance)². */
  readonly cost: number;
}

/** Which ring goes into which bore. */
export interface Matching {
  /** One a bore, in the bores' order; fewer where no ring is left that may stand there. */
  readonly matches: Match[];
  /** Indices of the rings left over. */
  readonly spareRings: number[];
  /** Indices of the bores left without a ring. */
  readonly emptyBores: number[];
  /** Sum of all costs. */
  readonly cost: number;
}

/** What a pair costs that must not be: more than any others together. */
const FORBIDDEN = 1e9;

/**
 * Puts measured rings into the bores of one engine, so that gaps and forces come out as near to the wanted ones as they can: the assignment of
 * the least sum of costs, by the Hungarian method (J. Munkres, J. SIAM 5 (1957) 32–38; from memory).
 *
 * Method: docs/theory/12-batches.md.
 *
 * @param rings from `ringFromScan`, or any other rings
 * @param bores as `closeInBore` takes them, with their diameters as measured
 * @param options what is wanted
 * @throws SpecError for options that cannot be, or a bore that no such ring is for
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const rings = [design, designRing({ ...spec, closedGap: 0.5 })];
 * matchRings(rings, [{ diameter: 118.01 }, { diameter: 117.99 }]).matches.map(({ ring }) => ring); // [0, 1]
 */
export function matchRings(
  rings: readonly GivenRing[],
  bores: readonly BoreInput[],
  options: MatchOptions = {},
): Matching {
  for (const [name, list] of [
    ["rings", rings],
    ["bores", bores],
  ] as const) {
    if (!Array.isArray(list) || list.length === 0)
      throw new SpecError(name, list, "must be a list with at least one");
  }
  if (typeof options !== "object" || options === null || Array.isArray(options)) {
    throw new SpecError("options", options, "must be an object");
  }
  const forces = rings.map(forceOf);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const wantedForce = options.tangentialForce ?? mean(forces);
  const wanted = {
    closedGap: options.closedGap ?? mean(rings.map(({ spec }) => spec.closedGap)),
    gapTolerance: options.gapTolerance ?? 0.05,
    tangentialForce: wantedForce,
    forceTolerance: options.forceTolerance ?? wantedForce / 10,
    leastGap: options.leastGap ?? 0,
    leastContactShare: options.leastContactShare ?? 0,
  };
  checkOptions(options, wanted);
  const pairs = rings.map((given, ring) =>
    bores.map((input, bore): Match | undefined => {
      const closure = entering(given, input, bore);
      if (!closure || closure.endsTouch || closure.closedGap < wanted.leastGap) return undefined;
      if (closure.contactShare < wanted.leastContactShare) return undefined;
      const { closedGap, contactShare } = closure;
      const cost =
        ((closedGap - wanted.closedGap) / wanted.gapTolerance) ** 2 +
        ((forces[ring] - wanted.tangentialForce) / wanted.forceTolerance) ** 2;
      return { ring, bore, closedGap, contactShare, tangentialForce: forces[ring], cost };
    }),
  );
  const most = Math.max(1, ...pairs.flat().map((pair) => pair?.cost ?? 0));
  const matches = munkres(pairs.map((row) => row.map((pair) => (pair ? pair.cost / most : FORBIDDEN))))
    .flatMap(([ring, bore]) => pairs[ring][bore] ?? [])
    .sort((one, other) => one.bore - other.bore);
  const left = (count: number, taken: readonly number[]) =>
    Array.from({ length: count }, (_, i) => i).filter((i) => !taken.includes(i));
  return {
    matches,
    spareRings: left(
      rings.length,
      matches.map(({ ring }) => ring),
    ),
    emptyBores: left(
      bores.length,
      matches.map(({ bore }) => bore),
    ),
    cost: matches.reduce((sum, { cost }) => sum + cost, 0),
  };
}

function checkOptions(options: MatchOptions, wanted: Required<MatchOptions>): void {
  const positive = (value: number) => value > 0;
  const allowed: Record<keyof MatchOptions, readonly [words: string, isGood: (value: number) => boolean]> = {
    closedGap: ["a number from 0 mm", (value) => value >= 0],
    gapTolerance: ["a number above 0 mm", positive],
    tangentialForce: ["a number above 0 N", positive],
    forceTolerance: ["a number above 0 N", positive],
    leastGap: ["a number from 0 mm", (value) => value >= 0],
    leastContactShare: ["a number from 0 to 1", (value) => value >= 0 && value <= 1],
  };
  for (const key of Object.keys(options)) {
    if (!Object.hasOwn(allowed, key))
      throw new SpecError(
        key,
        options[key as keyof MatchOptions],
        `is not a known option (known here: ${Object.keys(allowed).join(", ")})`,
      );
  }
  for (const [key, [words, isGood]] of Object.entries(allowed)) {
    const value = wanted[key as keyof MatchOptions];
    if (!(Number.isFinite(value) && isGood(value))) throw new SpecError(key, value, `must be ${words}`);
  }
}

/** What a tape shows of a ring, N. */
function forceOf(ring: GivenRing, index: number): number {
  if (typeof ring !== "object" || ring === null || !ring.spec || !ring.free) {
    throw new SpecError(
      `rings.${index}`,
      ring,
      "must be a ring, from ringFromScan or designRing for instance",
    );
  }
  try {
    return tapeTest(ring).force;
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    throw new SpecError(`rings.${index}.${error.field}`, error.value, error.allowed);
  }
}

/** The ring in the bore; none where it is too long to enter or too small to press. */
function entering(ring: GivenRing, bore: BoreInput, index: number): Closure | undefined {
  try {
    return closeInBore(ring, bore);
  } catch (error) {
    if (error instanceof NoContact) return undefined;
    if (!(error instanceof SpecError)) throw error;
    throw new SpecError(error.field.replace(/^bore/, `bores.${index}`), error.value, error.allowed);
  }
}
