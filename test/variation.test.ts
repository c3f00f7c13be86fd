import { describe, expect, test } from "vitest";
import { OUTCOMES } from "../src/batch/variationSchema.js";
import {
  mergeVariation,
  planVariation,
  type RingSpecInput,
  type TolerancesInput,
  type Variation,
  type VariationSlice,
  variation,
  variationSlice,
} from "../src/index.js";
import { DEMO_RINGS, relativeError } from "./rings.js";
import { just, outcomesAt } from "./varied-rings.js";

/** The spread of a batch as a study: the same however it is cut, and honest about numbers. Each variant: `variation-truth.test.ts`. */

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 32 };
const THREE: TolerancesInput = {
  radialThickness: 0.03,
  freeGap: 0.4,
  bore: { lower: -0.01, upper: 0.02, distribution: "uniform" },
};
const LIMITS = { tangentialForce: { min: 17.4, max: 18.2 }, closedGap: { max: 0.5 } };
const uniform = (lower: number, upper: number) => ({ lower, upper, distribution: "uniform" as const });
const study = variation(FERRY, THREE, { samples: 64, seed: 7, limits: LIMITS });

describe("variation", () => {
  test("is the same again, and another one for another seed, within its errors", () => {
    expect(variation(FERRY, THREE, { samples: 64, seed: 7, limits: LIMITS })).toEqual(study);
    const other = variation(FERRY, THREE, { samples: 64, seed: 8, limits: LIMITS });
    for (const name of ["tangentialForce", "freeGap", "closedGap", "closingStress"] as const) {
      const [one, two] = [study.outcomes[name], other.outcomes[name]];
      expect(one.mean).not.toBe(two.mean);
      // 128 variants each; if they were independent ones the two means were apart by σ·√(2/128) and seldom by four of those.
      expect(Math.abs(one.mean - two.mean)).toBeLessThan((4 * one.standardDeviation) / 8);
      expect(relativeError(one.standardDeviation, two.standardDeviation)).toBeLessThan(4 / Math.sqrt(128));
      for (const [factor, { total, totalError }] of Object.entries(one.sensitivity)) {
        const doubt = Math.hypot(totalError, two.sensitivity[factor].totalError);
        expect(Math.abs(total - two.sensitivity[factor].total), factor).toBeLessThan(4 * doubt + 1e-3);
      }
    }
  });

  test("tells what it was asked and how much it computed, as data", () => {
    expect(JSON.parse(JSON.stringify(study))).toEqual(study);
    expect(study.plan).toEqual(planVariation(FERRY, THREE, { samples: 64, seed: 7, limits: LIMITS }));
    expect(study.plan.factors.map(({ name }) => name)).toEqual(["radialThickness", "freeGap", "bore"]);
    expect(study.evaluations).toBe(64 * 5);
    expect(study.variants).toEqual({ all: 128, butts: 0, loose: 0 });
    expect(study.samplesUsed).toBe(64);
    for (const outcome of Object.values(study.outcomes)) {
      const { histogram, least, most, mean, percentiles } = outcome;
      expect(histogram.reduce((sum, count) => sum + count, 0)).toBe(128);
      expect(least <= mean && mean <= most).toBe(true);
      expect(percentiles.every(({ value }) => value >= least && value <= most)).toBe(true);
    }
  });

  test("tells progress after each sample", () => {
    const told: [number, number][] = [];
    variation(FERRY, { bore: 0.01 }, { samples: 8, onProgress: (...both) => told.push(both) });
    expect(told).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((done) => [done, 8]));
  });

  test("owes to each what it should", () => {
    const { tangentialForce, freeGap, closedGap } = study.outcomes;
    const total = (of: Variation["outcomes"]["freeGap"]) =>
      Object.values(of.sensitivity).reduce((sum, one) => sum + one.total, 0);
    // By first differences nothing is owed to two together: totals sum to 1, to their errors of a tenth.
    for (const one of [tangentialForce, freeGap, closedGap])
      expect(Math.abs(total(one) - 1)).toBeLessThan(0.3);
    expect(closedGap.sensitivity.bore.total).toBeGreaterThan(0.95);
    expect(tangentialForce.sensitivity.bore.total).toBeLessThan(1e-6);
    // The wall's power is 4.37 (variation-truth): 4.37·0.03/4.4 = 3.0 % of force against 0.4/10.67 · 0.985 = 3.7 %; shares of squares.
    const wall = 0.0298 ** 2 / (0.0298 ** 2 + 0.0369 ** 2);
    expect(Math.abs(tangentialForce.sensitivity.radialThickness.total - wall)).toBeLessThan(0.15);
  });
});

describe("slices of a study", () => {
  const plan = planVariation(FERRY, THREE, { samples: 64, seed: 7, limits: LIMITS });
  const cut = (of: number) =>
    Array.from({ length: of }, (_, k) => variationSlice(plan, { index: k + 1, of }));
  /** Always the same disorder. */
  const shuffled = (slices: readonly VariationSlice[]) =>
    slices.map((_, k) => slices[(k * 5 + 2) % slices.length]);

  test.each([2, 7, 64])("are joined in any order to exactly the whole: %d of them", (of) => {
    const slices = cut(of);
    expect(slices.map(({ rows }) => rows.length).reduce((sum, one) => sum + one, 0)).toBe(64);
    expect(mergeVariation(slices)).toEqual(study);
    expect(mergeVariation([...slices].reverse())).toEqual(study);
    expect(mergeVariation(JSON.parse(JSON.stringify(shuffled(slices))))).toEqual(study);
  });

  test("may be of different cuts", () => {
    const part = (index: number, of: number) => variationSlice(plan, { index, of });
    expect(mergeVariation([part(4, 4), part(1, 2), part(3, 4)])).toEqual(study);
  });

  test("say the same after JSON even where the tolerance is nothing", () => {
    const none = planVariation(FERRY, { bore: 0 }, { samples: 8 });
    const slice = variationSlice(none, { index: 1, of: 1 });
    expect(mergeVariation([JSON.parse(JSON.stringify(slice))])).toEqual(mergeVariation([slice]));
  });
});

describe("distributions:", () => {
  test("a uniform modulus makes a uniform force", () => {
    const E = DEMO_RINGS["ferry 118 mm"].material.youngsModulus;
    const { tangentialForce: force } = variation(
      FERRY,
      { youngsModulus: uniform(-8000, 4000) },
      { samples: 128 },
    ).outcomes;
    const at = (deviation: number) => force.nominal * (1 + deviation / E);
    const width = at(4000) - at(-8000);
    // One variant in each 128th of the width, twice: percentiles are good to a step, the mean to a part of one, σ to n/(n − 1) and that.
    for (const { percent, value } of force.percentiles)
      expect(Math.abs(value - (at(-8000) + (width * percent) / 100)), `${percent}`).toBeLessThan(width / 100);
    expect(Math.abs(force.mean - at(-2000))).toBeLessThan(width / 500);
    expect(relativeError(force.standardDeviation, width / Math.sqrt(12))).toBeLessThan(0.01);
    // 256 in 40 bins: 6.4 in each, less or more by those that share a stratum with a neighbour.
    for (const count of force.histogram) expect(Math.abs(count - 6.4)).toBeLessThan(4);
  });

  test("a normal tolerance has a sixth of its width for standard deviation, and is not cut off", () => {
    const { closedGap } = variation(
      { ...FERRY, stations: 16 },
      { closedGap: { lower: -0.06, upper: 0.12 } },
      { samples: 512 },
    ).outcomes;
    // The mean of 512 strata is good to 1e-3 of σ, σ itself to the tails of some 1 %.
    expect(relativeError(closedGap.standardDeviation, 0.18 / 6)).toBeLessThan(0.015);
    expect(Math.abs(closedGap.mean - 0.48)).toBeLessThan(0.03 * 0.005);
    const at = (percent: number) => closedGap.percentiles.find((one) => one.percent === percent)?.value ?? 0;
    // Quantiles of the normal law (any table): 2.3263 and 1.6449; a stratum of 1/512 is 0.07 σ and 0.02 σ wide there, half of that is doubt.
    expect(Math.abs((at(99) - 0.48) / 0.03 - 2.3263)).toBeLessThan(0.07);
    expect(Math.abs((at(5) - 0.48) / 0.03 + 1.6449)).toBeLessThan(0.03);
    // 1024 variants: the outermost lie near 3 σ.
    expect((closedGap.most - 0.48) / 0.03).toBeGreaterThan(2.8);
  });

  test("shares inside are what counting gives", () => {
    const plan = planVariation(FERRY, THREE, { samples: 64, seed: 7, limits: LIMITS });
    const { rows } = variationSlice(plan, { index: 1, of: 1 });
    const variants = rows.flatMap((row) => row.slice(0, 2)) as number[][];
    const count = (good: (values: number[]) => boolean) => variants.filter(good).length / 128;
    const [force, gap] = [OUTCOMES.indexOf("tangentialForce"), OUTCOMES.indexOf("closedGap")];
    const isStrong = (values: number[]) => values[force] >= 17.4 && values[force] <= 18.2;
    const isClosed = (values: number[]) => values[gap] <= 0.5;
    expect(study.outcomes.tangentialForce.inside).toBe(count(isStrong));
    expect(study.outcomes.closedGap.inside).toBe(count(isClosed));
    expect(study.outcomes.freeGap.inside).toBe(1);
    expect(study.inside).toBe(count((values) => isStrong(values) && isClosed(values)));
    // Neither all nor none, or nothing would be tested.
    expect(study.inside).toBeGreaterThan(0.2);
    expect(study.inside).toBeLessThan(0.9);
  });
});

describe("variants that do not work are counted, and stay out of the distributions:", () => {
  test("rings cut longer than their bore goes round butt", () => {
    // From 0.45 to 0.45 mm too long: one of two variants in each 64th of the range.
    const batch = variation(FERRY, { closedGap: uniform(-0.9, 0) }, { samples: 64 });
    expect(batch.variants).toEqual({ all: 128, butts: 64, loose: 0 });
    expect(batch.inside).toBe(0.5);
    expect(batch.samplesUsed).toBeGreaterThan(8);
    expect(batch.samplesUsed).toBeLessThan(32);
    expect(batch.outcomes.closedGap.least).toBeGreaterThan(0);
    expect(batch.outcomes.closedGap.histogram.reduce((sum, count) => sum + count, 0)).toBe(64);
    // In a bore as much wider they do not.
    const wide = outcomesAt(FERRY, { closedGap: just(-0.5), bore: just(0.2 / Math.PI) });
    expect(Math.abs(wide.closedGap - (0.45 - 0.5 + 0.2))).toBeLessThan(0.005);
  });

  test("rings in bores too narrow for them butt, ones without opening are loose", () => {
    // π·Δd + 0.45 = 0 at half of the range.
    const { variants, outcomes } = variation(FERRY, { bore: uniform(-0.9 / Math.PI, 0) }, { samples: 64 });
    // By the edge the gap's own second order counts, a stratum or two of 64.
    expect(Math.abs(variants.butts - 64)).toBeLessThan(7);
    expect(outcomes.closedGap.least).toBeGreaterThan(0);
    const loose = variation(FERRY, { freeGap: uniform(-17, 0) }, { samples: 64, limits: LIMITS });
    // The opening is gone at −10.66 of −17 mm, but for the free gap's curve.
    expect(Math.abs(loose.variants.loose / 128 - (1 - 10.66 / 17))).toBeLessThan(0.03);
    expect(loose.outcomes.tangentialForce.least).toBeGreaterThan(0);
    expect(loose.inside).toBeLessThanOrEqual(1 - loose.variants.loose / 128);
  });
});

test("a cut that takes the unslotted ends away leaves the rest of a slotted ring as it was", () => {
  // Slotted to 0.036 mm from either end face, measured along mid wall; 0.1 mm goes.
  const slots = { count: 30, depth: 0.9, width: 0.6, from: -3.137, to: 3.137 };
  const spec = { ...FERRY, section: { ...DEMO_RINGS["ferry 118 mm"].section, slots } };
  const [drawn, cut] = [0, 0.2].map((deviation) => outcomesAt(spec, { closedGap: just(deviation) }));
  // Bending at the ends is some (0.1 mm/r)² of that at the back; pressures follow the mesh there.
  expect(relativeError(cut.tangentialForce, drawn.tangentialForce)).toBeLessThan(1e-4);
  expect(relativeError(cut.highestPressure, drawn.highestPressure)).toBeLessThan(0.01);
  expect(relativeError(cut.lowestPressure, drawn.lowestPressure)).toBeLessThan(0.01);
  expect(Math.abs(cut.freeGap - drawn.freeGap - 0.2)).toBeLessThan(0.005);
});

test("a contact takes milliseconds, and four times the samples no more than some four times the time", () => {
  // Of this process alone: others use the machine too.
  const milliseconds = (samples: number) => {
    const start = process.cpuUsage();
    variation(FERRY, { freeGap: 0.3, bore: 0.01 }, { samples });
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  };
  const [few, many] = [16, 64].map((samples) => Math.min(...[0, 1, 2].map(() => milliseconds(samples))));
  const each = many / (64 * 4);
  console.log(`${each.toFixed(2)} ms a contact at 32 stations a half`);
  // Some 1 to 2 ms on a two-core machine.
  expect(each).toBeLessThan(40);
  // 16 times if it were quadratic; the rest is room for the compiler and the collector.
  expect(many / few).toBeLessThan(10);
});
