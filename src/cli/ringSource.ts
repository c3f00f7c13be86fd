import { type GivenRing, ringOfCurvature } from "../contact/givenRing.js";
import { designRing } from "../design/designRing.js";
import { SpecError } from "../spec/error.js";
import type { BodySpecInput, RingSpecInput } from "../spec/schema.js";
import { InputError } from "./inputError.js";
import { lengthFlag } from "./lengthFlag.js";
import { readJson, specFrom, withFlags } from "./specSource.js";

/** What a command says of a ring that it was not given. */
const MISSING_RING =
  "RING.json must be given, a spec or a design as printed by camround design --json, or flags such as --wall";

/**
 * A spec or a design as printed from a file, with the flags put into a spec.
 *
 * @param file path of the JSON, comments allowed
 * @param flags of the spec by flag name, as typed
 * @param missing said where there is neither
 * @throws InputError when there is nothing, the file cannot be read, or flags are given beside a design
 */
export function ringSource(
  file: string | undefined,
  flags: Readonly<Record<string, string>>,
  missing = MISSING_RING,
): RingSpecInput {
  if (file === undefined) return specFrom(undefined, flags, { missing });
  const source = readJson(file, "RING.json");
  if (Object.hasOwn(source, "spec"))
    refuseSpecFlags(Object.keys(flags), "a design as printed, which holds its own spec");
  return withFlags(source, flags);
}

/**
 * Refuses flags that would be of no effect, since what is given holds its spec.
 *
 * @param flags their names
 * @param holder what holds the spec, in words
 */
export function refuseSpecFlags(flags: readonly string[], holder: string): void {
  if (flags.length === 0) return;
  const names = flags.map((flag) => `--${flag}`).join(" and ");
  throw new InputError(`${names} ${flags.length > 1 ? "contradict" : "contradicts"} ${holder}`);
}

/**
 * A free ring from what the command was given: round with a given radius; a design as printed, by its curvature; or a spec, to be
 * designed.
 *
 * @param source spec or design, as read
 * @param freeRadius radius at mid wall of a ring that is round when free, as typed
 * @param needs "curvature" where a spec alone would lead in a circle
 */
export function ringFrom(
  source: RingSpecInput,
  freeRadius: string | undefined,
  needs: "curvature" | "ring" = "ring",
): GivenRing {
  const { spec = source, free } = (source ?? {}) as { spec?: RingSpecInput; free?: { curvature?: unknown } };
  if (typeof spec !== "object" || spec === null) throw new SpecError("spec", spec, "must be an object");
  const { load: _load, pressure: _pressure, ...body } = spec;
  if (freeRadius !== undefined) {
    const radius = lengthFlag("--free-radius", freeRadius);
    if (!(radius > 0)) throw new SpecError("--free-radius", freeRadius, "must be above 0 mm");
    return ringOfCurvature(body as BodySpecInput, 1 / radius);
  }
  if (Array.isArray(free?.curvature)) {
    const round = ringOfCurvature(body as BodySpecInput, 0);
    return { ...round, free: { theta: round.free.theta, curvature: free.curvature } };
  }
  if (needs === "ring") return designRing(spec);
  throw new InputError(
    "the free shape must be given: as --free-radius, or in a design as printed by camround design --json",
  );
}
