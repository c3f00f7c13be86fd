import type { VariantOutcome } from "../batch/variants.js";
import { type VariationPlan, variationRows } from "../batch/variationPlan.js";

/** What a thread is told to compute. */
export interface Task {
  readonly plan: VariationPlan;
  readonly from: number;
  readonly to: number;
}

export default function work({ plan, from, to }: Task): VariantOutcome[][] {
  return variationRows(plan, from, to);
}
