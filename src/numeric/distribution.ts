/** How values are spread, in their own unit. */
export interface Distribution {
  /** Arithmetic mean. */
  readonly mean: number;
  /** Of the sample, over one less than the count; 0 for a single value. */
  readonly standardDeviation: number;
  /** Smallest value. */
  readonly least: number;
  /** Largest value. */
  readonly most: number;
  /** Values that so many stay below, straight between neighbours. */
  readonly percentiles: {
    /** 0.1, 1, 5, 25, 50, 75, 95, 99 and 99.9. */
    readonly percent: number;
    /** That so many per cent stay below. */
    readonly value: number;
  }[];
  /** How many values lie in each of 40 equal steps from the least to the most. */
  readonly histogram: number[];
}

export const PERCENTS = [0.1, 1, 5, 25, 50, 75, 95, 99, 99.9] as const;
const BINS = 40;

/** @param values at least one */
export function distributionOf(values: readonly number[]): Distribution {
  const sorted = Float64Array.from(values).sort();
  const count = sorted.length;
  const [least, most] = [sorted[0], sorted[count - 1]];
  const mean = sorted.reduce((sum, value) => sum + (value - least), 0) / count + least;
  const square = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const histogram = new Array<number>(BINS).fill(0);
  for (const value of sorted) {
    histogram[most > least ? Math.min(BINS - 1, Math.floor((BINS * (value - least)) / (most - least))) : 0]++;
  }
  return {
    mean,
    standardDeviation: count > 1 ? Math.sqrt(square / (count - 1)) : 0,
    least,
    most,
    percentiles: PERCENTS.map((percent) => ({ percent, value: quantile(sorted, percent / 100) })),
    histogram,
  };
}

/** The value below which a share of the sorted values lies, straight between neighbours. */
function quantile(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const low = Math.floor(place);
  const next = sorted[Math.min(low + 1, sorted.length - 1)];
  return sorted[low] + (place - low) * (next - sorted[low]);
}
