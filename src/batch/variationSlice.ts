import { sobolPoint } from "../numeric/sobolSequence.js";
import { SpecError } from "../spec/error.js";
import { deviationAt } from "./factors.js";
import { type VariantOutcome, variantsOf } from "./variants.js";
import { checkPlan, INDEPENDENT, type VariationPlan } from "./variationPlan.js";

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
 * One shard of a study, for `mergeVariation`; shards of one plan may be computed anywhere.
 *
 * @param plan from `planVariation`, or one read from a file
 * @param shard which part of how many, from 1
 * @throws SpecError for a plan that `planVariation` would not make, or a shard that cannot be
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const plan = planVariation(spec, { freeGap: 0.3 }, { samples: 8 });
 * variationSlice(plan, { index: 2, of: 4 }).from; // 2
 */
export function variationSlice(plan: VariationPlan, shard: Shard): VariationSlice {
  checkPlan(plan);
  const [from, to] = samplesOf(plan, shard);
  return { plan, from, rows: variationRows(plan, from, to) };
}
