import fc from "fast-check";
import type { RingDesign } from "../src/index.js";

/**
 * The rings on which the tests are run: one set of arbitraries of sensible rings, and three invented orders.
 * Lengths in mm, forces in N, pressures in MPa.
 */

/** A spec in bare numbers, without its load. */
export interface UnloadedSpec {
  bore: number;
  closedGap: number;
  section: { radialThickness: number; axialHeight: number };
  material: { youngsModulus: number; poissonRatio: number };
  theory: "thin" | "curved";
}

export interface LoadedSpec extends UnloadedSpec {
  load: { tangentialForce: number };
}

/** Seed and number of runs of a property; the seed is fixed so that a failure today is a failure tomorrow. */
export const runs = (numRuns: number) => ({ numRuns, seed: 20250118 });

/** Numbers spread evenly over a range, ends included; fc.double would crowd them near zero. */
function even(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 10000 }).map((share) => min + ((max - min) * share) / 10000);
}

/** Numbers spread evenly over the magnitudes of a range. */
function evenMagnitude(min: number, max: number): fc.Arbitrary<number> {
  return even(Math.log(min), Math.log(max)).map((power) => Math.min(max, Math.max(min, Math.exp(power))));
}

/** K from a soft oil ring to far beyond what any ring material bears. */
export const sensibleK = evenMagnitude(0.002, 0.2);

/** A second K, for comparisons of two loads on one ring. */
export const growth = even(1.001, 2);

/** Rings without a load: bores of model engines to ships, walls of d/40 to d/16, gaps from none to 3 % of the bore. */
export const unloadedRing: fc.Arbitrary<UnloadedSpec> = fc
  .record({
    bore: evenMagnitude(20, 600),
    boreToWall: even(16, 40),
    gapShare: fc.oneof(
      { weight: 1, arbitrary: fc.constant(0) },
      { weight: 9, arbitrary: even(0.0005, 0.03) },
    ),
    heightToWall: even(0.3, 2),
    youngsModulus: even(60000, 220000),
    poissonRatio: even(0, 0.45),
    theory: fc.constantFrom("thin" as const, "curved" as const),
  })
  .map(({ bore, boreToWall, gapShare, heightToWall, youngsModulus, poissonRatio, theory }) => ({
    bore,
    closedGap: gapShare * bore,
    section: { radialThickness: bore / boreToWall, axialHeight: (heightToWall * bore) / boreToWall },
    material: { youngsModulus, poissonRatio },
    theory,
  }));

/** Ft that gives a ring the stiffness parameter K = Ft·r²/(E·I), I = h·a³/12, r = (d − a)/2. */
export function forceForK({ bore, section, material }: UnloadedSpec, K: number): number {
  const { radialThickness: a, axialHeight: h } = section;
  const r = (bore - a) / 2;
  return (K * material.youngsModulus * h * a ** 3) / 12 / r ** 2;
}

export function withK(ring: UnloadedSpec, K: number): LoadedSpec {
  return { ...ring, load: { tangentialForce: forceForK(ring, K) } };
}

/** A sensible ring with a sensible load. */
export const sensibleRing: fc.Arbitrary<LoadedSpec> = fc
  .tuple(unloadedRing, sensibleK)
  .map(([ring, K]) => withK(ring, K));

/** Corners of the sensible range, whichever way the random rings fall. */
export const EXTREME_RINGS: readonly (readonly [name: string, spec: LoadedSpec])[] = (
  [
    ["thinnest, softest, no gap", 40, 0, 0.002],
    ["thinnest, hardest, widest gap", 40, 0.03, 0.2],
    ["thickest, softest, widest gap", 16, 0.03, 0.002],
    ["thickest, hardest, no gap", 16, 0, 0.2],
    ["thickest, hardest, widest gap", 16, 0.03, 0.2],
  ] as const
).flatMap(([name, boreToWall, gapShare, K]) =>
  (["thin", "curved"] as const).map((theory) => {
    const bore = 100;
    const wall = bore / boreToWall;
    const ring: UnloadedSpec = {
      bore,
      closedGap: gapShare * bore,
      section: { radialThickness: wall, axialHeight: wall / 2 },
      material: { youngsModulus: 160000, poissonRatio: 0.3 },
      theory,
    };
    return [`${name}, ${theory}`, withK(ring, K)] as const;
  }),
);

/** A plain thin-theory ring for work by hand: r = 48.5 mm, no gap. */
export const PLAIN_100: UnloadedSpec = {
  bore: 100,
  closedGap: 0,
  section: { radialThickness: 3, axialHeight: 2 },
  material: { youngsModulus: 160000, poissonRatio: 0.3 },
  theory: "thin",
};

/** Orders as a workshop might send them. Invented data: no maker's and no engine's. */
export const DEMO_RINGS = {
  "ferry 118 mm": {
    bore: 118,
    closedGap: 0.45,
    section: { radialThickness: 4.4, axialHeight: 2 },
    material: { youngsModulus: 205000, poissonRatio: 0.3 },
    load: { contactPressure: 0.15 },
  },
  "motorcycle 54 mm": {
    bore: 54,
    closedGap: 0.2,
    section: { radialThickness: 2.2, axialHeight: 1 },
    material: { youngsModulus: 160000, poissonRatio: 0.28 },
    load: { contactPressure: 0.19 },
  },
  "gas engine 340 mm": {
    bore: 340,
    closedGap: 1.4,
    section: { radialThickness: 10.5, axialHeight: 6 },
    material: { youngsModulus: 115000, poissonRatio: 0.26 },
    load: { tangentialForce: 95 },
  },
} as const;

export const DEMO_NAMES = Object.keys(DEMO_RINGS) as (keyof typeof DEMO_RINGS)[];

/** Index of the back in the arrays of a design. */
export function backOf(design: RingDesign): number {
  return design.spec.stations;
}

/** |found − expected| as a share of |expected|. */
export function relativeError(found: number, expected: number): number {
  return Math.abs(found - expected) / Math.abs(expected);
}
