import { type AngleTable, isHalfTable, tableCurve } from "../numeric/angleTable.js";
import { addCubicTrig, eachPanel } from "../numeric/cubicTrig.js";
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

/**
 * Mean and balance of sampled values, integrated exactly from sample to sample.
 *
 * @param table samples; any unit, since only their ratio to the mean counts
 * @param loadLimit θL, radians
 */
export function sampledPressure(table: AngleTable, loadLimit: number): SampledPressure {
  const curve = tableCurve(table);
  const half = isHalfTable(table);
  const total = { plain: 0, cosine: 0, sine: 0 };
  eachPanel(half ? 0 : -loadLimit, loadLimit, curve.knots, (from, to) => {
    const middle = (from + to) / 2;
    addCubicTrig(curve.around(middle), middle, to - from, total);
  });
  const sides = half ? 2 : 1;
  const mean = (sides * total.plain) / (2 * loadLimit);
  const balance = balancingHarmonic((sides * total.cosine) / mean, half ? 0 : total.sine / mean, loadLimit);
  return { curve, mean, balance };
}
