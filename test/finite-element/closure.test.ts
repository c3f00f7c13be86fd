import { afterAll, describe, expect, it } from "vitest";
import { designRing, type RingDesign, type RingSpecInput } from "../../src/index.js";
import { judgeIsInstalled } from "./ccx.js";
import { closeByFiniteElements } from "./closure.js";

/**
 * Closure judged by a general-purpose finite-element program that knows nothing of rings: see `deck.ts`.
 *
 * How far to trust the last tenth of a micrometre: judge and theory differ in two choices of model of like size and
 * opposite sign, so that part of the agreement below is luck.
 * - The program's linear material is linear in Green's strain, the bar's in engineering strain. That closes the
 *   finite-element ring too far, by some K·(a/r)²·3/4 of the opening. At K = 0.04, a/r = 1/15: radius −0.5 µm per
 *   100 mm, of which −0.4 µm go when the bar is given the program's material.
 * - The program's pressure acts on the height as it is, which Poisson's ratio lessens where the outer face is
 *   stretched; the design's acts on the height ordered. That leaves the ring too open, by some ν·K·(a/r)·2/7 of the
 *   opening. The same ring with ν = 0.3: radius +0.7 µm per 100 mm.
 * Neither is an error of the design; a ring's metal and its pressure are not known that well.
 */

/** Radius and out-of-round in µm per 100 mm of bore, gap as a share of the opening; all without sign. */
type Limits = { radius: number; outOfRound: number; gap: number };

const WITHIN: Limits = { radius: 0.1, outOfRound: 0.2, gap: 5e-5 };

const steel = { youngsModulus: 205000, poissonRatio: 0.3 };
const iron = { youngsModulus: 105000, poissonRatio: 0.3 };

function ring(
  bore: number,
  radialThickness: number,
  closedGap: number,
  material: { youngsModulus: number; poissonRatio: number },
  contactPressure: number,
): RingSpecInput {
  const section = { radialThickness, axialHeight: 2 };
  return { bore, closedGap, section, material, load: { contactPressure }, stations: 2000 };
}

const ferry = ring(118, 4.4, 0.45, steel, 0.15);

/** K up to 0.03 and walls up to r/12. */
const usual: [string, RingSpecInput, Limits][] = [
  ["ferry engine 118 mm", ferry, WITHIN],
  ["thin wall 54 mm", ring(54, 1.04, 0.3, iron, 0.0104), WITHIN],
  ["stiff 100 mm", ring(100, 4, 0.4, steel, 0.285), WITHIN],
  ["gas engine 340 mm", ring(340, 12, 1.2, iron, 0.0827), WITHIN],
];

/**
 * Rings outside the limits, each held to what it reaches, with about a tenth to spare. Thick walls: the law is exact
 * to order (a/r)⁴ only. Large openings, and the far-opened thin wall: the two choices of model above; a thin wall
 * has more of the second than of the first, and both leave an error of radius that grows with K².
 */
const beyond: [string, RingSpecInput, Limits][] = [
  [
    "far-opened thin 54 mm",
    ring(54, 1.04, 0.3, iron, 0.0156),
    { radius: 0.15, outOfRound: 0.19, gap: 7.5e-5 },
  ],
  ["wall r/8", ring(54, 3.2, 0.3, iron, 0.494), { radius: 0.42, outOfRound: 0.12, gap: 1.05e-4 }],
  ["wall r/4", ring(54, 6.1, 0.3, iron, 2.56), { radius: 2.15, outOfRound: 0.87, gap: 1.15e-3 }],
  ["large opening 80 mm", ring(80, 3, 0.3, steel, 0.778), { radius: 1.05, outOfRound: 1.95, gap: 2.2e-4 }],
];

const table: string[] = [];

async function judge(name: string, design: RingDesign): Promise<Limits> {
  const { spec, installed, load, stiffnessParameter: K } = design;
  const { meanRadiusError, outOfRound, closedGap } = await closeByFiniteElements(design);
  const perBore = 1e5 / spec.bore;
  const gap = (closedGap - spec.closedGap) / (load.freeGap - spec.closedGap);
  const rOverA = installed.centroidRadius / spec.section.radialThickness;
  table.push(
    [
      name.padEnd(22),
      `K ${K.toFixed(4)}`,
      `a/r 1/${rOverA.toFixed(1).padEnd(4)}`,
      `radius ${(1e3 * meanRadiusError).toFixed(3).padStart(6)} µm`,
      `out-of-round ${(1e3 * outOfRound).toFixed(3)} µm`,
      `gap ${gap.toExponential(1).padStart(8)}`,
      `per 100 mm: ${(perBore * meanRadiusError).toFixed(3).padStart(6)}, ${(perBore * outOfRound).toFixed(3)} µm`,
    ].join("  "),
  );
  return {
    radius: Math.abs(perBore * meanRadiusError),
    outOfRound: perBore * outOfRound,
    gap: Math.abs(gap),
  };
}

function expectWithin(measured: Limits, limits: Limits): void {
  expect(measured.radius).toBeLessThanOrEqual(limits.radius);
  expect(measured.outOfRound).toBeLessThanOrEqual(limits.outOfRound);
  expect(measured.gap).toBeLessThanOrEqual(limits.gap);
}

const installed = await judgeIsInstalled("Closure");

describe.skipIf(!installed)("closure by finite elements", () => {
  afterAll(() => console.log(table.join("\n")));

  it.each(usual)("closes to the bore: %s", async (name, spec, limits) => {
    const design = designRing(spec);
    expect(design.stiffnessParameter).toBeLessThan(0.0301);
    expectWithin(await judge(name, design), limits);
  });

  it.each(beyond)("closes as far as stated: %s", async (name, spec, limits) => {
    expectWithin(await judge(name, designRing(spec)), limits);
  });

  it("finds the thin-bar theory out", async () => {
    const measured = await judge("ferry, thin theory", designRing({ ...ferry, theory: "thin" }));
    for (const key of ["radius", "outOfRound", "gap"] as const) {
      expect(measured[key]).toBeGreaterThan(2 * WITHIN[key]);
    }
  });

  it("finds a load out that is wrong by a thousandth", async () => {
    const design = designRing(ferry);
    const pressure = design.installed.pressure.map((p) => 1.001 * p);
    const overloaded = { ...design, installed: { ...design.installed, pressure } };
    const measured = await judge("ferry, 1.001 × load", overloaded);
    for (const key of ["radius", "outOfRound", "gap"] as const) {
      expect(measured[key]).toBeGreaterThan(2 * WITHIN[key]);
    }
  });
});
