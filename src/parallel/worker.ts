import type { VariantOutcome } from "../batch/variants.js";
import type { VariationPlan } from "../batch/variationPlan.js";
import { variationRows } from "../batch/variationSlice.js";
import { type Refusal, refusalOf } from "./refusal.js";

/** What a thread is told to compute. */
export interface Task {
  readonly plan: VariationPlan;
  readonly from: number;
  readonly to: number;
}

export default function work({ plan, from, to }: Task): VariantOutcome[][] | Refusal {
  try {
    return variationRows(plan, from, to);
  } catch (error) {
    const refusal = refusalOf(error);
    if (!refusal) throw error;
    return refusal;
  }
}
