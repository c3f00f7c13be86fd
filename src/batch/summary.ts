import { type Distribution, distributionOf } from "../numeric/distribution.js";
import { type SobolIndex, sobolIndices } from "../numeric/sobolIndices.js";
import { SpecError } from "../spec/error.js";
import { type VariantOutcome, variantsOf } from "./variants.js";
import { INDEPENDENT, type VariationPlan } from "./variationPlan.js";
import { OUTCOMES, type Outcome } from "./variationSchema.js";

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
