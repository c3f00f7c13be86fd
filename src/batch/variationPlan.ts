import { designRing } from "../design/designRing.js";
import { MOST_DIMENSIONS } from "../numeric/sobolSequence.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type Factor, factorsOf, kindOf } from "./factors.js";
import { checkReach } from "./variationReach.js";
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
    for (const factor of factors) {
      const { name, order, phase, ...limitsOf } = factor;
      const kind = kindOf(factor);
      if (order === undefined) tolerances[name] = limitsOf;
      else
        tolerances[kind] = [
          ...((tolerances[kind] as unknown[]) ?? []),
          { order, phase, tolerance: limitsOf },
        ];
    }
    const again = planVariation(spec, tolerances as TolerancesInput, { ...settings, limits });
    const [one, other] = [again, plan].map((each) => JSON.parse(JSON.stringify(each)));
    return alike(one, other) ? again : undefined;
  } catch (error) {
    if (error instanceof SpecError || error instanceof TypeError) return undefined;
    throw error;
  }
}

/** Of a number that is read again: the turns of slots, for one, go through a sum. */
const ROUNDING = 1e-12;

/** Whether two pieces of plain data are the same but for rounding. */
function alike(one: unknown, other: unknown): boolean {
  if (typeof one === "number" && typeof other === "number")
    return Math.abs(one - other) <= ROUNDING * Math.abs(one);
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null)
    return one === other;
  const [entries, others] = [Object.entries(one), other as Record<string, unknown>];
  return (
    Array.isArray(one) === Array.isArray(other) &&
    entries.length === Object.keys(others).length &&
    entries.every(([key, value]) => Object.hasOwn(others, key) && alike(value, others[key]))
  );
}

/**
 * Whether it is a plan: it may have come from a file.
 *
 * @throws SpecError for one that `planVariation` would not make
 */
export function checkPlan(plan: VariationPlan): void {
  if (planAgain(plan) === undefined)
    throw new SpecError("plan", plan, "must be as from `planVariation`, in full and unchanged");
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
