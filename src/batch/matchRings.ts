import { munkres } from "munkres";
import { readBore } from "../contact/bore.js";
import type { BoreInput } from "../contact/boreSchema.js";
import { closeInBore } from "../contact/closeInBore.js";
import type { GivenRing } from "../contact/givenRing.js";
import { NoContact } from "../contact/noContact.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { type MatchOptions, matchSchema } from "./matchSchema.js";

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
 * the least sum of costs, by the Hungarian method (J. Munkres, J. SIAM 5 (1957) 32–38; from memory). A ring whose free gap is no wider than its
 * closed gap has no force to tell: it is never put anywhere, and the means that stand for what is wanted leave it out.
 *
 * Method: docs/theory/12-batches.md.
 *
 * @param rings from `ringFromScan`, or any other rings
 * @param bores as `closeInBore` takes them, with their diameters as measured
 * @param options what is wanted of gap, mm, force, N, and light-tight share, 0 to 1
 * @throws SpecError for options that cannot be, a bore that no such ring is for, or what is no ring
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
  const given = parse(matchSchema, options, "options");
  const forces = rings.map(forceOf);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const wantedForce = given.tangentialForce ?? mean(forces.filter((force) => force !== undefined));
  const wanted = {
    closedGap:
      given.closedGap ??
      mean(rings.flatMap(({ spec }, ring) => (forces[ring] === undefined ? [] : [spec.closedGap]))),
    tangentialForce: wantedForce,
    forceTolerance: given.forceTolerance ?? wantedForce / 10,
  };
  const pairs = rings.map((own, ring) =>
    bores.map((input, bore): Match | undefined => {
      const tangentialForce = forces[ring];
      if (tangentialForce === undefined) {
        // A wrong bore is refused whatever the ring is.
        inBore(bore, () => readBore(input, own.spec.bore));
        return undefined;
      }
      const closure = inBore(bore, () => closeInBore(own, input));
      if (!closure) return undefined;
      if (closure.endsTouch || closure.closedGap < given.leastGap) return undefined;
      if (closure.contactShare < given.leastContactShare) return undefined;
      const { closedGap, contactShare } = closure;
      const cost =
        ((closedGap - wanted.closedGap) / given.gapTolerance) ** 2 +
        ((tangentialForce - wanted.tangentialForce) / wanted.forceTolerance) ** 2;
      return { ring, bore, closedGap, contactShare, tangentialForce, cost };
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

/** What a tape shows of a ring, N; nothing of one that is closed without a pull. */
function forceOf(ring: GivenRing, index: number): number | undefined {
  if (typeof ring !== "object" || ring === null || !ring.spec || !ring.free) {
    throw new SpecError(
      `rings.${index}`,
      ring,
      "must be a ring, from ringFromScan or designRing for instance",
    );
  }
  try {
    const { force } = tapeTest(ring);
    return force > 0 ? force : undefined;
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    // The closed gap is a gap, and the free one is narrower.
    if (error.field === "gap" && ring.spec.closedGap >= 0) return undefined;
    throw new SpecError(`rings.${index}.${error.field}`, error.value, error.allowed);
  }
}

/** What is asked of a bore, its errors with its place; nothing where the ring is too long to enter, or too small to press. */
function inBore<T>(index: number, ask: () => T): T | undefined {
  try {
    return ask();
  } catch (error) {
    if (error instanceof NoContact) return undefined;
    if (!(error instanceof SpecError)) throw error;
    throw new SpecError(error.field.replace(/^bore/, `bores.${index}`), error.value, error.allowed);
  }
}
