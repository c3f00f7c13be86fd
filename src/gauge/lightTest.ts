import { type Closure, closeInBore } from "../contact/closeInBore.js";
import type { GivenRing } from "../contact/givenRing.js";
import { SpecError } from "../spec/error.js";

/** How a ring is held against the light. */
export interface LightTestOptions {
  /** Diameter of the round gauge, mm; by default the ring's bore. */
  diameter?: number;
  /** Share of the circumference that must be tight, above 0 to 1. Default 1: any light is scrap. */
  limit?: number;
  /** Narrowest slit that shows light, mm or a string with a unit, above 0 to 1 mm. Default 0.002 (common practice, no source). */
  sensitivity?: number | string;
}

/** What the light test says. */
export interface LightReading {
  /** Whether the tight share is as large as asked for. */
  readonly passes: boolean;
  /** Share asked for. */
  readonly limit: number;
  /** The ring in the gauge: `contactShare` and `lightGaps` are what the eye sees. */
  readonly closure: Closure;
}

/**
 * Holds a ring in a round gauge against the light.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @param options gauge, limit, sensitivity
 * @throws SpecError for a limit or sensitivity out of range, or a gauge that the ring cannot enter
 * @throws NotFound when no contact is found
 *
 * @example
 * lightTest(design).passes; // true
 */
export function lightTest(ring: GivenRing, options: LightTestOptions = {}): LightReading {
  const { diameter, limit = 1, sensitivity } = options;
  if (!(limit > 0 && limit <= 1)) throw new SpecError("limit", limit, "must be above 0 to 1");
  const closure = closeInBore(
    ring,
    diameter === undefined ? {} : { diameter },
    sensitivity === undefined ? {} : { sensitivity },
  );
  return { passes: closure.contactShare >= limit - 1e-12, limit, closure };
}
