import { describe, expect, test } from "vitest";
import {
  type Bar,
  mixedBar,
  offsetBar,
  rectangleBar,
  wallBar,
  wallFlexibility,
} from "../src/curvature/bar.js";
import { curvedLaw } from "../src/curvature/curved.js";
import { type BarLaw, lineFlexibility, ringBend, shortening } from "../src/curvature/law.js";
import { barsAlong, lawAt, stationLaws } from "../src/curvature/lawsAlong.js";
import { profileBar } from "../src/curvature/profileBar.js";
import { thinLaw } from "../src/curvature/thin.js";
import { halfStations } from "../src/forces/stations.js";
import { curvedSection } from "../src/section/curvedSection.js";
import type { Wall } from "../src/section/wall.js";
import { integral } from "./statics.js";

/** The bar's law piece by piece: against its definition by quadrature, and by hand. */

const E = 100000;
const h = 3;
const a = 4;
const r = 20;
const [moment, normal, kappa0] = [5000, -700, 1 / 18];

const near = (found: number, expected: number, relative = 1e-13) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

/**
 * Forces by the definition N = E∫ε dA, M = E∫ε·y dA, ε = (strain + turn·y)/(1 + κ₀·y), after the turn that the corrections
 * add about the section's own middle is taken off.
 */
function expectForces(
  bar: Bar,
  {
    from,
    to,
    width,
    middle,
    gain,
  }: { from: number; to: number; width: (y: number) => number; middle: number; gain: number },
): void {
  const turn = bar.turn(moment, normal, kappa0) / gain;
  const strain = bar.strain(moment, normal, kappa0) + middle * turn * (gain - 1);
  const stress = (y: number) => (E * width(y) * (strain + turn * y)) / (1 + kappa0 * y);
  // The force is a small difference of what the two sides of the section bear.
  near(integral(stress, from, to), normal, 1e-11);
  near(
    integral((y) => y * stress(y), from, to),
    moment,
    1e-12,
  );
}

describe("the bar of a rectangle", () => {
  test.each([0, 0.07])("bears M and N, with a taper of %s", (taper) => {
    // (a/r)² = 1/25, so the correction is 1/250.
    expectForces(rectangleBar(E, a, h, r, taper), {
      ...{ from: -2, to: 2, width: () => h, middle: 0, gain: 1.004 + taper },
    });
  });

  test("has no taper when none is given", () => {
    expect(rectangleBar(E, a, h, r).turn(moment, normal, kappa0)).toBe(
      rectangleBar(E, a, h, r, 0).turn(moment, normal, kappa0),
    );
  });

  test("bends by 12/(E·h·a³), and less the more it is curved", () => {
    const bar = rectangleBar(E, a, h, r, 0.01);
    near(bar.flexibility, 12 / (E * h * a ** 3));
    // Slope of the turn over M·κ₀; under N = −2κ₀·M the stretching part of the turn is level. Z₂ = I·(1 + 3x²/5 + 3x⁴/7 …) with
    // x = κ₀·a/2 makes it −6/5·(a/2)²/(E·I) for small curvature; at x = 0.001 the next term is below 1e-6 of it.
    const [small, step] = [0.0005, 1e-5];
    const at = (kappa: number) => bar.turn(moment, -2 * small * moment, kappa);
    const slope = (at(small + step) - at(small - step)) / (2 * step) / (moment * small);
    near(bar.stiffening, slope, 1e-4);
  });
});

describe("the bar of a wall", () => {
  const plain = wallBar(E, h, a, r, { thickness: a });

  test("of nominal thickness is the rectangle's own", () => {
    const own = rectangleBar(E, a, h, r);
    expect(plain.strain(moment, normal, kappa0)).toBe(own.strain(moment, normal, kappa0));
    expect(plain.turn(moment, normal, kappa0)).toBe(own.turn(moment, normal, kappa0));
  });

  test("that is thinner, or thicker, hangs from the outer face", () => {
    for (const thickness of [3, 5]) {
      expectForces(wallBar(E, h, a, r, { thickness, taper: 0.02 }), {
        ...{ from: 2 - thickness, to: 2, width: () => h, middle: (4 - thickness) / 2 },
        gain: 1 + (thickness / r) ** 2 / 10 + 0.02,
      });
    }
  });

  test("with slots is the mixture of wall and net section", () => {
    const slotted = wallBar(E, h, a, r, { thickness: a, slotted: { net: 2, share: 0.25 } });
    const net = wallBar(E, h, a, r, { thickness: 2 });
    for (const key of ["strain", "turn"] as const) {
      const [one, other] = [plain, net].map((bar) => bar[key](moment, normal, kappa0));
      near(slotted[key](moment, normal, kappa0), 0.75 * one + 0.25 * other);
    }
    // A net section of half the wall is 8 times as flexible: 1 + 7/4 in all; its stiffening, as flexibility times a², twice.
    near(slotted.flexibility, (2.75 * 12) / (E * h * a ** 3));
    near(slotted.stiffening, 0.75 * plain.stiffening + 0.25 * net.stiffening);
    near(wallFlexibility(E, h, { thickness: a, slotted: { net: 2, share: 0.25 } }), slotted.flexibility);
    near(wallFlexibility(E, h, { thickness: a }), plain.flexibility);
  });
});

describe("a bar seen from another line", () => {
  test("is itself when the line is its own", () => {
    const bar = rectangleBar(E, a, h, r);
    expect(offsetBar(bar, 0)).toBe(bar);
  });

  test("strains every fibre as before and is as flexible", () => {
    const own = rectangleBar(E, a, h, r);
    const seen = offsetBar(own, 0.7);
    expect([seen.flexibility, seen.stiffening]).toEqual([own.flexibility, own.stiffening]);
    // The centroid's radius is 18.7; N acts there.
    const [ownMoment, ownKappa] = [moment - 0.7 * normal, 1 / 18.7];
    for (const y of [-1, 0, 1.5]) {
      const inner = own.strain(ownMoment, normal, ownKappa) + own.turn(ownMoment, normal, ownKappa) * y;
      const outer = seen.strain(moment, normal, kappa0) + seen.turn(moment, normal, kappa0) * (y + 0.7);
      near(outer / (1 + kappa0 * (y + 0.7)), inner / (1 + ownKappa * y), 1e-11);
    }
  });
});

test("mixedBar goes from one bar to the other with the share", () => {
  const one: Bar = { strain: () => 1, turn: () => 2, flexibility: 3, stiffening: -4 };
  const other: Bar = { strain: () => 5, turn: () => 10, flexibility: 7, stiffening: -8 };
  const numbers = (bar: Bar) => [bar.strain(1, 1, 1), bar.turn(1, 1, 1), bar.flexibility, bar.stiffening];
  expect(numbers(mixedBar(one, other, 0))).toEqual([1, 2, 3, -4]);
  expect(numbers(mixedBar(one, other, 0.25))).toEqual([2, 4, 4, -5]);
  expect(numbers(mixedBar(one, other, 1))).toEqual([5, 10, 7, -8]);
});

/** A trapezoid of thickness 4, 1.2 high inside and 2.4 outside. */
const outline = [
  { x: 0.6, y: 0 },
  { x: 1.8, y: 0 },
  { x: 2.4, y: a },
  { x: 0, y: a },
];
const width = (y: number) => 1.8 + 0.3 * y;
// Handbook, trapezoid: A = 7.2, centroid a·(bi + 2bo)/(3·(bi + bo)) from the inner side, I = a³·(bi² + 4bi·bo + bo²)/(36·(bi + bo)).
const trapezoid = {
  area: 7.2,
  middle: (4 * 6) / (3 * 3.6) - 2,
  I: (64 * (1.44 + 11.52 + 5.76)) / (36 * 3.6),
};

test("the bar of a trapezoid bears M and N", () => {
  const { area, middle, I } = trapezoid;
  const bar = profileBar(E, curvedSection(a, 2.4, { outline }), r);
  const thickness2 = (12 * I) / area;
  const gain = 1 + thickness2 / r ** 2 / 10;
  expectForces(bar, { from: -2, to: 2, width, middle, gain });
  near(bar.flexibility, 1 / (E * I));
  // As the rectangle's, with the thickness of the rectangle that is as stiff for its area.
  near(bar.stiffening, rectangleBar(E, Math.sqrt(thickness2), area / Math.sqrt(thickness2), r).stiffening);
});

describe("the law", () => {
  test("of a thin bar is κ₀ = κ − M/(E·I), without stretch or shear", () => {
    const law = thinLaw(2e-6);
    expect(law.freeCurvature(5000, -700, 0.05, 1)).toBe(0.05 - 0.01);
    expect(law.turn(5000, -700, 1)).toBe(0.01);
    expect([law.flexibility, law.shearCompliance, law.stretch(5000, -700, 1)]).toEqual([2e-6, 0, 1]);
  });

  test("of a curved bar finds the κ₀ whose turn is λκ − κ₀, from any guess", () => {
    const bar = rectangleBar(E, a, h, r);
    const law = curvedLaw(bar, E * a * h);
    // G = E/2 with a shear factor 5/6: V/(G·5/6·A).
    near(law.shearCompliance, 1 / (E * 0.5 * (5 / 6) * a * h));
    expect(law.flexibility).toBe(bar.flexibility);
    for (const guess of [0, 1 / r, 0.1]) {
      for (const M of [-20000, 1, 5000, 40000]) {
        const free = law.freeCurvature(M, -M / r, 1 / r, guess);
        const lambda = law.stretch(M, -M / r, free);
        near(lambda, 1 + bar.strain(M, -M / r, free));
        // The step that is left is below 1e-11/r.
        expect(Math.abs(lambda / r - free - law.turn(M, -M / r, free))).toBeLessThan(1e-12 / r);
        expect(law.turn(M, -M / r, free)).toBe(bar.turn(M, -M / r, free));
      }
    }
  });

  test("of a curved bar is there in three steps at usual loads", () => {
    const { strain, turn, flexibility, stiffening } = rectangleBar(E, a, h, r);
    let calls = 0;
    const counted: Bar = {
      strain,
      turn: (...forces) => {
        calls++;
        return turn(...forces);
      },
      flexibility,
      stiffening,
    };
    // K = M·r·flexibility/2 = 0.06 here: the slope left over is (2K·a/r)² = 6e-4, so that 0.1/r·(6e-4)³ = 2e-11/r is left after three.
    const M = 0.12 / (r * flexibility);
    curvedLaw(counted, E * a * h).freeCurvature(M, -M / r, 1 / r, 0.88 / r);
    expect(calls).toBeLessThanOrEqual(5);
    expect(calls).toBeGreaterThan(1);
  });
});

describe("lawAt", () => {
  const material = { youngsModulus: E };
  const section = { radialThickness: a, axialHeight: h };
  const laws = (law: BarLaw) => [
    law.flexibility,
    law.shearCompliance,
    law.turn(moment, normal, kappa0),
    law.stretch(moment, normal, kappa0),
  ];
  const wall: Wall = { thickness: 3, slotted: { net: 2, share: 0.25 } };

  test("takes the wall's section", () => {
    const curved = lawAt({ theory: "curved", section, material }, r, wall);
    expect(laws(curved)).toEqual(laws(curvedLaw(wallBar(E, h, a, r, wall), E * 3 * h)));
    const thin = lawAt({ theory: "thin", section, material }, r, wall);
    expect(laws(thin)).toEqual(laws(thinLaw(wallFlexibility(E, h, wall))));
  });

  test("takes a section of any shape", () => {
    const profiled = { radialThickness: a, axialHeight: 2.4, outline };
    const bar = profileBar(E, curvedSection(a, 2.4, { outline }), r);
    const thin = lawAt({ theory: "thin", section: profiled, material }, r, { thickness: a });
    near(thin.flexibility, 1 / (E * trapezoid.I));
    expect(thin.shearCompliance).toBe(0);
    const curved = lawAt({ theory: "curved", section: profiled, material }, r, { thickness: a });
    near(curved.shearCompliance, 2.4 / (E * trapezoid.area));
    expect(curved.turn(moment, normal, kappa0)).toBe(bar.turn(moment, normal, kappa0));
    expect(curved.stretch(moment, normal, kappa0)).toBe(1 + bar.strain(moment, normal, kappa0));
  });

  test("is one and the same at all stations of a plain ring", () => {
    const all = stationLaws({ theory: "curved", section, material }, r, undefined, 5);
    expect(all.length).toBe(5);
    expect(new Set(all).size).toBe(1);
    near(all[0].flexibility, 12 / (E * h * a ** 3));
  });

  test("follows the wall station by station", () => {
    const thickness = [4, 3, 2];
    const along = { thickness, taper: [0, 0, 0], netShare: [0, 0, 0], slotDepth: 0 };
    const all = stationLaws({ theory: "thin", section, material }, r, along, 3);
    expect(all.length).toBe(3);
    for (const [i, at] of thickness.entries()) near(all[i].flexibility, 12 / (E * h * at ** 3));
  });
});

describe("a ring near its circle, where N = −M/r,", () => {
  test("bends as its line does in the thin theory", () => {
    const law = thinLaw(2e-6);
    near(ringBend(law, 0.04, r).turn, 2e-6);
    expect(ringBend(law, 0.04, r).strain).toBe(0);
    near(lineFlexibility(law, 0.04, r), 2e-6);
    expect(shortening(law, 0.04, r)).toBe(0);
  });

  test("bends and shortens as the law says for the moment that closes it", () => {
    const bar = wallBar(E, h, a, r, { thickness: 3 });
    const law = curvedLaw(bar, E * 3 * h);
    const M = 3000;
    const free = law.freeCurvature(M, -M / r, 1 / r, 1 / r);
    const { turn, strain } = ringBend(law, free, r);
    near(turn * M, law.turn(M, -M / r, free));
    // A strain of 1e-3 beside 1 has lost three digits.
    near(strain * M, law.stretch(M, -M / r, free) - 1, 1e-11);
    // λ/r − κ₀ = turn·M, so M = (1/r − κ₀)/(turn − strain/r).
    near(lineFlexibility(law, free, r) * M, 1 / r - free, 1e-9);
    near(shortening(law, free, r), r / law.stretch(M, -M / r, free) - r, 1e-8);
    expect(Math.abs(shortening(law, free, r))).toBeGreaterThan(1e-4);
  });
});

describe("barsAlong", () => {
  const ring = {
    theory: "curved",
    section: { radialThickness: a, axialHeight: h },
    material: { youngsModulus: E },
  } as const;
  const whole = { symmetric: false, plain: false, breaks: [] };

  test("of a plain ring has one wall and one law", () => {
    const stations = halfStations(3, 20);
    const bars = barsAlong(
      ring,
      r,
      { ...whole, symmetric: true, plain: true, at: () => ({ thickness: 4 }) },
      stations,
    );
    expect(bars.left).toBe(bars.right);
    expect(bars.right.walls).toEqual(new Array(21).fill({ thickness: 4 }));
    expect(bars.right.laws.length).toBe(21);
    expect(new Set(bars.right.laws).size).toBe(1);
    near(bars.right.laws[0].flexibility, 12 / (E * h * a ** 3));
    expect(bars.right.shearSlope).toBeUndefined();
  });

  test("of a wall that varies has its slopes, a·a″/10 + 3·a′²/5 and that of the shear", () => {
    // a(θ) = 4 + 0.1·θ − 0.03·θ²; differences of nine points are exact for it. Along the ring d/ds = d/dθ/r.
    const stations = halfStations(3, 20);
    const wallAt = (t: number) => 4 + 0.1 * t - 0.03 * t * t;
    const bars = barsAlong(ring, r, { ...whole, at: (t) => ({ thickness: wallAt(t) }) }, stations);
    expect(bars.left).not.toBe(bars.right);
    for (const [side, half] of [
      [1, bars.right],
      [-1, bars.left],
    ] as const) {
      const { walls, laws, shearSlope = [] } = half;
      expect(walls.length).toBe(21);
      expect(shearSlope.length).toBe(21);
      for (const [i, t] of stations.theta.entries()) {
        const thick = wallAt(side * t);
        const slope = (side * 0.1 - 0.06 * t) / r;
        near(walls[i].thickness, thick);
        const taper = (thick * -0.06) / r ** 2 / 10 + 0.6 * slope ** 2;
        // Two differences at steps of 0.15: rounding grows to some 1e-15·4/0.15²/r².
        expect(Math.abs((walls[i].taper ?? 0) - taper)).toBeLessThan(1e-13);
        expect(walls[i].slotted).toBeUndefined();
        near(laws[i].shearCompliance, 2.4 / (E * thick * h));
        // c = 2.4/(E·h·a), c′ = −c·a′/a; a fraction: what differences of nine points leave of it, as measured.
        const [compliance, ofSlope] = [2.4 / (E * thick * h), (slope * r) / thick];
        expect(Math.abs(shearSlope[i] / compliance + ofSlope)).toBeLessThan(1e-10);
      }
    }
  });

  test("over slots keeps each run to itself and one law to equal walls", () => {
    const stations = halfStations(3, 30, [1]);
    const [plain, slotted]: Wall[] = [{ thickness: 4 }, { thickness: 4, slotted: { net: 3, share: 0.2 } }];
    const bars = barsAlong(
      ring,
      r,
      {
        symmetric: true,
        plain: false,
        breaks: [1],
        at: (_, inside) => (inside > 0 && inside < 1 ? slotted : plain),
      },
      stations,
    );
    expect(bars.left).toBe(bars.right);
    const { walls, laws, shearSlope } = bars.right;
    const [first, second] = stations.runs;
    for (const i of stations.theta.keys()) {
      expect(walls[i]).toBe(i <= first.last ? slotted : plain);
      expect(laws[i]).toBe(i <= first.last ? laws[0] : laws[second.first]);
    }
    expect(laws[0].flexibility).toBeGreaterThan(1.2 * laws[second.first].flexibility);
    expect(shearSlope).toEqual(stations.theta.map(() => 0));
  });

  test("of a wall that varies over slots keeps both", () => {
    const stations = halfStations(3, 20);
    const at = (t: number): Wall => ({
      thickness: 4 + 0.1 * t * t,
      slotted: { net: 3 + 0.1 * t * t, share: 0.2 },
    });
    const { walls } = barsAlong(ring, r, { ...whole, at }, stations).right;
    for (const [i, t] of stations.theta.entries()) {
      expect(walls[i].slotted).toEqual(at(t).slotted);
      const taper = ((4 + 0.1 * t * t) * 0.2) / r ** 2 / 10 + 0.6 * ((0.2 * t) / r) ** 2;
      expect(Math.abs((walls[i].taper ?? 0) - taper)).toBeLessThan(1e-13);
    }
  });
});
