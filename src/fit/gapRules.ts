/** A starting value of the trade for the cold gap, as a share of the bore. */
export interface GapRule {
  /** How hard the engine works, in words. */
  readonly duty: string;
  /** Closed gap, cold, over the bore. */
  readonly gapPerBore: number;
}

/** Common practice, no source; from memory. They are for first values only: the engine maker's come before them. */
export const GAP_RULES: readonly GapRule[] = [
  { duty: "water-cooled, moderate load", gapPerBore: 0.0035 },
  { duty: "air-cooled or high load", gapPerBore: 0.0045 },
  { duty: "supercharged or racing", gapPerBore: 0.006 },
];
