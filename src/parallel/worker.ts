import type { VariantOutcome } from "../batch/variants.js";
import { type VariationPlan, variationRows } from "../batch/variationPlan.js";
import { SpecError } from "../spec/error.js";

/** What a thread is told to compute. */
export interface Task {
  readonly plan: VariationPlan;
  readonly from: number;
  readonly to: number;
}

/** An error as data: one of a class of its own would come out of the thread as a plain `Error`. */
export interface Refusal {
  readonly field: string;
  readonly value: unknown;
  readonly allowed: string;
}

export default function work({ plan, from, to }: Task): VariantOutcome[][] | Refusal {
  try {
    return variationRows(plan, from, to);
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    const { field, value, allowed } = error;
    return { field, value, allowed };
  }
}
