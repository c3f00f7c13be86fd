import { describe, expect, test } from "vitest";
import {
  designRing,
  diametralTest,
  endsInBand,
  type RingDesign,
  type RingSpecInput,
  tapeTest,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, PLAIN_100, type UnloadedSpec, withK } from "./rings.js";

/**
 * What the tape and the diametral gauge read: limits for K → 0 by hand, what is exact at any K.
 *
 * By hand (worked): one section, no gap, M = Ft·r·(1 + cos θ), and unit loads (Castigliano). Unit pulls at the ends bend by
 * r·(1 + cos θ), unit pushes of the plates by r·cos θ for |θ| < π/2 and not beyond. So, in r³/(E·I) per N:
 * the ends' pull changes the gap by ∫(1 + cos θ)² = 3π and the width by ∫cos θ·(1 + cos θ) = 2 + π/2; the plates' push
 * changes the gap by the same 2 + π/2 and the width by ∫cos² θ = π/2.
 * Back to the bore's width: Fd·π/2 = Ft·(2 + π/2), Fd/Ft = (4 + π)/π. Back to the gap: Fd·(2 + π/2) = 3π·Ft.
 */
const BY_WIDTH = (4 + Math.PI) / Math.PI;
const BY_GAP = (3 * Math.PI) / (2 + Math.PI / 2);

const PLAIN: UnloadedSpec = PLAIN_100;
const r = 48.5;
const FERRY = DEMO_RINGS["ferry 118 mm"];
const wall = (theta: number) => 1 - 0.08 * Math.cos(theta) + 0.06 * Math.sin(2 * theta);
const slots = { count: 25, depth: 1.3, width: 0.7 };

/** Of errors a + b·K + c·K² + … at K = 0.02, 0.01 and 0.005: a by Richardson, and the slope at the last two. */
function towardsNil(error: (K: number) => number): { limit: number; slope: number; order: number } {
  const [first, second, third] = [0.02, 0.01, 0.005].map(error);
  return {
    limit: (8 * third - 6 * second + first) / 3,
    slope: (second - third) / 0.005,
    order: Math.log2((first - second) / (second - third)),
  };
}

describe("a tape", () => {
  test.each([
    ["thin", "an even wall", PLAIN.section],
    ["thin", "an uneven wall", { ...PLAIN.section, wall }],
    ["thin", "slots", { ...PLAIN.section, slots }],
    ["curved", "an even wall", PLAIN.section],
    ["curved", "an uneven wall", { ...PLAIN.section, wall }],
    ["curved", "slots", { ...PLAIN.section, slots }],
  ] as const)(
    "reads exactly Ft and no ovality of a uniform pressure without a gap at any K, %s, %s",
    (theory, _, section) => {
      // Such a tape presses uniformly itself, with T/(h·R): the closed ring is its equilibrium.
      for (const K of [0.002, 0.03, 0.2]) {
        const design = designRing({ ...withK({ ...PLAIN, theory }, K), section });
        const { force, ovality, diameterAcross } = tapeTest(design);
        // Measured 1e-12: a Newton step that ends at 1e-12 of R, and 3π·K = 0.02 of it for the opening of the softest.
        expect(Math.abs(force / design.load.tangentialForce - 1)).toBeLessThan(1e-10);
        expect(Math.abs(ovality)).toBeLessThan(1e-10 * 100);
        expect(Math.abs(diameterAcross - 100)).toBeLessThan(1e-10 * 100);
      }
    },
  );

  test("reads a free gap of 3π·K·r for small K", () => {
    // Next term: m/r = 3π·K + (5π/2)·K² (from m/r = 2π·J(1−K, K), worked), a share (5/6)·K.
    const { limit, slope } = towardsNil(
      (K) => tapeTest(designRing(withK(PLAIN, K))).freeGap / (3 * Math.PI * K * r) - 1,
    );
    // K³ is left: 0.02·0.01·0.005 times 10.9/(3π).
    expect(Math.abs(limit)).toBeLessThan(1e-5);
    // Between 0.005 and 0.01, so off by 0.015 times that 1.16.
    expect(Math.abs(slope - 5 / 6)).toBeLessThan(0.02);
  });

  test.each([
    // K·r·{π·S/3 + Σ ci·[1 + (−1)ⁱ − 2·cos(iπ/2)]/(i² − 1)²}, S = Σ ci·(−1)ⁱ/(i² − 1): derived in test/tape.test.ts.
    [[0.3], 0.3 * (Math.PI / 9 + 4 / 9)],
    [[0, 0.3], (-0.3 * Math.PI) / 24],
    [[-0.2, 0, 0.1], -0.2 * (Math.PI / 9 + 4 / 9) + (0.1 * Math.PI) / 45],
  ])("reads the closed form's ovality of harmonics %j as K goes to nil", (cosine, expected) => {
    const { limit, order, slope } = towardsNil((K) => {
      const pressure = { shape: "harmonics", cosine } as const;
      return tapeTest(designRing({ ...withK(PLAIN, K), pressure })).ovality / (K * r) - expected;
    });
    // Of the order of K, so that halving K halves what is left; K³ remains.
    expect(Math.abs(limit)).toBeLessThan(1e-5);
    expect(Math.abs(order - 1)).toBeLessThan(0.05);
    expect(Math.abs(slope)).toBeGreaterThan(0.01);
  });

  test("reads 1 − s/(2π·d) of Ft with a gap s, for small gap and K", () => {
    // Worked. The pressure ends at π − δ, δ = s/d, and is balanced by −(2δ/π)·cos θ:
    // M = Ft·r·[1 + cos θ − (δ/π)·θ·sin θ]. In the tape M = T·r·(1 + cos θ), to δ². The gap stays:
    // T·3π/2 = Ft·[3π/2 − (δ/π)·∫₀^π θ·sin θ·(1 + cos θ) dθ] = Ft·[3π/2 − (δ/π)·3π/4].
    for (const share of [0.005, 0.01, 0.02]) {
      const closedGap = share * 100;
      const { limit } = towardsNil((K) => {
        const design = designRing(withK({ ...PLAIN, closedGap }, K));
        return tapeTest(design).force / design.load.tangentialForce - 1;
      });
      // δ² is left, times a number below 1: 0.07 here.
      expect(Math.abs(limit + share / (2 * Math.PI))).toBeLessThan(0.2 * share ** 2);
    }
  });

  test.each(DEMO_NAMES)("pulls the less, the wider %s is open, and not at the free gap", (name) => {
    const design = designRing(DEMO_RINGS[name]);
    const { freeGap } = tapeTest(design);
    const force = [0, 0.2, 0.5, 0.8, 0.99, 1].map(
      (share) => tapeTest(design, { gap: share * freeGap }).force / design.load.tangentialForce,
    );
    for (let k = 1; k < force.length; k++) expect(force[k]).toBeLessThan(force[k - 1]);
    // The solution's 1e-9 of R, over the opening.
    expect(Math.abs(force[5])).toBeLessThan((1e-9 * design.spec.bore) / freeGap);
    expect(Math.abs(freeGap - design.free.gap)).toBeLessThan(1e-10 * design.spec.bore);
  });

  test("pulls as endsInBand does at part closure, and goes on below the closed gap", () => {
    for (const extra of [{}, { wall }, { slots: { ...slots, from: 0.4, to: 2.4 } }]) {
      const design = designRing({ ...FERRY, section: { ...FERRY.section, ...extra } });
      // The same equilibrium from other first guesses; both end at 1e-12 of R.
      for (const gap of [FERRY.closedGap, 3, 8])
        expect(Math.abs(tapeTest(design, { gap }).force - endsInBand(design, gap).pull)).toBeLessThan(1e-9);
      // Nearly straight: as much per mm as above it, to the order of K.
      const [tight, closed, wide] = [0, 0.45, 0.9].map((gap) => tapeTest(design, { gap }).force);
      expect(Math.abs((tight - closed) / (closed - wide) - 1)).toBeLessThan(design.stiffnessParameter);
    }
  });
});

/** Force on the plates over Ft. */
const diametral = (design: RingDesign, byGap: boolean) =>
  diametralTest(design, byGap ? { gap: design.spec.closedGap } : {}).force / design.load.tangentialForce;

describe("a diametral gauge", () => {
  test.each([
    ["(4 + π)/π of Ft back to the width of the bore", false, BY_WIDTH],
    ["6π/(4 + π) of Ft back to the gap", true, BY_GAP],
  ])("reads %s, as K goes to nil", (_, byGap, expected) => {
    for (const theory of ["thin", "curved"] as const) {
      const { limit, order, slope } = towardsNil(
        (K) => diametral(designRing(withK({ ...PLAIN, theory }, K)), byGap) - expected,
      );
      // K³ is left of a thin ring's; of a curved bar's also shear and its own curvature, which count (a/r)².
      expect(Math.abs(limit)).toBeLessThan(1e-5 + (theory === "curved" ? (3 / r) ** 2 : 0));
      if (theory === "curved") expect(Math.abs(limit)).toBeGreaterThan(1e-4);
      expect(Math.abs(order - 1)).toBeLessThan(0.05);
      // Measured −0.90 and −0.19.
      expect(slope).toBeLessThan(-0.1);
    }
  });

  const pressure = (cosine: number[], sine: number[]) =>
    ({ pressure: { shape: "harmonics", cosine, sine } }) as const;
  const section = (extra: object) => ({ section: { ...FERRY.section, ...extra } });
  test.each<[string, Partial<RingSpecInput>, Partial<RingSpecInput>]>([
    ["unlike pressures", pressure([0.1], [0.2, 0, -0.1]), pressure([0.1], [-0.2, 0, 0.1])],
    ["an uneven wall", section({ wall }), section({ wall: (theta: number) => wall(-theta) })],
    [
      "slots on one side",
      section({ slots: { ...slots, from: 0.4, to: 2.4 } }),
      section({ slots: { ...slots, from: -2.4, to: -0.4 } }),
    ],
    ["slots on both sides", section({ slots }), {}],
  ])(
    "reads about 2.2 times the tape's pull of a ring with %s, and the same of its mirror image",
    (_, change, mirrored) => {
      const [design, image] = [designRing({ ...FERRY, ...change }), designRing({ ...FERRY, ...mirrored })];
      const [pull, push] = [tapeTest(design), diametralTest(design)];
      expect(design.stiffnessParameter).toBeLessThan(0.05);
      // (4 + π)/π less 0.9·K for a plain wall; these walls and pressures weigh sides against back by some percent.
      expect(push.force / pull.force).toBeGreaterThan(2.1);
      expect(push.force / pull.force).toBeLessThan(2.35);
      if (Object.keys(mirrored).length === 0) return;
      // Both are solved to 1e-9 of R.
      const [pullOfImage, pushOfImage] = [tapeTest(image), diametralTest(image)];
      expect(Math.abs(pullOfImage.force / pull.force - 1)).toBeLessThan(1e-8);
      expect(Math.abs(pullOfImage.ovality - pull.ovality)).toBeLessThan(1e-6);
      expect(Math.abs(pushOfImage.force / push.force - 1)).toBeLessThan(1e-8);
      expect(Math.abs(pushOfImage.gap - push.gap)).toBeLessThan(1e-6);
    },
  );
});
