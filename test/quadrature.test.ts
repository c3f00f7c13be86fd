import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign } from "../src/index.js";
import { runningIntegral } from "../src/numeric/quadrature.js";
import type { RingSpecInput } from "../src/spec/schema.js";
import { DEMO_NAMES, DEMO_RINGS, EXTREME_RINGS, runs, sensibleRing } from "./rings.js";

describe("runningIntegral", () => {
  test.each([8, 9, 12, 16, 33])("of %i points is exact for polynomials up to degree seven", (count) => {
    const step = 1 / (count - 1);
    for (let degree = 0; degree <= 7; degree++) {
      const f = Array.from({ length: count }, (_, i) => (i * step) ** degree);
      const F = runningIntegral(f, step);
      for (let i = 0; i < count; i++) {
        // Hand result x^(n+1)/(n+1) of numbers up to 1; the weights add up to about 4, so some 1e-15 of rounding.
        expect(Math.abs(F[i] - (i * step) ** (degree + 1) / (degree + 1))).toBeLessThan(3e-15);
      }
    }
  });

  test("misses a polynomial of degree eight, so the test above can fail", () => {
    const f = Array.from({ length: 9 }, (_, i) => (i / 8) ** 8);
    expect(Math.abs(runningIntegral(f, 1 / 8)[8] - 1 / 9)).toBeGreaterThan(1e-9);
  });

  test("of a smooth function has an error of order step⁸, within the first neglected terms of its formulas", () => {
    // First neglected terms of one step, from memory: 2497/3628800·step⁹·f⁽⁸⁾ of the central formula in differences,
    // 33953/3628800·step⁹·f⁽⁸⁾ of Adams and Moulton's, which is the worst of the three steps at either end.
    // f = exp over 0 … 2: every derivative is exp, and the running integral exp(x) − 1.
    for (const steps of [10, 14, 20, 28, 40]) {
      const step = 2 / steps;
      const f = Array.from({ length: steps + 1 }, (_, i) => Math.exp(i * step));
      const error = Math.max(...runningIntegral(f, step).map((F, i) => Math.abs(F - Math.expm1(i * step))));
      const middle = (2497 / 3628800) * Math.expm1(2) * step ** 8;
      const ends = 6 * (33953 / 3628800) * Math.exp(2) * step ** 9;
      expect(error).toBeLessThan(middle + ends + 1e-14);
    }
  });

  property.prop([fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 8, maxLength: 40 })], runs(200))(
    "read from the other end gives the same total",
    (f) => {
      const total = runningIntegral(f, 0.5)[f.length - 1];
      const reversed = runningIntegral([...f].reverse(), 0.5)[f.length - 1];
      // Forty terms of size 100 with weights up to 1.2: rounding near 1e-12.
      expect(Math.abs(total - reversed)).toBeLessThan(1e-11);
    },
  );
});

/** Largest distance between the same stations of a design and of one with a multiple of its stations, mm. */
function largestDistance(coarse: RingDesign, fine: RingDesign): number {
  const every = fine.spec.stations / coarse.spec.stations;
  const distances = coarse.free.x.map((x, i) =>
    Math.hypot(x - fine.free.x[every * i], coarse.free.y[i] - fine.free.y[every * i]),
  );
  return Math.max(...distances);
}

const at = (spec: RingSpecInput, stations: number) => designRing({ ...spec, stations });

describe("at the default number of stations every station stands where a run with 1440 puts it", () => {
  // Rounding in up to 1440 additions of lengths up to 600 mm is near 1e-12 mm; the method's own error is below that.
  const TOLERANCE = 1e-11;

  test.each([...DEMO_NAMES.map((name) => [name, DEMO_RINGS[name]] as const), ...EXTREME_RINGS])(
    "%s",
    (_name, spec) => {
      const ring = designRing(spec);
      expect(ring.spec.stations).toBe(180);
      expect(largestDistance(ring, at(spec, 1440))).toBeLessThan(TOLERANCE);
    },
  );

  property.prop([sensibleRing], runs(30))("any sensible ring", (spec) => {
    expect(largestDistance(designRing(spec), at(spec, 1440))).toBeLessThan(TOLERANCE);
  });
});

test("the error of the shape falls with the eighth power of the station step, down to rounding", () => {
  const counts = [16, 32, 64, 128, 180, 256];
  const rings: [string, RingSpecInput][] = [
    ...DEMO_NAMES.map((name): [string, RingSpecInput] => [name, DEMO_RINGS[name]]),
    ...EXTREME_RINGS.map(([name, spec]): [string, RingSpecInput] => [name, spec]),
  ];
  const table: Record<string, Record<string, string>> = {};
  for (const [name, spec] of rings) {
    const bore = Number(spec.bore);
    // 11520 is a multiple of every count.
    const fine = at(spec, 11520);
    const errors = counts.map((stations) => largestDistance(at(spec, stations), fine) / bore);
    table[name] = Object.fromEntries(errors.map((error, i) => [counts[i], error.toExponential(1)]));
    // Rounding in the run with 11520 stations, whose additions are that many.
    const rounding = 2e-14;
    for (let i = 1; i < counts.length; i++) {
      expect(errors[i]).toBeLessThan(Math.max(errors[i - 1], rounding));
    }
    for (const [coarse, fineError] of [
      [errors[0], errors[1]],
      [errors[1], errors[2]],
    ] as const) {
      // Halving the step: 2⁸ = 256. The asymptotic rate is not quite reached at 16 stations.
      if (fineError > 10 * rounding) expect(coarse / fineError).toBeGreaterThan(200);
    }
    // What the coarsest run costs: ten nanometres in a bore of 100 mm, at K = 0.2.
    expect(errors[0]).toBeLessThan(1e-7);
  }
  console.log("largest error of the free shape, as a share of the bore, against stations per half ring");
  console.table(table);
});
