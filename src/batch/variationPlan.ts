import { designRing } from "../design/designRing.js";
import { MOST_DIMENSIONS, sobolPoint } from "../numeric/sobolSequence.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { deviationAt, type Factor, factorsOf } from "./factors.js";
import { type VariantOutcome, variantsOf } from "./variants.js";
import {
  type Outcome,
  type TolerancesInput,
  tolerancesSchema,
  type VariationSettings,
  variationSchema,
} from "./variationSchema.js";

/** A study, fixed to the last digit: plain data, the same wherever and in however many parts it is computed. */
export interface VariationPlan {
  readonly spec: RingSpec;
  readonly factors: Factor[];
  readonly samples: number;
  readonly seed: number;
  readonly sensitivity: number;
  readonly limits: { readonly [key in Outcome]?: { readonly min?: number; readonly max?: number } };
}

/** Shard `index` of `of`, from 1. */
export interface Shard {
  readonly index: number;
  readonly of: number;
}

/** Part of a study: rows from one sample on. */
export interface VariationSlice {
  readonly plan: VariationPlan;
  readonly from: number;
  /** Of each sample: the outcomes of its two independent variants, then of the first one with each factor taken from the second. */
  readonly rows: VariantOutcome[][];
}

/** Two independent variants a sample. */
export const INDEPENDENT = 2;

/**
 * Checks and fixes a study.
 *
 * @throws SpecError naming field, value and what is allowed
 */
export function planVariation(
  spec: RingSpecInput,
  tolerances: TolerancesInput,
  settings: VariationSettings = {},
): VariationPlan {
  const factors = factorsOf(parse(tolerancesSchema, tolerances));
  const { samples, seed, sensitivity, limits } = parse(variationSchema, settings);
  if (INDEPENDENT * factors.length > MOST_DIMENSIONS) {
    throw new SpecError(
      "tolerances",
      factors.length,
      `must be at most ${MOST_DIMENSIONS / INDEPENDENT} in all`,
    );
  }
  const { spec: drawn } = designRing(spec);
  checkReach(drawn, factors);
  for (const [outcome, { min = -Infinity, max = Infinity } = {}] of Object.entries(limits)) {
    if (min > max) throw new SpecError(`limits.${outcome}.min`, min, `must not be above max, ${max}`);
  }
  return { spec: drawn, factors, samples, seed, sensitivity, limits: limits as VariationPlan["limits"] };
}

/** How far from nominal the far ends of a tolerance may lie, as a share of the dimension. */
const FARTHEST = 0.25;
/** Normal deviations may pass their limits by two thirds again. */
const BEYOND = 5 / 3;

function checkReach({ bore, section, material, closedGap }: RingSpec, factors: readonly Factor[]): void {
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
  if (section.outline && factors.some(({ name }) => name === "radialThickness" || name === "axialHeight")) {
    throw new SpecError(
      "tolerances",
      "radialThickness",
      "must leave wall and height alone where the section is an outline",
    );
  }
  for (const { name, lower, upper } of factors) {
    const allowed = (FARTHEST * sizes[name.split(".")[0]]) / BEYOND;
    const worst = Math.max(Math.abs(lower), Math.abs(upper));
    if (worst <= allowed) continue;
    throw new SpecError(
      `tolerances.${name}`,
      worst,
      `must stay within ${allowed.toPrecision(4)} of nominal for this ring`,
    );
  }
  if (closedGap === 0 && factors.some(({ name, lower }) => name === "closedGap" && lower < 0)) {
    throw new SpecError("tolerances.closedGap", closedGap, "must not go below a closed gap of 0");
  }
}

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
export function samplesOf({ samples }: VariationPlan, { index, of }: Shard): [from: number, to: number] {
  if (!(Number.isInteger(of) && of >= 1 && of <= samples)) {
    throw new SpecError("shard.of", of, `must be a whole number from 1 to the samples, ${samples}`);
  }
  if (!(Number.isInteger(index) && index >= 1 && index <= of)) {
    throw new SpecError("shard.index", index, `must be a whole number from 1 to ${of}`);
  }
  return [Math.floor((samples * (index - 1)) / of), Math.floor((samples * index) / of)];
}

/** One shard of a study, for `mergeVariation`. */
export function variationSlice(plan: VariationPlan, shard: Shard): VariationSlice {
  const [from, to] = samplesOf(plan, shard);
  return { plan, from, rows: variationRows(plan, from, to) };
}
