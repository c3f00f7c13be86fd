import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import {
  mergeVariation,
  planVariation,
  SpecError,
  type VariationSlice,
  variation,
  variationSlice,
} from "../src/index.js";
import { sliceInParallel, variationInParallel } from "../src/parallel.js";
import { frozen, type Loose } from "./refusals.js";
import { type Case, expectRefused, thrown } from "./refused.js";
import { DEMO_RINGS, runs } from "./rings.js";

/** Wrong options, threads, shards and slices of a study are refused by name. */

const FERRY: Loose = { ...DEMO_RINGS["ferry 118 mm"], stations: 16 };
const [nan, inf] = [Number.NaN, Number.POSITIVE_INFINITY];

const bore = { bore: 0.01 };
const options: Case[] = [
  ["null", null, "options", null, /object/],
  ["a number", 64, "options", 64, /object/],
  ["a list", [64], "options", [64], /object/],
  ["a misspelt one", { sample: 64 }, "sample", 64, /"samples"/],
  ...[7, 8.5, -8, nan, inf, 1e7, "64", null].map(
    (samples): Case => [`samples of ${samples}`, { samples }, "samples", samples, /from 8 to 1000000/],
  ),
  ...[-1, 1.5, 2 ** 31, nan, "1"].map(
    (seed): Case => [`a seed of ${seed}`, { seed }, "seed", seed, /from 0 to 2147483647/],
  ),
  ...[0, -1, 2, nan].map(
    (sensitivity): Case => [
      `a sensitivity of ${sensitivity}`,
      { sensitivity },
      "sensitivity",
      sensitivity,
      /above 0 to 1 mm/,
    ],
  ),
  [
    "limits that contradict",
    { limits: { freeGap: { min: 3, max: 2 } } },
    "limits.freeGap.min",
    3,
    /above max, 2/,
  ],
  [
    "a limit of an unknown outcome",
    { limits: { force: { min: 1 } } },
    "limits.force",
    { min: 1 },
    /"tangentialForce"/,
  ],
  ["a limit misspelt", { limits: { freeGap: { mn: 1 } } }, "limits.freeGap.mn", 1, /"min"/],
  ["a bare limit", { limits: { freeGap: 5 } }, "limits.freeGap", 5, /object/],
  [
    "a limit with a unit",
    { limits: { freeGap: { min: "5 mm" } } },
    "limits.freeGap.min",
    "5 mm",
    /finite number/,
  ],
  ["an infinite limit", { limits: { freeGap: { max: inf } } }, "limits.freeGap.max", inf, /finite number/],
  ["null for limits", { limits: null }, "limits", null, /object/],
  ["a list of limits", { limits: [] }, "limits", [], /object/],
  ["a list for a limit", { limits: { freeGap: [] } }, "limits.freeGap", [], /object/],
  ["a number for a listener", { onProgress: 5 }, "onProgress", 5, /function/],
];

describe("options are refused:", () => {
  test.each(options)("%s", async (_, given, field, value, allowed) => {
    expectRefused(
      thrown(() => variation(FERRY, bore, frozen(given))),
      field,
      value,
      allowed,
    );
    const later = await variationInParallel(FERRY, bore, frozen(given)).catch((error) => error);
    expectRefused(later, field, value, allowed);
  });

  test.each([0, -1, 1.5, nan, inf, 257, "2", null])("%s threads", async (threads: Loose) => {
    const words = /whole number from 1 to 256/;
    const whole = await variationInParallel(FERRY, bore, { samples: 8, threads }).catch((error) => error);
    expectRefused(whole, "threads", threads, words);
    const plan = planVariation(FERRY, bore, { samples: 8 });
    const part = await sliceInParallel(plan, { index: 1, of: 2 }, { threads }).catch((error) => error);
    expectRefused(part, "threads", threads, words);
  });

  test("and so is a wrong spec", () => {
    expectRefused(
      thrown(() => variation({ ...FERRY, bore: -1 }, bore)),
      "bore",
      -1,
      /from 1 to 10000 mm/,
    );
    expectRefused(
      thrown(() => variation(null as Loose, bore)),
      "spec",
      null,
      /object/,
    );
  });
});

describe("of a study in parts,", () => {
  const plan = planVariation(FERRY, { bore: 0.02 }, { samples: 8 });
  const [a, b] = [1, 2].map((index) => variationSlice(plan, { index, of: 2 }));
  const [c, d, , e] = [1, 2, 3, 4].map((index) => variationSlice(plan, { index, of: 4 }));
  const changed = (change: (slice: Loose) => void): Loose => {
    const slice: Loose = structuredClone(a);
    change(slice);
    return [slice, b];
  };

  test.each<Case>([
    ["no object", null, "shard", null, /object/],
    ["shard 0", { index: 0, of: 2 }, "shard.index", 0, /from 1 to 2/],
    ["shard 3 of 2", { index: 3, of: 2 }, "shard.index", 3, /from 1 to 2/],
    ["more shards than samples", { index: 1, of: 9 }, "shard.of", 9, /from 1 to the samples, 8/],
    ["half a shard", { index: 1.5, of: 2 }, "shard.index", 1.5, /whole number/],
    ["letters", { index: "1", of: 2 }, "shard.index", "1", /whole number/],
    ["nothing said", {}, "shard.of", undefined, /whole number/],
  ])("a shard is refused: %s", (_, shard, field, value, allowed) => {
    expectRefused(
      thrown(() => variationSlice(plan, shard)),
      field,
      value,
      allowed,
    );
  });

  test.each<[string, Loose]>([
    ["nothing", undefined],
    ["null", null],
    ["a number", 5],
    ["an empty one", {}],
    ["one of no factors", { ...plan, factors: [] }],
    ["one of factors that are none", { ...plan, factors: [null] }],
    ["a factor past its checks", { ...plan, factors: [{ ...plan.factors[0], upper: 30 }] }],
    ["samples in letters", { ...plan, samples: "8" }],
    ["a field too many", { ...plan, more: 1 }],
    ["NaN for a seed", { ...plan, seed: nan }],
  ])("a plan is refused: %s", async (_, wrong) => {
    const shard = { index: 1, of: 2 };
    expectRefused(
      thrown(() => variationSlice(frozen(wrong), shard)),
      "plan",
      wrong,
      /planVariation/,
    );
    const later = await sliceInParallel(frozen(wrong), shard).catch((error) => error);
    expectRefused(later, "plan", wrong, /planVariation/);
  });

  test("a plan from a file is taken", () => {
    expect(variationSlice(JSON.parse(JSON.stringify(plan)), { index: 2, of: 2 })).toEqual(b);
  });

  test("so is one of a ring whose slots, read again, lie elsewhere by a rounding", () => {
    const slots = { count: 6, depth: 2.2, width: 0.5, from: 0.5, to: 2 };
    const slotted = planVariation({ ...FERRY, section: { ...FERRY.section, slots } }, bore, { samples: 8 });
    const slices = [1, 2].map((index) => variationSlice(slotted, { index, of: 2 }));
    expect(mergeVariation(JSON.parse(JSON.stringify(slices))).plan).toEqual(slotted);
  });

  const unlike = variationSlice(planVariation(FERRY, { bore: 0.02 }, { samples: 8, seed: 2 }), {
    index: 2,
    of: 2,
  });
  test.each<[string, Loose, string, RegExp]>([
    ["nothing", [], "slices", /list/],
    ["no list", null, "slices", /list/],
    ["null among them", [a, null], "slices.1", /variationSlice/],
    ["numbers among them", [5], "slices.0", /variationSlice/],
    ["one missing", [a], "slices", /all 8 samples/],
    ["the first missing", [b], "slices", /missing from sample 0/],
    ["a middle one missing", [c, d, e], "slices", /missing from sample 4/],
    ["one doubled", [a, a, b], "slices.1.from", /doubled from sample 0/],
    ["one that overlaps, given first", [d, a, b], "slices.0.from", /doubled from sample 2/],
    ["another seed's", [a, unlike], "slices.1.plan", /one study/],
    ["another seed's, given first", [unlike, a], "slices.0.plan", /one study/],
    ["rows that are a string", changed((one) => (one.rows = "abcd")), "slices.0.rows", /variationSlice/],
    ["rows that are nothing", changed((one) => (one.rows = null)), "slices.0.rows", /variationSlice/],
    ["a row that is no list", changed((one) => (one.rows[2] = 5)), "slices.0.rows.2", /variationSlice/],
    ["a row too short", changed((one) => one.rows[1].pop()), "slices.0.rows.1", /variationSlice/],
    ["an unknown word", changed((one) => (one.rows[1][0] = "breaks")), "slices.0.rows.1", /variationSlice/],
    ["outcomes too few", changed((one) => one.rows[1][0].pop()), "slices.0.rows.1", /variationSlice/],
    [
      "null for an outcome",
      changed((one) => (one.rows[0][0][3] = null)),
      "slices.0.rows.0",
      /variationSlice/,
    ],
    ["half a place", changed((one) => (one.from = 0.5)), "slices.0.from", /variationSlice/],
    ["no plan", changed((one) => (one.plan = null)), "slices.0.plan", /variationSlice/],
    ["a plan without factors", changed((one) => (one.plan.factors = 5)), "slices.0.plan", /variationSlice/],
    ["a plan of another spec", changed((one) => (one.plan.spec = 5)), "slices.0.plan", /variationSlice/],
  ])("slices are refused: %s", (_, slices, field, allowed) => {
    expectRefused(
      thrown(() => mergeVariation(frozen(slices))),
      field,
      expect.toSatisfy(() => true),
      allowed,
    );
  });

  property.prop([fc.anything({ maxDepth: 3 }), fc.constantFrom("plan", "from", "rows")], runs(100))(
    "anything in place of a part of a slice is refused by name",
    (value, key) => {
      fc.pre(key !== "from" || value !== 0);
      const slices = changed((one) => (one[key] = value)) as VariationSlice[];
      expect(thrown(() => mergeVariation(slices))).toBeInstanceOf(SpecError);
    },
  );
});
