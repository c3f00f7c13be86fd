import { SpecError } from "../spec/error.js";
import { summary, type Variation } from "./summary.js";
import { INDEPENDENT, planAgain } from "./variationPlan.js";
import { OUTCOMES } from "./variationSchema.js";
import type { VariationSlice } from "./variationSlice.js";

/**
 * Joins the slices of one study.
 *
 * @param slices from `variationSlice`, in any order; together all samples, each once
 * @throws SpecError for slices of different studies, missing or doubled ones; the field names the slice by its place, from 0
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
  const sorted = slices.map((slice, k) => ({ ...slice, k })).sort((one, other) => one.from - other.from);
  const [{ plan }] = sorted;
  const study = JSON.stringify(plan);
  let next = 0;
  for (const { k, plan: own, from, rows } of sorted) {
    if (JSON.stringify(own) !== study)
      throw new SpecError(`slices.${k}.plan`, own, "must be of one study with the others: plans differ");
    if (from < next)
      throw new SpecError(
        `slices.${k}.from`,
        from,
        `must hold no sample twice; doubled from sample ${from} on`,
      );
    if (from > next)
      throw new SpecError("slices", from, `must hold each sample once; missing from sample ${next} on`);
    next += rows.length;
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
