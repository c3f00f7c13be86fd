import { designRing } from "../design/designRing.js";
import { MOST_DIMENSIONS, sobolPoint } from "../numeric/sobolSequence.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { readSpec } from "../spec/readSpec.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { deviationAt, type Factor, factorsOf } from "./factors.js";
import { type VariantOutcome, variantsOf } from "./variants.js";
import {
  namedTolerances,
  type Outcome,
  type TolerancesInput,
  type VariationSettings,
  variationSchema,
} from "./variationSchema.js";

/** A study, fixed to the last digit: plain data, the same wherever and in however many parts it is computed. */
export interface VariationPlan {
  /** The ring as drawn, checked. */
  readonly spec: RingSpec;
  /** What differs, in the order of the columns of the samples. */
  readonly factors: Factor[];
  /** Pairs of independent variants, 8 to 1 000 000. */
  readonly samples: number;
  /** Of the sequence, 0 to 2³¹ − 1. */
  readonly seed: number;
  /** Narrowest slit that shows light, mm, above 0 to 1. */
  readonly sensitivity: number;
  /** What is asked of each outcome, in its own unit; nothing where it is left out. */
  readonly limits: {
    readonly [key in Outcome]?: {
      /** Least that is good. */
      readonly min?: number;
      /** Most that is good. */
      readonly max?: number;
    };
  };
}

/** Shard `index` of `of`, from 1. */
export interface Shard {
  /** Which one, from 1 to `of`. */
  readonly index: number;
  /** How many there are, from 1 to the samples. */
  readonly of: number;
}

/** Part of a study: rows from one sample on. */
export interface VariationSlice {
  /** The study that it is a part of. */
  readonly plan: VariationPlan;
  /** First sample, from 0. */
  readonly from: number;
  /** Of each sample: the outcomes of its two independent variants, then of the first one with each factor taken from the second. */
  readonly rows: VariantOutcome[][];
}

/** Two independent variants a sample. */
export const INDEPENDENT = 2;

/**
 * Checks and fixes a study, so that it can be computed in parts: the spec is checked and designed, the tolerances become factors.
 *
 * @param spec the ring as drawn
 * @param tolerances limit deviations; at most 32 factors, waves counted singly
 * @param settings samples, seed, limits on outcomes, sensitivity of the light test
 * @throws SpecError naming field, value and what is allowed
 *
 * @example
 * planVariation(spec, { freeGap: 0.3, bore: "20 um" }).factors.map(({ name }) => name); // ["freeGap", "bore"]
 */
export function planVariation(
  spec: RingSpecInput,
  tolerances: TolerancesInput,
  settings: VariationSettings = {},
): VariationPlan {
  const factors = factorsOf(parse(namedTolerances, { tolerances }).tolerances, tolerances);
  const { samples, seed, sensitivity, limits } = parse(variationSchema, checkOptions(settings));
  if (INDEPENDENT * factors.length > MOST_DIMENSIONS) {
    throw new SpecError(
      "tolerances",
      factors.length,
      `must hold at most ${MOST_DIMENSIONS / INDEPENDENT} factors, waves counted singly`,
    );
  }
  const { spec: drawn } = designRing(spec);
  checkReach(drawn, factors);
  for (const [outcome, { min = -Infinity, max = Infinity } = {}] of Object.entries(limits)) {
    if (min > max) throw new SpecError(`limits.${outcome}.min`, min, `must not be above max, ${max}`);
  }
  return { spec: drawn, factors, samples, seed, sensitivity, limits: limits as VariationPlan["limits"] };
}

/** A plan that may have come from a file, made again from what it holds; none if that is not the same plan. */
export function planAgain(plan: VariationPlan): VariationPlan | undefined {
  try {
    const { spec, factors, limits, ...settings } = plan;
    const tolerances: Record<string, unknown> = {};
    for (const { name, order, phase, ...limitsOf } of factors) {
      const [kind] = name.split(".");
      if (order === undefined) tolerances[name] = limitsOf;
      else
        tolerances[kind] = [
          ...((tolerances[kind] as unknown[]) ?? []),
          { order, phase, tolerance: limitsOf },
        ];
    }
    const again = planVariation(spec, tolerances as TolerancesInput, { ...settings, limits });
    return JSON.stringify(again) === JSON.stringify(plan) ? again : undefined;
  } catch (error) {
    if (error instanceof SpecError || error instanceof TypeError) return undefined;
    throw error;
  }
}

/** Options as an object, what is in it unseen. */
export function checkOptions<Options extends object>(options: Options): Options {
  if (typeof options !== "object" || options === null || Array.isArray(options))
    throw new SpecError("options", options, "must be an object");
  const { onProgress } = options as { onProgress?: unknown };
  if (onProgress !== undefined && typeof onProgress !== "function")
    throw new SpecError("onProgress", onProgress, "must be a function");
  return options;
}

/** How far from nominal the far ends of a tolerance may lie, as a share of the dimension. */
const FARTHEST = 0.25;
/** Normal deviations may pass their limits by two thirds again. */
const BEYOND = 5 / 3;

function checkReach(spec: RingSpec, factors: readonly Factor[]): void {
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
  for (const { name, lower, upper } of factors) {
    const allowed = (FARTHEST * sizes[name.split(".")[0]]) / BEYOND;
    const worst = Math.max(Math.abs(lower), Math.abs(upper));
    if (worst <= allowed) continue;
    throw new SpecError(
      `tolerances.${name}`,
      worst,
      `must stay within ${allowed.toPrecision(4)} ${name === "youngsModulus" ? "MPa" : "mm"} of nominal for this ring`,
    );
  }
  const cut = factors.find(({ name }) => name === "closedGap");
  if (cut && closedGap === 0 && cut.lower < 0)
    throw new SpecError("tolerances.closedGap", cut.lower, "must not go below a closed gap of 0");
  // All crests may fall on one place.
  const lobes = factors.filter(({ name }) => name.startsWith("lobes"));
  const highest = lobes.reduce((sum, { lower, upper }) => sum + Math.max(-lower, upper), 0);
  const allowed = (FARTHEST * 0.04 * bore) / BEYOND;
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
    return factor ? [deviationAt(factor, UNLIKELY), deviationAt(factor, 1 - UNLIKELY)] : [0];
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
/** Share of the batch beyond the far ends: five standard deviations, two thirds more than the limits. */
const UNLIKELY = 3e-7;

/**
 * Computes rows of a study.
 *
 * @param from first sample
 * @param to sample after the last
 * @param onProgress called after each, with how many are done
 */
export function variationRows(
  { spec, factors, seed, sensitivity }: VariationPlan,
  from: number,
  to: number,
  onProgress?: (done: number) => void,
): VariantOutcome[][] {
  const outcomeOf = variantsOf(spec, factors, sensitivity);
  return Array.from({ length: to - from }, (_, k) => {
    const point = sobolPoint(from + k, INDEPENDENT * factors.length, seed);
    const [a, b] = [0, 1].map((which) =>
      factors.map((factor, j) => deviationAt(factor, point[which * factors.length + j])),
    );
    const mixed = factors.map((_, j) => a.map((value, i) => (i === j ? b[i] : value)));
    const row = [a, b, ...mixed].map(outcomeOf);
    onProgress?.(k + 1);
    return row;
  });
}

/** First sample and the one after the last of a shard; all shards together are all samples. */
export function samplesOf({ samples }: VariationPlan, shard: Shard): [from: number, to: number] {
  if (typeof shard !== "object" || shard === null) throw new SpecError("shard", shard, "must be an object");
  const { index, of } = shard;
  if (!(Number.isInteger(of) && of >= 1 && of <= samples)) {
    throw new SpecError("shard.of", of, `must be a whole number from 1 to the samples, ${samples}`);
  }
  if (!(Number.isInteger(index) && index >= 1 && index <= of)) {
    throw new SpecError("shard.index", index, `must be a whole number from 1 to ${of}`);
  }
  return [Math.floor((samples * (index - 1)) / of), Math.floor((samples * index) / of)];
}

/**
 * One shard of a study, for {@link mergeVariation}; shards of one plan may be computed anywhere.
 *
 * @param plan from {@link planVariation}
 * @param shard which part of how many
 * @throws SpecError for a shard that cannot be
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const plan = planVariation(spec, { freeGap: 0.3 }, { samples: 8 });
 * variationSlice(plan, { index: 2, of: 4 }).from; // 2
 */
export function variationSlice(plan: VariationPlan, shard: Shard): VariationSlice {
  const [from, to] = samplesOf(plan, shard);
  return { plan, from, rows: variationRows(plan, from, to) };
}
