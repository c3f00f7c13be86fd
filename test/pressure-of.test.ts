import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, pressureOf } from "../src/index.js";
import { bothSizes, error, expectNothingAtEnds, rounding, steps, truncation } from "./made-pressure.js";
import { DEMO_RINGS, EXTREME_RINGS, runs, sensibleRing } from "./rings.js";

/**
 * Backwards: the pressure found from a designed ring's free curvature is the one it was designed for, its ends need
 * nothing, and what is missing is what nine-point differences and rounding leave.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];

/** Harmonics of order 2 to 8, cosine and sine, whose amplitudes add up to at most 0.9: the pressure stays positive. */
const amplitudes = fc.array(fc.integer({ min: -100, max: 100 }), { maxLength: 7 });
const harmonics = fc
  .tuple(amplitudes, amplitudes, fc.integer({ min: 0, max: 90 }))
  .map(([cosine, sine, percent]) => {
    const total = [...cosine, ...sine].reduce((sum, value) => sum + Math.abs(value), 0) || 1;
    const scaled = (values: number[]) => values.map((value) => (value * percent) / 100 / total);
    return { cosine: scaled(cosine), sine: scaled(sine) };
  });
describe.each(["thin", "curved"] as const)("the pressure of a designed ring, %s theory,", (theory) => {
  property.prop([sensibleRing, harmonics, fc.constantFrom(90, 180, 360)], runs(60))(
    "is the designed one, to differences and rounding, and its ends need nothing",
    (ring, wanted, stations) => {
      const design = designRing({ ...ring, theory, stations, pressure: { shape: "harmonics", ...wanted } });
      const tolerance = truncation(design, bothSizes(wanted)) + rounding(design);
      expect(error(design)).toBeLessThan(tolerance);
      // Overhang: below 0.0021 rad (gap 3 %, wall d/16); a pressure of order 8 leaves some 0.9·8²/6 of its cube, 9e-8.
      expectNothingAtEnds(design, 1e-7 + 0.01 * tolerance);
      const { moment } = pressureOf(design);
      const size = design.load.tangentialForce * design.installed.centroidRadius;
      for (const [i, M] of moment.entries()) {
        // In M the shear counts (a/r)²/5 at most, 0.004; rounding as above without the differences.
        const left = 0.004 * tolerance + 2 ** -51 / design.stiffnessParameter;
        expect(Math.abs(M - design.installed.moment[i])).toBeLessThan(left * size);
      }
    },
  );

  test("misses no more and hardly less than nine-point differences must, for half of p₀ as sin iθ", () => {
    // f⁽⁹⁾ of the sine of that moment is largest at the ends, where the formula is one-sided.
    const table: Record<string, Record<string, string>> = {};
    for (const order of [2, 3, 5, 8, 12]) {
      const sine = [...new Array<number>(order - 2).fill(0), 0.5];
      table[`sin ${order}θ`] = {};
      for (const stations of [48, 90, 180, 360]) {
        const design = designRing({
          ...FERRY,
          theory,
          stations,
          pressure: { shape: "harmonics", cosine: [], sine },
        });
        const [bound, noise] = [truncation(design, sine), rounding(design)];
        const found = error(design);
        table[`sin ${order}θ`][stations] = found.toExponential(1);
        expect(found).toBeLessThan(bound + noise);
        // Away from rounding, and for less than a third of a radian to a step: there the sine over the formula's eight
        // steps still is near what it is at the end.
        if (order * steps(design).widest < 0.3 && bound > 100 * noise)
          expect(found).toBeGreaterThan(bound / 5);
      }
    }
    console.log(`${theory} theory: error of the pressure found, over p₀, against stations per half ring`);
    console.table(table);
  });

  test.each([
    ["moreAtGap", 1],
    ["lessAtGap", 0.9],
  ] as const)("is the designed one for the family %s of strength %d", (shape, strength) => {
    // The family's harmonics, strength·(7 − i)/15, i = 2 … 6.
    const bump = [5, 4, 3, 2, 1].map((weight) => (strength * weight) / 15);
    for (const [, ring] of EXTREME_RINGS) {
      const design = designRing({ ...ring, theory, pressure: { shape, strength } });
      const tolerance = truncation(design, bump) + rounding(design);
      expect(error(design)).toBeLessThan(tolerance);
      expectNothingAtEnds(design, 1e-7 + 0.01 * tolerance);
    }
  });
});
