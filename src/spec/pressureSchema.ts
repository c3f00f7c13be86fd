import * as v from "valibot";
import { anglesAndValues, byShape, list, plainNumber } from "./fields.js";

/** Amplitudes relative to p0; the bound catches per cent. */
const AMPLITUDE = { min: -10, max: 10 };
const amplitudes = (what: string) =>
  list(plainNumber(AMPLITUDE.min, AMPLITUDE.max, "relative amplitude"), AMPLITUDE, 0, 400, what);

const strength = (max: number) => plainNumber(0, max, "how much more or less than p0 at the gap, over p0");

export const pressureSchema = byShape({
  uniform: v.strictObject({ shape: v.literal("uniform") }),
  moreAtGap: v.strictObject({ shape: v.literal("moreAtGap"), strength: strength(10) }),
  lessAtGap: v.strictObject({ shape: v.literal("lessAtGap"), strength: strength(1) }),
  harmonics: v.strictObject({
    shape: v.literal("harmonics"),
    cosine: amplitudes("c2, c3, …: p = p0·(1 + Σ ci·cos iθ + si·sin iθ), θ from the back"),
    sine: v.optional(amplitudes("s2, s3, …; only for a ring whose halves differ")),
  }),
  sampled: v.strictObject({
    shape: v.literal("sampled"),
    ...anglesAndValues("pressure, in any unit; p0 is its mean"),
  }),
});
