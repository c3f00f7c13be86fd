import { type Distribution, distributionOf } from "../numeric/distribution.js";
import { type SobolIndex, sobolIndices } from "../numeric/sobolIndices.js";
import { SpecError } from "../spec/error.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type VariantOutcome, variantsOf } from "./variants.js";
import {
  checkOptions,
  INDEPENDENT,
  planAgain,
  planVariation,
  type VariationPlan,
  type VariationSlice,
  variationRows,
} from "./variationPlan.js";
import { OUTCOMES, type Outcome, type TolerancesInput, type VariationSettings } from "./variationSchema.js";

/** How a study is made: see docs/reference/inputs.md#study for the rest. */
export interface VariationOptions extends VariationSettings {
  /** Called after each sample with how many of all are done. */
  onProgress?: (done: number, all: number) => void;
}

/** How one outcome is spread over the batch. */
export interface OutcomeVariation extends Distribution {
  /** Of the ring and bore without any deviation. */
  readonly nominal: number;
  /** Share of the batch within the limits asked for; all of it if none are. */
  readonly inside: number;
  /** What it owes to each factor, by the name of the factor. */
  readonly sensitivity: Readonly<Record<string, SobolIndex>>;
}

/** A batch. mm, N, MPa. */
export interface Variation {
  /** The study that it comes from. */
  readonly plan: VariationPlan;
  /** Contacts computed. */
  readonly evaluations: number;
  /** Independent variants that the distributions are of, and those among them that have no contact to tell. */
  readonly variants: {
    /** Two for each sample. */
    readonly all: number;
    /** Whose ends would meet, or overlap, in their bore. */
    readonly butts: number;
    /** Whose free shape is no wider than their bore. */
    readonly loose: number;
  };
  /** Samples that the sensitivities are of: those without a variant that butts or is loose. */
  readonly samplesUsed: number;
  /** Share of the batch within all limits; variants that butt or are loose are not. */
  readonly inside: number;
  /** How each outcome is spread: see {@link Outcome}. */
  readonly outcomes: { readonly [key in Outcome]: OutcomeVariation };
}

/**
 * The spread of a batch: how wall, height, modulus, opening, gap, waves of the bend radius, and the bore with its lobes, spread over their tolerances,
 * spread force, pressure, gap, light and stress; and which of them does it.
 *
 * Each sample of a scrambled Sobol' sequence makes two independent variants, and one more for each factor, so the cost is samples·(factors + 2)
 * contacts. A sample depends on seed and number alone: parts may be computed anywhere and joined by `mergeVariation`.
 *
 * Method: docs/theory/12-batches.md.
 *
 * @param spec the ring as drawn
 * @param tolerances limit deviations; see {@link TolerancesInput}. Normal ones have their limits at three standard deviations, and are not cut off
 * there
 * @param options samples, seed, limits on outcomes, sensitivity of the light test
 * @throws SpecError naming field, value and what is allowed
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const limits = { tangentialForce: { min: 17 } };
 * const batch = variation(spec, { radialThickness: 0.02, freeGap: 0.3 }, { samples: 16, limits });
 * batch.outcomes.tangentialForce.sensitivity.radialThickness.total; // 0.292, of its variance
 */
export function variation(
  spec: RingSpecInput,
  tolerances: TolerancesInput,
  options: VariationOptions = {},
): Variation {
  const { onProgress, ...settings } = checkOptions(options);
  const plan = planVariation(spec, tolerances, settings);
  const rows = variationRows(plan, 0, plan.samples, (done) => onProgress?.(done, plan.samples));
  return summary(plan, rows);
}

/**
 * Joins the slices of one study.
 *
 * @param slices in any order; together all samples, each once
 * @throws SpecError for slices of different studies, missing or doubled ones
 * @throws NotFound when the contact of the ring as drawn is not found
 *
 * @example
 * const plan = planVariation(spec, { freeGap: 0.3 }, { samples: 8 });
 * mergeVariation([variationSlice(plan, { index: 1, of: 2 }), variationSlice(plan, { index: 2, of: 2 })]).variants.all; // 16
 */
export function mergeVariation(slices: readonly VariationSlice[]): Variation {
  if (!Array.isArray(slices) || slices.length === 0)
    throw new SpecError("slices", slices, "must be a list of slices");
  slices.forEach(checkSlice);
  const sorted = [...slices].sort((one, other) => one.from - other.from);
  const [{ plan }] = sorted;
  const study = JSON.stringify(plan);
  let next = 0;
  for (const slice of sorted) {
    if (JSON.stringify(slice.plan) !== study)
      throw new SpecError("slices", slice.from, "must be of one study: plans differ");
    if (slice.from !== next) {
      throw new SpecError(
        "slices",
        slice.from,
        `must hold each sample once; ${next < slice.from ? "missing" : "doubled"} from sample ${Math.min(next, slice.from)} on`,
      );
    }
    next += slice.rows.length;
  }
  if (next !== plan.samples) throw new SpecError("slices", next, `must hold all ${plan.samples} samples`);
  return summary(
    plan,
    sorted.flatMap(({ rows }) => rows),
  );
}

/** Whether it is a slice, as far as what is computed from it goes. */
function checkSlice(slice: VariationSlice, k: number): void {
  const wrong = (field: string, value: unknown) =>
    new SpecError(`slices.${k}${field}`, value, "must be as from `variationSlice`, in full and unchanged");
  if (typeof slice !== "object" || slice === null) throw wrong("", slice);
  const { plan, from, rows } = slice;
  if (!(Number.isInteger(from) && from >= 0)) throw wrong(".from", from);
  const again = planAgain(plan);
  if (again === undefined) throw wrong(".plan", plan);
  const isOutcome = (outcome: unknown) =>
    outcome === "butts" ||
    outcome === "loose" ||
    (Array.isArray(outcome) && outcome.length === OUTCOMES.length && outcome.every(Number.isFinite));
  const size = INDEPENDENT + again.factors.length;
  if (!Array.isArray(rows) || rows.length === 0) throw wrong(".rows", rows);
  for (const [i, row] of rows.entries()) {
    if (!(Array.isArray(row) && row.length === size && row.every(isOutcome))) throw wrong(`.rows.${i}`, row);
  }
}

type Told = readonly number[];
const isTold = (outcome: VariantOutcome): outcome is Told => typeof outcome !== "string";

/** What the rows of a whole study say. */
export function summary(plan: VariationPlan, rows: readonly (readonly VariantOutcome[])[]): Variation {
  const { spec, factors, sensitivity, limits, seed } = plan;
  const independent = rows.flatMap((row) => row.slice(0, INDEPENDENT));
  const told = independent.filter(isTold);
  const whole = rows.filter((row): row is Told[] => row.every(isTold));
  const nominal = variantsOf(spec, factors, sensitivity)(factors.map(() => 0));
  if (told.length === 0 || !isTold(nominal)) {
    const why = isTold(nominal)
      ? "every variant butts or is loose"
      : `the ring ${nominal === "butts" ? "butts" : "is loose"} even without any deviation`;
    throw new SpecError("tolerances", undefined, `must leave rings that work; ${why}`);
  }
  const within = (values: Told) =>
    OUTCOMES.map((outcome, k) => {
      const { min = -Infinity, max = Infinity } = limits[outcome] ?? {};
      return values[k] >= min && values[k] <= max;
    });
  const inside = told.map(within);
  const share = (count: number) => count / independent.length;
  const outcomes = OUTCOMES.map((outcome, k): [Outcome, OutcomeVariation] => {
    const column = (which: number) => Float64Array.from(whole, (row) => row[which][k]);
    const indices =
      whole.length > 1
        ? sobolIndices(
            column(0),
            column(1),
            factors.map((_, j) => column(INDEPENDENT + j)),
            seed,
          )
        : [];
    return [
      outcome,
      {
        nominal: nominal[k],
        ...distributionOf(told.map((values) => values[k])),
        inside: share(inside.filter((ones) => ones[k]).length),
        sensitivity: Object.fromEntries(indices.map((index, j) => [factors[j].name, index])),
      },
    ];
  });
  return {
    plan,
    evaluations: rows.length * (INDEPENDENT + factors.length),
    variants: {
      all: independent.length,
      butts: independent.filter((outcome) => outcome === "butts").length,
      loose: independent.filter((outcome) => outcome === "loose").length,
    },
    samplesUsed: whole.length,
    inside: share(inside.filter((ones) => ones.every(Boolean)).length),
    outcomes: Object.fromEntries(outcomes) as Variation["outcomes"],
  };
}
