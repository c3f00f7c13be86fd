import * as v from "valibot";
import { describeSection, type SectionDescription } from "../assess/describeSection.js";
import type { RingDesign } from "../design/ringDesign.js";
import { optionalFields, quantity } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { heatSchema, pistonSchema } from "./fitSchema.js";
import { type GrooveFit, grooveFit } from "./grooveFit.js";
import { growthOf } from "./growth.js";
import { type HotRing, hotRing } from "./hotRing.js";
import { hasAlikeHalves, type Spread, type SpreadBy, spreadRing } from "./spreadRing.js";

const tolerance = (what: string) => v.optional(quantity("length", { min: 0, max: 10 }, what), 0);

const engineSchema = () =>
  optionalFields(
    v.strictObject({
      piston: v.optional(pistonSchema()),
      heat: v.optional(heatSchema()),
      tolerance: v.optional(
        optionalFields(
          v.strictObject({
            wall: tolerance("of the ring's wall, either way"),
            height: tolerance("of its height, either way"),
          }),
        ),
        {},
      ),
    }),
  );

export type EngineInput = v.InferInput<ReturnType<typeof engineSchema>>;

/** A ring among its neighbours. */
export interface EngineFit {
  readonly section: SectionDescription;
  /** Spread over the piston, or its bore where no piston is given, in the ways its halves allow. */
  readonly spread: readonly Spread[];
  readonly groove?: { readonly cold: GrooveFit; readonly hot?: GrooveFit };
  readonly hot?: HotRing;
}

/**
 * Everything about how a designed ring goes into its engine: its section, spreading it over the piston, its groove cold and hot, gap and force hot.
 *
 * @param ring a designed ring
 * @param input piston and groove, temperatures, tolerances of the ring; each may be left out
 * @throws SpecError when a value is out of range, or the ring binds, bottoms or stands proud
 */
export function engineFit(ring: RingDesign, input: EngineInput = {}): EngineFit {
  const { piston, heat, tolerance: own } = parse(engineSchema, input);
  const diameter = piston ? piston.diameter[1] : ring.spec.bore;
  const ways: SpreadBy[] = hasAlikeHalves(ring) ? ["hand", "pliers", "plates"] : ["hand", "pliers"];
  const bore = heat?.bore.diameter;
  const cold = { tolerance: own, ...(bore && { bore }) };
  const groove = input.piston && {
    cold: grooveFit(ring.spec, { ...input.piston, temperature: 20 }, cold),
    ...(heat && {
      hot: grooveFit(ring.spec, input.piston, {
        ...cold,
        ringTemperature: heat.ring.temperature,
        boreGrowth: growthOf(heat.bore, "heat.bore"),
      }),
    }),
  };
  return {
    section: describeSection(ring),
    spread: ways.map((by) => spreadRing(ring, { diameter, by })),
    ...(groove && { groove }),
    ...(input.heat && { hot: hotRing(ring, input.heat) }),
  };
}
