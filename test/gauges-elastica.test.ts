import { describe, expect, test } from "vitest";
import { designRing, diametralTest, ringOfCurvature, tapeTest } from "../src/index.js";
import { PLAIN_100, type UnloadedSpec, withK } from "./rings.js";

/**
 * The gauges on a ring that is round when free, against the first integral of its elastica, exact at any opening; and
 * their work against the energy of bending. Thin theory, no gap when closed, worked.
 *
 * With f = F/(E·I), κ = κ₀ + f·(y₀ − y), dy/ds = sin ψ and dψ/ds = κ: κ² − 2f·cos ψ is the same all along.
 * Between the plates κ = κ₀ at ψ = ±π/2, so κ² = κ₀² + 2f·cos ψ.
 * In the tape the lever arm at the end face, square to the line there, is −(a/2)·(1 + cos ψₑ).
 */

const BODY: UnloadedSpec = PLAIN_100;
const [a, r] = [3, 48.5];
const EI = (160000 * 2 * a ** 3) / 12;
/** A ring whose free radius is r/(1 − ε). */
const round = (epsilon: number) => {
  const { poissonRatio: _, ...material } = BODY.material;
  return ringOfCurvature({ ...BODY, material }, (1 - epsilon) / r);
};

/** Simpson's rule; 400 steps leave (π/400)⁴·f⁗/180, 1e-10 or so of these integrands. */
function integral(f: (at: number) => number, from: number, to: number, steps = 400): number {
  const step = (to - from) / steps;
  let sum = f(from) + f(to);
  for (let k = 1; k < steps; k++) sum += (k % 2 ? 4 : 2) * f(from + k * step);
  return (sum * step) / 3;
}

/** Width, gap and energy between plates that push with F. */
function betweenPlates(epsilon: number, force: number) {
  const k0 = (1 - epsilon) / r;
  const f = force / EI;
  const kappa = (psi: number) => Math.sqrt(k0 ** 2 + 2 * f * Math.cos(psi));
  const over = (g: (psi: number) => number) => integral((psi) => g(psi) / kappa(psi), 0, Math.PI / 2);
  const half = over(Math.cos);
  // From the plate to the end an arc of the free ring, upright where it begins.
  const rest = (Math.PI * r - over(() => 1)) * k0;
  return {
    width: 2 * half + a,
    gap: 2 * (half - (1 - Math.cos(rest)) / k0),
    energy: EI * over((psi) => (kappa(psi) - k0) ** 2),
  };
}

/**
 * Gap and energy in a tape that pulls with T. With each face turned by τ the outer corners are a·sin τ further apart than
 * the ends at mid wall, the outer face is a·τ shorter: the tape comes out by the gap less a·(τ − sin τ).
 */
function inTape(epsilon: number, pull: number) {
  const k0 = (1 - epsilon) / r;
  const t = pull / EI;
  const shape = (end: number) => {
    const atEnd = k0 - (t * a * (1 + Math.cos(end))) / 2;
    const kappa = (psi: number) => Math.sqrt(atEnd ** 2 + 2 * t * (Math.cos(psi) - Math.cos(end)));
    const over = (g: (psi: number) => number) => integral((psi) => g(psi) / kappa(psi), 0, end);
    return { over, kappa };
  };
  // The tangent at the end for which the half ring is π·r long, by halving.
  let [low, high] = [2, 3.5];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (shape(middle).over(() => 1) > Math.PI * r) high = middle;
    else low = middle;
  }
  const { over, kappa } = shape(low);
  const turn = Math.PI - low;
  return {
    gap: 2 * over(Math.cos),
    energy: EI * over((psi) => (kappa(psi) - k0) ** 2),
    extra: a * (turn - Math.sin(turn)),
  };
}

/** Force of a small opening ε: E·I·ε/r². */
const scale = (epsilon: number) => (EI * epsilon) / r ** 2;

describe("a ring that is round when free", () => {
  test.each([0.002, 0.05, 0.2])("reads what the first integral of its elastica says, ε = %d", (epsilon) => {
    const ring = round(epsilon);
    for (const share of [0.1, 0.4, 0.6]) {
      const pull = share * scale(epsilon);
      const { gap } = inTape(epsilon, pull);
      // Solved to 1e-9 of R at worst, against an opening of some ε·R; Simpson's rule as above.
      expect(Math.abs(tapeTest(ring, { gap }).force / pull - 1)).toBeLessThan(1e-8 / epsilon);
      const push = 2 * pull;
      const { width, gap: gapBetween } = betweenPlates(epsilon, push);
      const byWidth = diametralTest(ring, { width });
      expect(Math.abs(byWidth.force / push - 1)).toBeLessThan(1e-8 / epsilon);
      expect(Math.abs(byWidth.gap - gapBetween)).toBeLessThan(1e-7);
      const byGap = diametralTest(ring, { gap: gapBetween });
      expect(Math.abs(byGap.force / push - 1)).toBeLessThan(1e-8 / epsilon);
      expect(Math.abs(byGap.width - width)).toBeLessThan(1e-7);
    }
    const k0 = (1 - epsilon) / r;
    expect(Math.abs(tapeTest(ring).freeGap - (2 * Math.sin(Math.PI * epsilon)) / k0)).toBeLessThan(1e-9 * r);
  });

  test("reads ⅔, 4/π and 4π/(4 + π) times E·I·ε/r², ovality ε·r·π/3, as ε goes to nil", () => {
    // Free gap 2π·ε·r and width 2ε·r over the bore; divided by 3π, by π/2 and by 2 + π/2 (test/gauges.test.ts). In the
    // tape Δκ·r = ε·(⅔·cos θ − ⅓), w″ + w = −r²·Δκ, w = ε·r·(⅓ − ⅓·θ·sin θ): 2·w(0) or w(0) + w(π), less 2·w(π/2).
    const expected = [2 / 3, 4 / Math.PI, (4 * Math.PI) / (4 + Math.PI), Math.PI / 3];
    const errors = [0.008, 0.004, 0.002].map((epsilon) => {
      const ring = round(epsilon);
      const { force, ovality } = tapeTest(ring);
      const forces = [force, diametralTest(ring).force, diametralTest(ring, { gap: 0 }).force];
      return [...forces.map((f) => f / scale(epsilon)), ovality / (epsilon * r)].map(
        (v, k) => v - expected[k],
      );
    });
    for (const k of expected.keys()) {
      const [first, second, third] = errors.map((row) => row[k]);
      // Richardson's limit leaves ε³, some 0.002·0.004·0.008, times numbers of the order of 10.
      expect(Math.abs((8 * third - 6 * second + first) / 3)).toBeLessThan(1e-6);
      // Of the order of ε: half of it at half the opening.
      expect(Math.abs((first - second) / (second - third) - 2)).toBeLessThan(0.05);
    }
  });

  test("takes up the plates' work, and the tape's, as energy of bending", () => {
    const epsilon = 0.1;
    const ring = round(epsilon);
    const push = 1.2 * scale(epsilon);
    const [closed, free] = [betweenPlates(epsilon, push), betweenPlates(epsilon, 0)];
    const work = integral((width) => diametralTest(ring, { width }).force, closed.width, free.width, 8);
    // Forces are nearly straight over the width: eight steps of Simpson's rule leave 2e-7, and
    // sixteen a sixteenth of it.
    expect(Math.abs(work / closed.energy - 1)).toBeLessThan(1e-6);
    const most = 0.6 * scale(epsilon);
    const tape = inTape(epsilon, most);
    const pulled = integral((gap) => tapeTest(ring, { gap }).force, tape.gap, inTape(epsilon, 0).gap, 8);
    // ∫T·d(extra), by parts.
    const extra = most * tape.extra - integral((pull) => inTape(epsilon, pull).extra, 0, most, 8);
    expect(Math.abs((pulled + extra) / tape.energy - 1)).toBeLessThan(1e-6);
    // It would show if the tape's work were counted at mid wall.
    expect(Math.abs(extra / tape.energy)).toBeGreaterThan(1e-5);
  });
});

describe("both gauges on a designed ring", () => {
  test("obey Maxwell: the plates open the gap per N as much as the tape's pull changes the width", () => {
    // About the free ring: τ = π·K there, and a push of the plates turns each face by r²/(E·I) and moves the gap by
    // (2 + π/2)·r³/(E·I). So the tape comes out by a share (a/r)·(1 − cos πK)/(2 + π/2) less than the gap closes.
    for (const K of [0.02, 0.05, 0.1]) {
      const design = designRing(withK(BODY, K));
      const { gap } = design.free;
      const free = tapeTest(design, { gap });
      const differ = (share: number) => {
        const held = tapeTest(design, { gap: (1 - share) * gap });
        const pressed = diametralTest(design, { gap: (1 - share) * gap });
        const byTape = (free.diameterAcross - held.diameterAcross) / held.force;
        return byTape / ((share * gap) / pressed.force) - 1;
      };
      const [first, second, third] = [0.04, 0.02, 0.01].map(differ);
      const limit = (8 * third - 6 * second + first) / 3;
      const expected = (-(a / r) * (1 - Math.cos(Math.PI * K))) / (2 + Math.PI / 2);
      // Both by the theory of small openings, so good to a share of the order of K; the faces of the outer diameter
      // between stations, arcs of a degree, leave some 1e-7.
      expect(Math.abs(limit - expected)).toBeLessThan(2 * K * Math.abs(expected) + 1e-6);
    }
  });

  test("pushes the harder the narrower, and not at all at its free width", () => {
    const design = designRing(withK(BODY, 0.04));
    const free = tapeTest(design, { gap: design.free.gap }).diameterAcross;
    const force = [1, 0.9, 0.5, 0.2, 0].map((share) => {
      const wanted = 100 + share * (free - 100);
      const { force, width } = diametralTest(design, { width: wanted });
      expect(Math.abs(width - wanted)).toBeLessThan(1e-7);
      return force / design.load.tangentialForce;
    });
    // Solved to 1e-9 of R, over the opening; the free width between stations, by arcs, to about as much.
    expect(Math.abs(force[0])).toBeLessThan(1e-7);
    for (let k = 1; k < force.length; k++) expect(force[k]).toBeGreaterThan(force[k - 1]);
  });
});
