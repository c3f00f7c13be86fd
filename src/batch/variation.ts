import type { RingSpecInput } from "../spec/schema.js";
import { summary, type Variation } from "./summary.js";
import { checkOptions, planVariation } from "./variationPlan.js";
import type { TolerancesInput, VariationSettings } from "./variationSchema.js";
import { variationRows } from "./variationSlice.js";

/** How a study is made: see docs/reference/inputs.md#study for the rest. */
export interface VariationOptions extends VariationSettings {
  /** Called after each sample with how many of all are done. */
  onProgress?: (done: number, all: number) => void;
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
