import * as v from "valibot";
import { type DesignOptions, designRing } from "../design/designRing.js";
import { SpecError } from "../spec/error.js";
import { wholeNumber } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { readBodySpec } from "../spec/readSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type SpreadBy, spreadRing, spreadSchema } from "./spreadRing.js";

/** Stress closed and stress spread over the free gap of a section: the wider the ring is made, the less it need be spread. mm, MPa. */
export interface StressTradeOff {
  /** As asked for. */
  readonly diameter: number;
  /** As asked for. */
  readonly by: SpreadBy;
  /** Free gaps looked at, rising. */
  readonly freeGap: number[];
  /** Largest stress closed, for each of them. */
  readonly closing: number[];
  /** Largest stress spread, for each of them. */
  readonly fitting: number[];
  /** Where both are alike, if they are within the range; there the larger of both is least. */
  readonly balanced?: {
    /** Free gap there. */
    readonly freeGap: number;
    /** Either stress there. */
    readonly stress: number;
  };
}

/** What a trade-off is looked for. */
export interface TradeOffOptions extends DesignOptions {
  /** Diameter to pass, mm or with a unit, to 15 % over the bore. */
  diameter: number | string;
  /** How the ring is spread. Default "hand". */
  by?: SpreadBy;
  /** Free gaps looked at, 3 to 1000. Default 25. */
  count?: number;
  /** Widest free gap over the bore, above 0 to 1. Default 0.25. */
  widest?: number;
}

const widestWords = "must be above 0 and at most 1";
const flag = v.optional(v.boolean("must be true or false"), false);

const optionsSchema = () => {
  const { diameter, by } = spreadSchema().entries;
  return v.strictObject({
    diameter,
    by,
    count: v.optional(wholeNumber(3, 1000, "free gaps looked at"), 25),
    widest: v.optional(
      v.pipe(
        v.number(widestWords),
        v.check((share) => share > 0 && share <= 1, widestWords),
      ),
      0.25,
    ),
    proof: flag,
    allowNegativePressure: flag,
  });
};

/**
 * How closing and fitting stress trade against each other for one section as its free gap is chosen.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param spec of the ring; its load is put aside
 * @param options diameter to pass, how it is spread, how many free gaps
 * @throws SpecError when an option is out of range or the spec is wrong
 * @throws NotFound when no equilibrium of the spread ring is found
 *
 * @example
 * stressTradeOff(spec, { diameter: 117.4, count: 5 }).balanced?.freeGap; // 16.74, mm
 */
export function stressTradeOff(spec: RingSpecInput, options: TradeOffOptions): StressTradeOff {
  const { diameter, by, count, widest, ...design } = parse(optionsSchema, options, "options");
  const { load: _load, pressure: _pressure, ...body } = spec;
  const { bore, closedGap } = readBodySpec(body);
  const freeGap: number[] = [];
  const closing: number[] = [];
  const fitting: number[] = [];
  for (let k = 1; k <= count; k++) {
    const gap = closedGap + (widest * bore * k) / count;
    const ring = gapped(spec, gap, design);
    if (!ring) break;
    freeGap.push(gap);
    closing.push(ring.stress.closing.max);
    fitting.push(spreadRing(ring, { diameter, by }).stress.max);
  }
  const balanced = crossingOf(freeGap, closing, fitting);
  return { diameter, by, freeGap, closing, fitting, ...(balanced && { balanced }) };
}

/** A ring of that free gap; none beyond the widest that can be. */
function gapped(spec: RingSpecInput, freeGap: number, options: DesignOptions) {
  try {
    return designRing({ ...spec, load: { freeGap } }, options);
  } catch (error) {
    if (error instanceof SpecError && error.field === "load.freeGap") return undefined;
    throw error;
  }
}

/** Where the rising closing stress meets the falling fitting stress, straight between the gaps looked at. */
function crossingOf(freeGap: number[], closing: number[], fitting: number[]) {
  for (let k = 1; k < freeGap.length; k++) {
    const [before, after] = [fitting[k - 1] - closing[k - 1], fitting[k] - closing[k]];
    if (!(before > 0 && after <= 0)) continue;
    const share = before / (before - after);
    const at = (values: number[]) => values[k - 1] + share * (values[k] - values[k - 1]);
    return { freeGap: at(freeGap), stress: at(closing) };
  }
  return undefined;
}
