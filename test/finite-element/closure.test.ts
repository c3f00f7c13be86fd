import { afterAll, describe, expect, it } from "vitest";
import { designRing, type RingSpecInput } from "../../src/index.js";
import { judgeIsInstalled } from "./ccx.js";
import {
  expectFarOutside,
  expectWithin,
  ferry,
  iron,
  Judge,
  type Limits,
  ring,
  steel,
  stiff,
  WITHIN,
} from "./judge.js";

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

/** K up to 0.03 and walls up to r/12. */
const usual: [string, RingSpecInput, Limits][] = [
  ["ferry engine 118 mm", ferry, WITHIN],
  ["thin wall 54 mm", ring(54, 1.04, 0.3, iron, 0.0104), WITHIN],
  ["stiff 100 mm", stiff, WITHIN],
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

const installed = await judgeIsInstalled("Closure");
const judge = new Judge();

describe.skipIf(!installed)("closure by finite elements", () => {
  afterAll(() => judge.print());

  it.each(usual)("closes to the bore: %s", async (name, spec, limits) => {
    const design = designRing(spec);
    expect(design.stiffnessParameter).toBeLessThan(0.0301);
    expectWithin(name, await judge.close(name, design), limits);
  });

  it.each(beyond)("closes as far as stated: %s", async (name, spec, limits) => {
    expectWithin(name, await judge.close(name, designRing(spec)), limits);
  });

  it("finds the thin-bar theory out", async () => {
    const design = designRing({ ...ferry, theory: "thin" });
    expectFarOutside(await judge.close("ferry, thin theory", design), WITHIN);
  });

  it("finds a load out that is wrong by a thousandth", async () => {
    const design = designRing(ferry);
    const pressure = design.installed.pressure.map((p) => 1.001 * p);
    const overloaded = { ...design, installed: { ...design.installed, pressure } };
    expectFarOutside(await judge.close("ferry, 1.001 × load", overloaded), WITHIN);
  });
});
