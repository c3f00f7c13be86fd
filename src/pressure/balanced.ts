import { isHalfTable } from "../numeric/angleTable.js";
import type { PressureSpec } from "../spec/ringSpec.js";
import { gapBump } from "./families.js";
import { type SampledPressure, sampledPressure } from "./sampled.js";
import { balancedSeries, type FirstHarmonic, type PressureSeries, seriesAt } from "./series.js";

/** A pressure that balances itself on the ring: the wanted one and a first harmonic. */
export interface BalancedPressure {
  /** p/p₀ at an angle from the back, |θ| ≤ θL. */
  at(theta: number): number;
  /** The first harmonic added to the wanted pressure. */
  readonly balance: FirstHarmonic;
  /** Whether the halves are alike. */
  readonly symmetric: boolean;
  /** How it is given: with all its harmonics, or as a curve. */
  readonly form: PressureSeries | SampledPressure;
}

/**
 * Balances the wanted pressure.
 *
 * @param wanted as ordered; amplitudes are relative to p₀, samples to their own mean, which is p₀
 * @param loadLimit θL, the angle from the back at which the outer face ends, radians, π/2 < θL ≤ π
 */
export function balancedPressure(wanted: PressureSpec, loadLimit: number): BalancedPressure {
  if (wanted.shape === "sampled") {
    const form = sampledPressure(wanted, loadLimit);
    const { curve, mean, balance } = form;
    return {
      at: (theta) =>
        curve.at(theta) / mean + balance.cosine * Math.cos(theta) + balance.sine * Math.sin(theta),
      balance,
      symmetric: isHalfTable(wanted),
      form,
    };
  }
  const form = balancedSeries(wantedSeries(wanted), loadLimit);
  return {
    at: (theta) => seriesAt(form, theta),
    balance: { cosine: form.cosine[1], sine: form.sine[1] ?? 0 },
    symmetric: form.sine.every((value) => value === 0),
    form,
  };
}

function wantedSeries(wanted: Exclude<PressureSpec, { shape: "sampled" }>): PressureSeries {
  switch (wanted.shape) {
    case "uniform":
      return { cosine: [1], sine: [] };
    case "moreAtGap":
      return { cosine: gapBump(wanted.strength), sine: [] };
    case "lessAtGap":
      return { cosine: gapBump(-wanted.strength), sine: [] };
    case "harmonics":
      return { cosine: [1, 0, ...wanted.cosine], sine: wanted.sine ? [0, 0, ...wanted.sine] : [] };
  }
}
