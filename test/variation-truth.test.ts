import { describe, expect, test } from "vitest";
import { OUTCOMES, type Outcome } from "../src/batch/variationSchema.js";
import {
  closeInBore,
  conformability,
  designRing,
  type RingSpecInput,
  type TolerancesInput,
  tapeTest,
  variation,
} from "../src/index.js";
import { DEMO_RINGS, relativeError } from "./rings.js";
import {
  bendForGap,
  type Change,
  just,
  type Outcomes,
  outcomesAt,
  ownOutcomes,
  ownRing,
} from "./varied-rings.js";

/** What a deviation does to a ring and its contact: against rings with that deviation built here, and against theory. */

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 48 };
const MOTORCYCLE: RingSpecInput = { ...DEMO_RINGS["motorcycle 54 mm"], stations: 48 };
const THIN: RingSpecInput = { ...FERRY, theory: "thin" };

/** Each by its own allowance: see where they are used. */
function expectAlike(found: Outcomes, own: Outcomes, force: number): void {
  expect(relativeError(found.tangentialForce, own.tangentialForce), "force").toBeLessThan(force);
  // Thin, so the line keeps its length: what is left is this file's interpolation by cubics, 4th differences of some 1e-8 of κ.
  expect(Math.abs(found.freeGap - own.freeGap), "free gap").toBeLessThan(1e-6);
  expect(Math.abs(found.closedGap - own.closedGap), "gap").toBeLessThan(1e-6);
  expect(Math.abs(found.contactShare - own.contactShare), "light").toBeLessThan(1e-6);
  // Bends of the interpolation: 1e-8 of κ is 1e-6 of a pressure, more between its stations; 1e-5 of 0.15 MPa.
  expect(Math.abs(found.lowestPressure - own.lowestPressure), "least").toBeLessThan(2e-6);
  expect(Math.abs(found.highestPressure - own.highestPressure), "most").toBeLessThan(2e-6);
  expect(relativeError(found.closingStress, own.closingStress), "stress").toBeLessThan(1e-6);
}

/** The force is small-opening theory's times what is exact for the drawing: off by some of the opening that is new. */
const CLOSE = 3e-4;

describe("a ring that differs from its drawing is one that is built so, thin:", () => {
  const wave = (order: number, amplitude: number, phase = 0) => ({
    tolerances: { bendRadius: [{ order, phase, tolerance: just(amplitude) }] },
    change: { wider: (theta: number) => amplitude * Math.cos(order * theta - phase) },
  });
  test.each<[what: string, TolerancesInput, Change, force?: number]>([
    ["not at all", { bore: just(0) }, {}, 1e-9],
    ["thicker", { radialThickness: just(0.03) }, { radialThickness: 0.03 }],
    ["thinner", { radialThickness: just(-0.03) }, { radialThickness: -0.03 }],
    ["lower", { axialHeight: just(-0.022) }, { axialHeight: -0.022 }, 1e-9],
    ["stiffer", { youngsModulus: just(5000) }, { youngsModulus: 5000 }, 1e-9],
    ["cut longer", { closedGap: just(-0.1) }, { closedGap: -0.1 }],
    ["cut shorter", { closedGap: just(0.1) }, { closedGap: 0.1 }],
    ["of a wider bend", wave(0, 0.05).tolerances, wave(0, 0.05).change, 5e-4],
    ["ovally bent", wave(2, 0.05, 0.7).tolerances, wave(2, 0.05, 0.7).change, 5e-4],
    ["bent in three waves", wave(3, -0.05).tolerances, wave(3, -0.05).change],
    [
      "in all of that",
      {
        radialThickness: just(-0.02),
        axialHeight: just(0.01),
        youngsModulus: just(-3000),
        closedGap: just(0.05),
        ...wave(3, 0.02, -0.4).tolerances,
      },
      {
        radialThickness: -0.02,
        axialHeight: 0.01,
        youngsModulus: -3000,
        closedGap: 0.05,
        ...wave(3, 0.02, -0.4).change,
      },
    ],
  ])("%s", (_, tolerances, change, force = CLOSE) => {
    expectAlike(outcomesAt(THIN, tolerances), ownOutcomes(ownRing(THIN, change)), force);
  });

  test("opened wider, in a wider bore with lobes", () => {
    const found = outcomesAt(THIN, {
      freeGap: just(0.4),
      bore: just(0.01),
      lobes: [{ order: 4, tolerance: just(0.003), phase: 0.5 }],
    });
    const ring = ownRing(THIN, { more: bendForGap(THIN, 0.4) });
    const own = ownOutcomes(ring, {
      diameter: 118.01,
      harmonics: [{ order: 4, amplitude: 0.003, phase: 0.5 }],
    });
    // The free gap moves by the deviation but for the opening's own curve: 0.4 of 10.7 mm, times K = 0.02, of 0.4 mm.
    const curve = (0.4 / 10.7) * 0.02;
    expect(Math.abs(found.freeGap - own.freeGap)).toBeLessThan(curve * 0.4);
    for (const name of ["tangentialForce", "lowestPressure", "highestPressure", "closingStress"] as const)
      expect(relativeError(found[name], own[name]), name).toBeLessThan(3 * curve);
    expect(Math.abs(found.closedGap - own.closedGap)).toBeLessThan(1e-5);
  });
});

describe("by theory,", () => {
  test.each([
    ["ferry", FERRY],
    ["motorcycle", MOTORCYCLE],
  ])("force and pressure are in proportion to modulus and height, pressure not to height: %s", (_, spec) => {
    const { section, material } = designRing(spec).spec;
    const drawn = outcomesAt(spec, { bore: just(0) });
    const stiffer = outcomesAt(spec, { youngsModulus: just(0.03 * material.youngsModulus) });
    const higher = outcomesAt(spec, { axialHeight: just(0.01 * section.axialHeight) });
    for (const name of ["tangentialForce", "lowestPressure", "highestPressure", "closingStress"] as const) {
      // Exact but for rounding, of pressures by the contact's solver: 1e-13 of 0.15 MPa, at its worst 1e-10.
      expect(relativeError(stiffer[name], 1.03 * drawn[name]), name).toBeLessThan(1e-9);
      const grows = name === "tangentialForce" ? 1.01 : 1;
      expect(relativeError(higher[name], grows * drawn[name]), name).toBeLessThan(1e-9);
    }
    for (const name of ["freeGap", "closedGap", "contactShare"] as const)
      expect(relativeError(stiffer[name], drawn[name]), name).toBeLessThan(1e-12);
  });

  test.each([
    ["ferry", FERRY],
    ["motorcycle", MOTORCYCLE],
  ])("force goes with the power of the wall that small openings have: %s", (_, spec) => {
    const { stiffnessParameter: K, spec: ring } = designRing(spec);
    const { radialThickness: a } = ring.section;
    const step = 0.001 * a;
    const at = (deviation: number) => outcomesAt(spec, { radialThickness: just(deviation) }).tangentialForce;
    const power = Math.log(at(step) / at(-step)) / Math.log((a + step) / (a - step));
    // F = (E·I/r)·∫(1 + cos θ)·(1/r − κ₀)dθ/∫(1 + cos θ)²dθ with I ~ a³, and κ₀ kept at each length from the back while r falls by half of what
    // a grows: 3 + (a/2r)·(3/2 + 2/(3·K)) without a gap (worked). Thick bars and gaps add a few parts in ten thousand.
    expect(relativeError(power, 3 + (a / (ring.bore - a)) * (1.5 + 2 / (3 * K)))).toBeLessThan(1e-3);
  });

  test.each([
    ["ferry", FERRY],
    ["motorcycle", MOTORCYCLE],
  ])("gaps move with the tolerance of each, and with the bore by π: %s", (_, spec) => {
    const drawn = outcomesAt(spec, { bore: just(0) });
    for (const deviation of [-0.1, 0.1]) {
      const cut = outcomesAt(spec, { closedGap: just(deviation) });
      expect(Math.abs(cut.closedGap - drawn.closedGap - deviation)).toBeLessThan(1e-10);
      // Beyond the old ends the wire is bent nearly as the bore, and turns by K·π: some thousandths of the deviation less.
      expect(relativeError(cut.freeGap - drawn.freeGap, deviation)).toBeLessThan(0.005);
      // Its opening's own curve: 0.1/6 · 0.02.
      const opened = outcomesAt(spec, { freeGap: just(deviation) });
      expect(relativeError(opened.freeGap - drawn.freeGap, deviation)).toBeLessThan(5e-4);
    }
    for (const deviation of [-0.004, 0.004]) {
      // The line's length stays: 2π·Δr. The ends stand out by w of 0.1 µm where the ring is not round in it.
      const { closedGap } = outcomesAt(spec, { bore: just(deviation) });
      expect(Math.abs(closedGap - drawn.closedGap - Math.PI * deviation)).toBeLessThan(2e-6);
    }
  });

  test("light comes in beyond the lobes that the ring follows", () => {
    const [, , { order, fullContact }] = conformability(designRing(FERRY)).limits;
    expect(order).toBe(4);
    const share = (times: number) =>
      outcomesAt(
        { ...FERRY, stations: 90 },
        { lobes: [{ order, tolerance: just(times * fullContact) }] },
        1e-5,
      ).contactShare;
    // Below the limit only by the ends, where it lifts early; beyond it in each of the valleys (K·r/(i² − 1)²; H. Müller's criterion).
    expect(share(0.97)).toBeGreaterThan(0.8);
    expect(share(1.3)).toBeLessThan(0.6);
    expect(share(2)).toBeLessThan(0.3);
  });
});

describe("a tiny uniform tolerance spreads an outcome by its slope:", () => {
  test.each<[keyof TolerancesInput, Change, Outcome[]]>([
    ["radialThickness", { radialThickness: 1e-3 }, ["tangentialForce", "freeGap", "closingStress"]],
    ["youngsModulus", { youngsModulus: 10 }, ["tangentialForce", "lowestPressure", "closingStress"]],
    ["axialHeight", { axialHeight: 1e-3 }, ["tangentialForce"]],
    ["closedGap", { closedGap: 1e-3 }, ["closedGap", "freeGap"]],
  ])("%s", (name, change, outcomes) => {
    const [step] = Object.values(change) as number[];
    const batch = variation(
      THIN,
      { [name]: { lower: -step, upper: step, distribution: "uniform" } },
      { samples: 16, seed: 4 },
    );
    const less = Object.fromEntries(Object.entries(change).map(([key, value]) => [key, -value]));
    const [up, down] = [ownOutcomes(ownRing(THIN, change)), ownOutcomes(ownRing(THIN, less))];
    for (const outcome of outcomes) {
      const { least, most, standardDeviation, sensitivity } = batch.outcomes[outcome];
      const width = Math.abs(up[outcome] - down[outcome]);
      // Of 32 points one lies in each sixteenth of the width, twice.
      expect((most - least) / width, outcome).toBeGreaterThan(14 / 16 - 0.01);
      expect((most - least) / width, outcome).toBeLessThan(1.005);
      // 16 strata twice: width/√12 to some 1 %, n/(n − 1) in it; a slope that bends over the width, 1e-3.
      expect(relativeError(standardDeviation, width / Math.sqrt(12)), outcome).toBeLessThan(0.05);
      // Nothing else varies.
      expect(Math.abs(sensitivity[name].total - 1), outcome).toBeLessThan(4 * sensitivity[name].totalError);
    }
  });
});

describe("rings of all kinds have the design's own figures for nominal, and a neighbour's near them:", () => {
  const section = DEMO_RINGS["ferry 118 mm"].section;
  const slots = { pitch: 8, depth: 0.9, width: 0.6, from: "-150 deg", to: "150 deg" };
  test.each<[string, Partial<RingSpecInput>]>([
    ["plain", {}],
    ["thin theory", { theory: "thin" }],
    ["preset material", { material: "EN-GJS-500-7" }],
    ["finely divided", { stations: 3000 }],
    ["slotted in part", { section: { ...section, slots } }],
    [
      "slotted deep on one side",
      { section: { ...section, slots: { count: 6, depth: 2.2, width: 0.5, from: 0.5, to: 2 } } },
    ],
    ["taper face", { section: { ...section, face: { shape: "taper", angle: "1 deg" } } }],
    ["wall as a function", { section: { ...section, wall: (theta) => 1 - 0.05 * Math.sin(theta / 2) ** 2 } }],
    ["unlike walls", { section: { ...section, wall: (theta) => 1 + 0.1 * Math.sin(theta / 2) } }],
    ["unlike halves", { pressure: { shape: "harmonics", cosine: [0.1], sine: [0.2] } }],
    ["more at the gap", { pressure: { shape: "moreAtGap", strength: 0.5 } }],
  ])("%s", (_, change) => {
    const spec: RingSpecInput = { ...FERRY, ...change };
    const design = designRing(spec);
    const found = outcomesAt(spec, { bore: just(0) });
    const { theta, pressure, closedGap, contactShare } = closeInBore(design);
    const along = pressure.filter((_, i) => Math.abs(theta[i]) < theta[theta.length - 1] - Math.PI / 18);
    // Lengths along the free ring by the trapezoid rule, of a stretch on closing of some 1e-5 to 1e-3 that moments from small openings make.
    expect(relativeError(found.tangentialForce, tapeTest(design).force)).toBeLessThan(1e-5);
    // The same: the gap feels up to 0.2 mm of that stretch, with deep slots.
    expect(Math.abs(found.freeGap - design.free.gap)).toBeLessThan(2e-5);
    expect(Math.abs(found.closedGap - closedGap)).toBeLessThan(1e-9);
    expect(found.contactShare).toBe(contactShare);
    expect(relativeError(found.lowestPressure, Math.min(...along))).toBeLessThan(1e-6);
    expect(relativeError(found.highestPressure, Math.max(...along))).toBeLessThan(1e-6);
    // Contact has its moments from differences, (step²/12)·M″ off with steps of 0.07; at slots straight between them, (step²/8)·M″.
    expect(relativeError(found.closingStress, design.stress.closing.max)).toBeLessThan(
      change.section?.slots ? 6e-4 : 1e-4,
    );
    if (spec.stations !== FERRY.stations) return;
    const batch = variation(
      spec,
      { radialThickness: 1e-4, axialHeight: 1e-3, closedGap: 1e-4 },
      { samples: 8 },
    );
    for (const name of OUTCOMES) {
      const { nominal, least, most } = batch.outcomes[name];
      // Changes of 1e-4 of the opening, 1e-3 of the height; a bend that jumps elsewhere than its slots do would double a pressure.
      for (const value of [least, most]) expect(Math.abs(value / nominal - 1), name).toBeLessThan(0.01);
    }
  });
});
