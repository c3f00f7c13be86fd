import * as v from "valibot";
import { shapePreserving } from "../numeric/shapePreserving.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { checkLength } from "../spec/tables.js";
import { type BoreInput, boreSchema } from "./boreSchema.js";

/** A bore, and how the ring stands in it. */
export interface Bore {
  /** R̄, mm. */
  readonly meanRadius: number;
  /** Radius minus R̄, mm, at an angle from the back of the ring as it stands. */
  deviationAt(angle: number): number;
  /** Largest deviation, mm, without sign. */
  readonly largest: number;
  /** MPa. */
  readonly backPressure: number;
}

/** So that errors name fields as `bore.diameter`. */
const NAMED = () => v.strictObject({ bore: boreSchema() });

/** Deviations up to this share of the radius leave the linear theory of the ring's bending good to its square. */
const LARGEST_DEVIATION = 0.02;
/** Share by which a bore may be larger or smaller than the ring's own. */
const FARTHEST = 0.1;
/** Places at which the largest is looked for. */
const TRIALS = 3600;

/**
 * Checks a bore. Its radius is diameter/2 + Σ amplitude·cos(order·θ − phase) + the samples' curve, θ from the back of the
 * ring as it stands unturned.
 *
 * @param nominal the ring's own bore, mm
 * @throws SpecError naming field, value and what is allowed
 */
export function readBore(input: BoreInput, nominal: number): Bore {
  const {
    diameter = nominal,
    harmonics,
    samples,
    rotation,
    backPressure,
  } = parse(NAMED, { bore: input }).bore;
  const curve = samples && closedCurve(samples.angle, samples.deviation);
  const deviationAt = (angle: number) => {
    const at = angle + rotation;
    let sum = curve ? curve(at) : 0;
    for (const { order, amplitude, phase } of harmonics) sum += amplitude * Math.cos(order * at - phase);
    return sum;
  };
  checkDiameter(diameter, nominal, "bore.diameter", input.diameter);
  const meanRadius = diameter / 2;
  let [largest, place] = [0, 0];
  for (let k = 0; k < TRIALS; k++) {
    const angle = 2 * Math.PI * (k / TRIALS - 0.5);
    const size = Math.abs(deviationAt(angle));
    if (size > largest) [largest, place] = [size, angle + rotation];
  }
  if (!(largest <= LARGEST_DEVIATION * meanRadius)) {
    const bySamples = curve && Math.abs(curve(place)) > largest / 2;
    const at = place - 2 * Math.PI * Math.round(place / (2 * Math.PI));
    throw new SpecError(
      bySamples ? "bore.samples" : "bore.harmonics",
      bySamples ? input.samples : input.harmonics,
      `must keep the radius within ${(LARGEST_DEVIATION * meanRadius).toPrecision(4)} mm of the mean; it is ${largest.toPrecision(4)} mm off at ${at.toFixed(3)} rad`,
    );
  }
  return { meanRadius, deviationAt, largest, backPressure };
}

/**
 * Refuses a bore of another ring: a size that is mistyped.
 *
 * @param nominal the ring's own bore, mm
 * @param given what the message shows
 */
export function checkDiameter(
  diameter: number,
  nominal: number,
  field: string,
  given: unknown = diameter,
): void {
  if (Math.abs(diameter / nominal - 1) <= FARTHEST) return;
  const [low, high] = [1 - FARTHEST, 1 + FARTHEST].map((share) => (share * nominal).toPrecision(6));
  throw new SpecError(field, given, `must be from ${low} to ${high} mm for this ring`);
}

/** The shape-preserving curve through samples round a whole turn, which go on from the last to the first. */
function closedCurve(angle: readonly number[], value: readonly number[]): (at: number) => number {
  checkLength("bore.samples.deviation", value, angle.length);
  const last = angle.length - 1;
  for (let k = 1; k <= last; k++) {
    if (angle[k] > angle[k - 1]) continue;
    throw new SpecError(
      `bore.samples.angle.${k}`,
      angle[k],
      `must be above the angle before it, ${angle[k - 1]}`,
    );
  }
  const turn = 2 * Math.PI;
  if (!(angle[last] - angle[0] < turn)) {
    throw new SpecError(
      `bore.samples.angle.${last}`,
      angle[last],
      "must be less than a whole turn after the first: the curve closes by itself",
    );
  }
  // One sample before and two after: its slopes where it closes are made of no others.
  const around = [-1, ...angle.keys(), last + 1, last + 2];
  const index = (k: number) => (k + angle.length) % angle.length;
  const wound = (k: number) => angle[index(k)] + turn * Math.floor(k / angle.length);
  const curve = shapePreserving(
    around.map(wound),
    around.map((k) => value[index(k)]),
  );
  return (at) => curve.at(at - turn * Math.floor((at - angle[0]) / turn));
}
