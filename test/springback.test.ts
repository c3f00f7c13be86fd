import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { curvatureAfter, curvatureBefore, type SpringbackWire, yieldCurvature } from "../src/index.js";
import { runs } from "./rings.js";
import { integral } from "./statics.js";

/**
 * Springback of a straight, elastic–perfectly plastic wire: against the printed relation, against the stresses in the
 * section, and there and back.
 */

/** Wires from soft bronze to spring steel. N, mm. */
const wire: fc.Arbitrary<SpringbackWire> = fc.record({
  yieldStress: fc.integer({ min: 100, max: 2200 }),
  youngsModulus: fc.integer({ min: 60000, max: 220000 }),
  thickness: fc.integer({ min: 3, max: 120 }).map((tenths) => tenths / 10),
});

/** Numbers spread evenly over the magnitudes between two powers of ten. */
const magnitude = (from: number, to: number) =>
  fc.integer({ min: 0, max: 10000 }).map((share) => 10 ** (from + ((to - from) * share) / 10000));

/** Half a unit in the last place of 1: each of the few sums and products rounds by this share. */
const U = 2 ** -53;

describe("curvatureAfter", () => {
  property.prop([wire, magnitude(-4, 5)], runs(300))(
    "is Gardiner's Ri/Rf = 4(RiY/(ET))³ − 3RiY/(ET) + 1",
    (one, beyond) => {
      // F. J. Gardiner, "The spring back of metals", Trans. ASME 79 (1957) 1–9, from memory; Ri on the tool, Rf after.
      const { yieldStress: Y, youngsModulus: E, thickness: T } = one;
      const yielding = yieldCurvature(one);
      const tool = yielding * (1 + beyond);
      const Ri = 1 / tool;
      const x = (Ri * Y) / (E * T);
      const byGardiner = tool * (4 * x ** 3 - 3 * x + 1);
      // Both are sums of terms as large as the curvature on the tool.
      expect(Math.abs(curvatureAfter(tool, yielding) - byGardiner)).toBeLessThan(16 * U * tool);
    },
  );

  test("is the radius of 62.4 mm by hand for 4.4 mm wire of 1200 MPa bent round 50 mm", () => {
    // x = 50·1200/(205000·4.4) = 0.066519; 1 − 0.199557 + 0.001177 = 0.801620; 50/0.80162 = 62.374.
    const yielding = yieldCurvature({ yieldStress: 1200, youngsModulus: 205000, thickness: 4.4 });
    expect(1 / curvatureAfter(1 / 50, yielding)).toBeCloseTo(62.374, 3);
  });

  property.prop([wire, magnitude(-3, 4)], runs(200))(
    "is the curvature on the tool less that of the section's moment released elastically",
    (one, beyond) => {
      const { yieldStress: Y, youngsModulus: E, thickness: T } = one;
      const tool = yieldCurvature(one) * (1 + beyond);
      // Plane sections; the stress follows E·κ·y up to Y. A strip one wide, its two halves alike.
      const stress = (y: number) => Math.min(E * tool * y, Y);
      const moment = 2 * integral((y) => stress(y) * y, 0, T / 2, [Y / (E * tool)]);
      const released = moment / ((E * T ** 3) / 12);
      // The quadrature is exact for the cubic pieces; sums of some hundred terms round.
      const after = curvatureAfter(tool, yieldCurvature(one));
      expect(Math.abs(after - (tool - released))).toBeLessThan(200 * U * tool);
    },
  );

  property.prop([wire, magnitude(-6, 0)], runs(100))(
    "is none where nothing yielded, to either side",
    (one, share) => {
      const yielding = yieldCurvature(one);
      for (const tool of [share * yielding, -share * yielding])
        expect(curvatureAfter(tool, yielding)).toBe(0);
    },
  );

  test("starts with 3ε²/2 of the yield curvature just above it, ε beyond", () => {
    // By hand: 1 + ε − 3/2 + (1 + ε)⁻²/2 = 3ε²/2 − 2ε³ + …
    for (const e of [1e-2, 1e-3, 1e-4]) {
      const kept = curvatureAfter(1 + e, 1);
      expect(Math.abs(kept - 1.5 * e * e)).toBeLessThan(2 * e ** 3 + 4 * U);
      expect(kept).toBeGreaterThan(0);
    }
  });

  property.prop([wire, magnitude(-3, 5), magnitude(-3, 1)], runs(200))(
    "grows with the curvature on the tool, by no more than that grows",
    (one, beyond, more) => {
      const yielding = yieldCurvature(one);
      const [less, further] = [1 + beyond, (1 + beyond) * (1 + more)].map((share) => share * yielding);
      const grown = curvatureAfter(further, yielding) - curvatureAfter(less, yielding);
      expect(grown).toBeGreaterThan(0);
      // The stresses can only hold back; sums as large as the curvature round.
      expect(grown).toBeLessThan((further - less) * (1 + 1e-9));
    },
  );

  property.prop([wire, magnitude(0.1, 5)], runs(100))(
    "loses at most what the fully plastic moment bends elastically, 3/2 of the yield curvature",
    (one, share) => {
      // Shape factor of a rectangle (any textbook of plasticity, from memory): Y·T²/4 over E·T³/12.
      const { yieldStress: Y, youngsModulus: E, thickness: T } = one;
      const yielding = yieldCurvature(one);
      const tool = share * yielding;
      const plastic = (Y * T ** 2) / 4 / ((E * T ** 3) / 12);
      const lost = tool - curvatureAfter(tool, yielding);
      expect(lost).toBeLessThan(plastic + 4 * U * tool);
      // And falls short of that by κe³/(2κ²).
      expect(lost).toBeGreaterThan(plastic * (1 - 1 / (3 * share * share)) - 8 * U * tool);
    },
  );
});

test("yieldCurvature brings the outer fibre to the yield stress, E·κ·T/2 = Y", () => {
  const one = { yieldStress: 1200, youngsModulus: 205000, thickness: 4.4 };
  expect(205000 * yieldCurvature(one) * 2.2).toBeCloseTo(1200, 9);
});

describe("curvatureBefore is the inverse of curvatureAfter", () => {
  property.prop([wire, magnitude(-9, 9), fc.constantFrom(1, -1)], runs(500))(
    "from the curvature wanted to the tool and back",
    (one, share, sign) => {
      const yielding = yieldCurvature(one);
      const wanted = sign * share * yielding;
      const back = curvatureAfter(curvatureBefore(wanted, yielding), yielding);
      // Rounding in proportion to the curvature, and to the yield curvature where it is much larger.
      expect(Math.abs(back - wanted)).toBeLessThan(1e-12 * Math.abs(wanted) + 16 * U * yielding);
    },
  );

  property.prop([wire, magnitude(-5, 6), fc.constantFrom(1, -1)], runs(500))(
    "from the tool to the curvature kept and back",
    (one, beyond, sign) => {
      const yielding = yieldCurvature(one);
      const tool = sign * yielding * (1 + beyond);
      const back = curvatureBefore(curvatureAfter(tool, yielding), yielding);
      // Near yield the curvature kept has a level start, 3ε²/2: what rounds there counts 1/(1 − (κe/κ)³) times.
      const slope = 1 - (1 + beyond) ** -3;
      expect(Math.abs(back - tool)).toBeLessThan((16 * U * Math.abs(tool)) / slope);
    },
  );

  test("for a curvature next to nothing it is the yield curvature and √(2κ/(3κe)) of it", () => {
    // By hand: κf = κe·(3ε²/2 − 2ε³ + …), so ε = √(2q/3)·(1 + ⅔·√(2q/3) + …), q = κf/κe.
    for (const q of [1e-4, 1e-6, 1e-8, 1e-10]) {
      const e = Math.sqrt((2 * q) / 3);
      // The angle whose sine is nearly 1 is good to the root of what rounds: U/ε.
      expect(Math.abs(curvatureBefore(q, 1) - 1 - e)).toBeLessThan(0.7 * e * e + (8 * U) / e);
    }
    expect(curvatureBefore(1e-300, 1)).toBeCloseTo(1, 7);
  });

  test("for a very strong curvature it is that and 3/2 of the yield curvature", () => {
    for (const q of [1e2, 1e4, 1e8, 1e15]) {
      // What is left out is κe³/(2κ²).
      expect(Math.abs(curvatureBefore(q, 1) - q - 1.5)).toBeLessThan(0.5 / q ** 2 + 8 * U * q);
    }
  });

  property.prop([magnitude(-9, 9), magnitude(-6, 1)], runs(200))(
    "and grows with the curvature wanted, always beyond it and beyond yield",
    (share, more) => {
      const [less, further] = [share, share * (1 + more)].map((wanted) => curvatureBefore(wanted, 1));
      // Growing by more than rounding: at least as much as the curvature wanted, times at least 1.
      expect(further).toBeGreaterThanOrEqual(less + share * more * (1 - 1e-6) - 32 * U * (1 + share));
      expect(less).toBeGreaterThanOrEqual(1);
      expect(less).toBeGreaterThan(share);
    },
  );

  test("a straight wire needs no bending", () => {
    expect(curvatureBefore(0, 0.003)).toBe(0);
  });
});

property.prop([magnitude(-9, 9)], runs(100))(
  "both are odd: bent the other way, all is the other way",
  (share) => {
    expect(curvatureAfter(-1 - share, 1)).toBe(-curvatureAfter(1 + share, 1));
    expect(curvatureBefore(-share, 1)).toBe(-curvatureBefore(share, 1));
  },
);
