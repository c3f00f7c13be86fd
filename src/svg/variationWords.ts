import type { OutcomeVariation, Variation } from "../batch/summary.js";
import type { SobolIndex } from "../numeric/sobolIndices.js";

/** What a batch is told in, drawn or printed. */

/** An outcome in words, with the field's letter for it and the library's unit where it has one. */
export interface OutcomeWords {
  readonly words: string;
  readonly symbol?: string;
  readonly unit?: string;
}

/** The outcomes, in the order in which they are told. */
export const OUTCOME_WORDS: { readonly [key in keyof Variation["outcomes"]]: OutcomeWords } = {
  tangentialForce: { words: "tangential force", symbol: "Ft", unit: "N" },
  freeGap: { words: "free gap", symbol: "m", unit: "mm" },
  closedGap: { words: "gap in the bore", unit: "mm" },
  lowestPressure: { words: "lowest pressure off the ends", unit: "MPa" },
  highestPressure: { words: "highest pressure off the ends", unit: "MPa" },
  contactShare: { words: "light-tight share" },
  closingStress: { words: "closing stress", unit: "MPa" },
};

/** Shares below this are not told; nor any where one of them is in such doubt. */
const SMALLEST = 0.01;
const MOST_DOUBT = 0.3;

/** Factors that an outcome owes something to, the largest share first; none where too few samples leave a share in doubt. */
export function shownFactors({ sensitivity }: OutcomeVariation): [name: string, index: SobolIndex][] {
  const shown = Object.entries(sensitivity).filter(([, { total }]) => total > SMALLEST);
  if (shown.some(([, { totalError }]) => totalError > MOST_DOUBT)) return [];
  return shown.sort(([, one], [, other]) => other.total - one.total);
}
