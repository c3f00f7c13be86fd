import { describe, expect, test } from "vitest";
import { lawAt } from "../src/curvature/lawsAlong.js";
import { forwardLaw, shearSlope } from "../src/elastica/forwardLaw.js";
import { intervals } from "../src/elastica/ringTables.js";
import type { Wall } from "../src/section/wall.js";

/** The forward law against hand calculation and against the inverse, with which it shares no code; and the tables it marches over. */

const near = (found: number, expected: number, relative = 1e-12) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

const [E, a, h, r] = [100000, 4, 2.4, 20];
const material = { youngsModulus: E };
const rectangle = { radialThickness: a, axialHeight: h };
/** A trapezoid, 1.2 high inside and 2.4 outside; handbook I = a³·(bi² + 4bi·bo + bo²)/(36·(bi + bo)), A = 7.2. */
const trapezoid = {
  ...rectangle,
  outline: [
    { x: 0.6, y: 0 },
    { x: 1.8, y: 0 },
    { x: h, y: a },
    { x: 0, y: a },
  ],
};
const I = (64 * (1.44 + 11.52 + 5.76)) / (36 * 3.6);
const [kappa0, moment, normal] = [1 / 18, 5000, -700];

describe("the forward law of the thin theory", () => {
  const law = forwardLaw({ theory: "thin", section: rectangle, material }, r);

  test("turns by 12·M/(E·h·a³) and neither stretches nor shears", () => {
    const { stretch, sectionTurn } = law.deform({ thickness: 3 }, kappa0, moment, normal);
    expect(stretch).toBe(1);
    near(sectionTurn, kappa0 + (12 * moment) / (E * h * 27));
    expect(law.shearCompliance({ thickness: 3 })).toBe(0);
  });

  test("mixes wall and net section over slots", () => {
    // Half the wall is 8 times as flexible; a quarter of it makes 1 + 7/4.
    const slotted = { thickness: 4, slotted: { net: 2, share: 0.25 } };
    near(
      law.deform(slotted, kappa0, moment, normal).sectionTurn,
      kappa0 + (2.75 * 12 * moment) / (E * h * 64),
    );
  });

  test("takes the second moment of a section of any shape", () => {
    const any = forwardLaw({ theory: "thin", section: trapezoid, material }, r);
    near(any.deform({ thickness: a }, kappa0, moment, normal).sectionTurn, kappa0 + moment / (E * I));
  });
});

describe("the forward law of the curved bar", () => {
  test("is Winkler's, with the logarithm, raised by (a/r)²/10", () => {
    // Z₀ = ∫dA/(1 + κ₀·y) = (h/κ₀)·ln[(1 + κ₀·a/2)/(1 − κ₀·a/2)], and Z₁ = (A − Z₀)/κ₀, Z₂ = −Z₁/κ₀.
    const x = (kappa0 * a) / 2;
    const Z0 = (h / kappa0) * Math.log((1 + x) / (1 - x));
    const Z1 = (a * h - Z0) / kappa0;
    const Z2 = -Z1 / kappa0;
    const determinant = E * (Z0 * Z2 - Z1 * Z1);
    const law = forwardLaw({ theory: "curved", section: rectangle, material }, r);
    const { stretch, sectionTurn } = law.deform({ thickness: a }, kappa0, moment, normal);
    near(stretch - 1, (Z2 * normal - Z1 * moment) / determinant, 1e-9);
    near(sectionTurn - kappa0, (1.004 * (Z0 * moment - Z1 * normal)) / determinant, 1e-9);
    // Shear factor 5/6 and G = E/2.
    near(law.shearCompliance({ thickness: 3 }), 1 / ((5 / 6) * (E / 2) * 3 * h));
  });

  test.each<[string, typeof rectangle, Wall]>([
    ["the nominal wall", rectangle, { thickness: a }],
    ["a thinner wall that tapers", rectangle, { thickness: 3, taper: 0.05 }],
    ["a thicker wall", rectangle, { thickness: 5 }],
    ["a wall with slots", rectangle, { thickness: 3.5, taper: 0.05, slotted: { net: 2, share: 0.3 } }],
    ["a trapezoid", trapezoid, { thickness: a }],
  ])("undoes what the inverse does: %s", (_, section, wall) => {
    const ring = { theory: "curved", section, material } as const;
    const [inverse, forward] = [lawAt(ring, r, wall), forwardLaw(ring, r)];
    for (const [M, N] of [
      [5000, -250],
      [-3000, 150],
      [5000, 700],
    ]) {
      const free = inverse.freeCurvature(M, N, 1 / r, 1 / r);
      const { stretch, sectionTurn } = forward.deform(wall, free, M, N);
      // λκ, the curvature per unit free length; Newton's method leaves 1e-11 and less.
      near(sectionTurn, stretch / r, 1e-11);
      near(stretch, inverse.stretch(M, N, free));
    }
    near(forward.shearCompliance(wall), inverse.shearCompliance);
  });
});

test("shearSlope is c′ = −c·a′/a", () => {
  const law = forwardLaw({ theory: "curved", section: rectangle, material }, r);
  const wallAt = (s: number): Wall => ({ thickness: 4 + 0.05 * s });
  const c = 2.4 / (E * h * 5);
  const interval = { wallAt, wallVaries: true, from: 25, to: 15 };
  // A central difference over ±0.01 mm: (0.01·a′/a)² = 1e-8.
  near(shearSlope(law, interval, 20), (-c * 0.05) / 5, 1e-7);
  expect(shearSlope(law, { ...interval, wallVaries: false }, 20)).toBe(0);
});

describe("intervals", () => {
  // Eight nodes carry a polynomial of degree 7.
  const degree7 = (s: number) => 0.05 + 0.01 * (s / 10) ** 7 - 0.02 * (s / 10) ** 2;
  const arcLength = Array.from({ length: 13 }, (_, i) => i + 0.02 * i * i);
  const tables = { arcLength, curvature: arcLength.map(degree7), nominal: 4 };

  test("run from each station to the next and carry the tables between them", () => {
    const pressure = arcLength.map((s) => 3 * s);
    const pieces = intervals({ ...tables, pressure, wall: undefined });
    expect(pieces.map(({ index }) => index)).toEqual([...Array(12).keys()]);
    for (const { index, from, to, curvatureAt, pressureAt, wallAt } of pieces) {
      expect([to, from]).toEqual([arcLength[index], arcLength[index + 1]]);
      const middle = (from + to) / 2;
      near(curvatureAt(middle), degree7(middle), 1e-11);
      near(pressureAt(middle), 3 * middle, 1e-11);
      expect(wallAt(middle)).toEqual({ thickness: 4 });
    }
  });

  test("have no pressure where none is given", () => {
    expect(intervals({ ...tables, wall: undefined }).map(({ pressureAt }) => pressureAt(1))).toEqual(
      Array(12).fill(0),
    );
  });

  test("tell a wall that is the same all along their run, slots with it, from one that varies", () => {
    const same = (value: number) => arcLength.map(() => value);
    const wall = { thickness: same(4.2), taper: same(0.03), netShare: same(0.2), slotDepth: 1 };
    for (const piece of intervals({ ...tables, wall })) {
      expect(piece.wallVaries).toBe(false);
      expect(piece.wallAt(3)).toEqual({ thickness: 4.2, taper: 0.03, slotted: { net: 3.2, share: 0.2 } });
    }
    for (const key of ["thickness", "taper", "netShare"] as const) {
      const varied = { ...wall, [key]: wall[key].map((value, i) => (i === 12 ? 1.01 * value : value)) };
      const pieces = intervals({ ...tables, wall: varied });
      expect(pieces.map(({ wallVaries }) => wallVaries)).toEqual(Array(12).fill(true));
      const { thickness, taper, slotted } = pieces[11].wallAt(arcLength[12]);
      expect({ thickness, taper, netShare: slotted?.share }[key]).toBeCloseTo(1.01 * wall[key][12], 12);
    }
    expect(intervals({ ...tables, wall: undefined }).every(({ wallVaries }) => wallVaries)).toBe(false);
  });

  test("keep to their side of a jump, wall and slots with them", () => {
    // Two runs of ten stations; the ninth and the tenth are the same place.
    const s = [...Array.from({ length: 10 }, (_, i) => i), ...Array.from({ length: 10 }, (_, i) => 9 + i)];
    const inFirst = (i: number) => i < 10;
    const pieces = intervals({
      arcLength: s,
      curvature: s.map((at, i) => (inFirst(i) ? 1 + at : 100 - at)),
      nominal: 4,
      wall: {
        thickness: s.map((at, i) => (inFirst(i) ? 4 : 3 + at / 10)),
        taper: s.map((at, i) => (inFirst(i) ? at / 100 : 0.02)),
        netShare: s.map((at, i) => (inFirst(i) ? 0 : at / 50)),
        slotDepth: 1.5,
      },
    });
    expect(pieces.map(({ index }) => index)).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 11, 12, 13, 14, 15, 16, 17, 18,
    ]);
    for (const { index, from, to, curvatureAt, wallAt } of pieces) {
      expect([to, from]).toEqual([s[index], s[index + 1]]);
      const at = to + 0.3;
      near(curvatureAt(at), inFirst(index) ? 1 + at : 100 - at, 1e-11);
      const { thickness, taper = Number.NaN, slotted } = wallAt(at);
      near(thickness, inFirst(index) ? 4 : 3 + at / 10, 1e-11);
      near(taper, inFirst(index) ? at / 100 : 0.02, 1e-11);
      if (inFirst(index)) expect(slotted).toBeUndefined();
      else {
        near(slotted?.net ?? 0, 1.5 + at / 10, 1e-11);
        near(slotted?.share ?? 0, at / 50, 1e-11);
      }
    }
  });
});
