import { type AngleTable, tableCurve } from "../numeric/angleTable.js";
import { gaussPanel, panels } from "../numeric/gauss.js";
import type { Curve } from "../numeric/shapePreserving.js";
import { balancingHarmonic, type FirstHarmonic } from "./series.js";

/** A pressure through samples, relative to its mean p₀, and the first harmonic that balances it. */
export interface SampledPressure {
  /** The shape-preserving curve through the samples, not yet divided by `mean`. */
  readonly curve: Curve;
  /** Mean of the curve over the loaded arc. */
  readonly mean: number;
  readonly balance: FirstHarmonic;
}

/** Widest panel, radians: five-point Gauss integrates a cubic times a sine over it to rounding. */
const WIDEST_PANEL = 0.2;

/**
 * Mean and balance of sampled values, by Gauss quadrature from sample to sample, which is exact for the curve used.
 *
 * @param table samples; any unit, since only their ratio to the mean counts
 * @param loadLimit θL, radians
 */
export function sampledPressure(table: AngleTable, loadLimit: number): SampledPressure {
  const curve = tableCurve(table);
  let [total, cosine, sine] = [0, 0, 0];
  const bounds = panels(-loadLimit, loadLimit, curve.knots, WIDEST_PANEL);
  for (let k = 1; k < bounds.length; k++) {
    gaussPanel(bounds[k - 1], bounds[k], (alpha, weight) => {
      const p = weight * curve.at(alpha);
      total += p;
      cosine += p * Math.cos(alpha);
      sine += p * Math.sin(alpha);
    });
  }
  const mean = total / (2 * loadLimit);
  const odd = table.angle[0] < 0 ? sine / mean : 0;
  return { curve, mean, balance: balancingHarmonic(cosine / mean, odd, loadLimit) };
}
