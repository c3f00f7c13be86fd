import * as v from "valibot";
import { describeSection, type SectionDescription } from "../assess/describeSection.js";
import type { RingDesign } from "../design/ringDesign.js";
import { optionalFields } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { heatSchema, pistonSchema, toleranceSchema } from "./fitSchema.js";
import type { GrooveFit } from "./grooveClearances.js";
import { fitInGroove } from "./grooveFit.js";
import { COLD, growths } from "./growth.js";
import { type HotRing, warmRing } from "./hotRing.js";
import { type Spread, type SpreadBy, spreadRing } from "./spreadRing.js";
import { hasAlikeHalves } from "./spreadWays.js";

export const engineSchema = () =>
  optionalFields(
    v.strictObject({
      piston: v.optional(v.pipe(pistonSchema(), v.description("piston with its groove"))),
      heat: v.optional(v.pipe(heatSchema(), v.description("temperatures at work"))),
      tolerance: v.optional(v.pipe(toleranceSchema(), v.description("of the ring")), {}),
    }),
  );

/** Piston, groove and temperatures round a ring as a user writes them: see docs/reference/inputs.md#engine. */
export type EngineInput = v.InferInput<ReturnType<typeof engineSchema>>;

/** A ring among its neighbours. */
export interface EngineFit {
  /** What the section is like. */
  readonly section: SectionDescription;
  /** Spread over the piston, or its bore where no piston is given, in the ways its halves allow. */
  readonly spread: readonly Spread[];
  /** In its groove, where a piston is given. */
  readonly groove?: {
    /** At 20 °C. */
    readonly cold: GrooveFit;
    /** At the temperatures given. */
    readonly hot?: GrooveFit;
  };
  /** At working temperature in the smallest bore, where temperatures are given. */
  readonly hot?: HotRing;
}

/**
 * Everything about how a designed ring goes into its engine: its section, spreading it over the piston, its groove cold and hot, gap and force hot.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a designed ring
 * @param input piston and groove, temperatures, tolerances of the ring; each may be left out
 * @throws SpecError when a value is out of range, the piston does not go into the bore, or the ring binds, bottoms or stands proud
 * @throws NotFound when an equilibrium is not found
 *
 * @example
 * engineFit(design, { piston: { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } } }).groove?.cold.axialClearance; // [0.05, 0.05], mm
 */
export function engineFit(ring: RingDesign, input: EngineInput = {}): EngineFit {
  const { piston, heat, tolerance } = parse(engineSchema, input, "engine");
  const { spec } = ring;
  const sizes = { tolerance, bore: heat?.bore.diameter };
  const hot = heat && warmRing(ring, heat, "heat.");
  const groove = piston && {
    cold: fitInGroove(spec, piston, { ...sizes, growth: COLD }),
    ...(heat && {
      hot: fitInGroove(spec, piston, { ...sizes, growth: growths(heat, piston, spec.material, "material") }),
    }),
  };
  const diameter = piston ? piston.diameter[1] : spec.bore;
  const ways: SpreadBy[] = hasAlikeHalves(ring) ? ["hand", "pliers", "plates"] : ["hand", "pliers"];
  return {
    section: describeSection(ring),
    spread: ways.map((by) => spreadRing(ring, { diameter, by })),
    ...(groove && { groove }),
    ...(hot && { hot }),
  };
}
