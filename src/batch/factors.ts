import type * as v from "valibot";
import { normalQuantile } from "../numeric/normalQuantile.js";
import { SpecError } from "../spec/error.js";
import type { tolerancesSchema } from "./variationSchema.js";

/** One thing that differs from ring to ring, or from bore to bore. mm, MPa. */
export interface Factor {
  /** As in the tolerances; waves with their order, as `lobes.4`. */
  readonly name: string;
  /** Lower limit deviation from nominal. */
  readonly lower: number;
  /** Upper limit deviation from nominal. */
  readonly upper: number;
  /** Normal with the limits at three standard deviations, and not cut off there; or even between them. */
  readonly distribution: "normal" | "uniform";
  /** Of waves: how many to a turn. */
  readonly order?: number;
  /** Of waves: angle of a crest from the back times the order, radians. */
  readonly phase?: number;
}

type Tolerances = v.InferOutput<ReturnType<typeof tolerancesSchema>>;
type Tolerance = NonNullable<Tolerances["bore"]>;

const SINGLE = ["radialThickness", "axialHeight", "youngsModulus", "freeGap", "closedGap", "bore"] as const;
const WAVES = ["bendRadius", "lobes"] as const;

/**
 * The tolerances as a list, in a fixed order.
 *
 * @param given the tolerances as the user wrote them
 */
export function factorsOf(tolerances: Tolerances, given: unknown = tolerances): Factor[] {
  const factors: Factor[] = [
    ...SINGLE.flatMap((name) => {
      const one = tolerances[name];
      return one === undefined ? [] : [{ name, ...limitsOf(one, `tolerances.${name}`) }];
    }),
    ...WAVES.flatMap((kind) =>
      tolerances[kind].map(({ order, tolerance, phase }, i) => ({
        name: `${kind}.${order}`,
        ...limitsOf(tolerance, `tolerances.${kind}.${i}.tolerance`),
        order,
        phase,
      })),
    ),
  ];
  const twice = factors.find(({ name }, i) => factors.findIndex((other) => other.name === name) !== i);
  if (twice)
    throw new SpecError(fieldOf(twice, factors, "order"), twice.order, "must be given once for each order");
  if (factors.length === 0)
    throw new SpecError("tolerances", given, `must hold at least one of ${[...SINGLE, ...WAVES].join(", ")}`);
  return factors;
}

function limitsOf(tolerance: Tolerance, field: string): Pick<Factor, "lower" | "upper" | "distribution"> {
  if (typeof tolerance === "number")
    return { lower: 0 - tolerance, upper: tolerance, distribution: "normal" };
  if (tolerance.lower > tolerance.upper) {
    throw new SpecError(`${field}.lower`, tolerance.lower, `must not be above upper, ${tolerance.upper}`);
  }
  return tolerance;
}

/** The field of the tolerances that a factor comes from, as `bore` or `lobes`. */
export const kindOf = ({ name }: Factor): string => name.split(".")[0];

/**
 * Where the user wrote a factor: waves stand in lists, and a factor's name has their order, not their place.
 *
 * @param factors all of them, in their order
 * @param part of a wave
 */
export function fieldOf(factor: Factor, factors: readonly Factor[], part: "order" | "tolerance"): string {
  const kind = kindOf(factor);
  if (factor.order === undefined) return `tolerances.${kind}`;
  return `tolerances.${kind}.${factors.filter((one) => kindOf(one) === kind).indexOf(factor)}.${part}`;
}

/** Standard deviations from the middle of a normal factor to its limit. */
export const TO_LIMIT = 3;

/** Deviation of a factor from nominal that a share of the batch stays below. */
export function deviationAt({ lower, upper, distribution }: Factor, share: number): number {
  const middle = (lower + upper) / 2;
  const reach = (upper - lower) / 2;
  return middle + reach * (distribution === "uniform" ? 2 * share - 1 : normalQuantile(share) / TO_LIMIT);
}
