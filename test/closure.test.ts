import { test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type ClosureProof, designRing, proveClosure, type RingDesign } from "../src/index.js";
import type { RingSpecInput } from "../src/spec/schema.js";
import { DEMO_NAMES, DEMO_RINGS, EXTREME_RINGS, runs, sensibleRing } from "./rings.js";

/**
 * The forward computation must take every designed ring back to the circle, the gap and parallel faces; and must
 * say so when the ring is wrong.
 */

interface Tolerance {
  /** Of radius, roundness and gap, as a share of the bore. */
  length: number;
  /** Of the faces' parallelism, radians. */
  angle: number;
  /** Of the force left over, relative to p₀·h·R. */
  force: number;
}

function expectClosed(proof: ClosureProof, { spec }: RingDesign, { length, angle, force }: Tolerance): void {
  expect(Math.abs(proof.meanRadiusError)).toBeLessThan(length * spec.bore);
  expect(proof.radialError).toBeLessThan(length * spec.bore);
  expect(proof.outOfRound).toBeLessThan(length * spec.bore);
  expect(Math.abs(proof.closedGap - spec.closedGap)).toBeLessThan(length * spec.bore);
  expect(Math.abs(proof.facesOutOfParallel)).toBeLessThan(angle);
  expect(proof.forceResidual).toBeLessThan(force);
}

// Rounding and the integrator's 1e-13 a step would give some 1e-13. With a wide gap the proof's own model of the
// overhanging corner (one pressure, half-way along it) sets the floor: the overhang is a/2·s/(2r) long, at most
// 0.1 % of the radius here, and the pressure over it varies by e·sin θ·Δθ, in all some 1e-11 of p₀·h·R.
const WIDE_GAP: Tolerance = { length: 1e-11, angle: 1e-11, force: 1e-10 };
// With a gap of up to 0.5 % of the bore only rounding and the integrator remain.
const USUAL_GAP: Tolerance = { length: 2e-13, angle: 2e-13, force: 2e-13 };
// At 16 stations a step is 11°; the eighth-order tables are then good to some 1e-9.
const COARSE: Tolerance = { length: 5e-9, angle: 1e-8, force: 1e-8 };

const toleranceFor = ({ spec }: RingDesign) => (spec.closedGap <= 0.005 * spec.bore ? USUAL_GAP : WIDE_GAP);

function close(spec: RingSpecInput): [ClosureProof, RingDesign] {
  const design = designRing(spec);
  return [proveClosure(design), design];
}

describe("proveClosure returns the circle, the gap and parallel end faces", () => {
  test.each([...DEMO_NAMES.map((name) => [name, DEMO_RINGS[name]] as const), ...EXTREME_RINGS])(
    "for %s",
    (_name, spec) => {
      const [proof, design] = close(spec);
      expectClosed(proof, design, toleranceFor(design));
    },
  );

  property.prop([sensibleRing], runs(60))("for any sensible ring", (spec) => {
    const [proof, design] = close(spec);
    expectClosed(proof, design, toleranceFor(design));
  });

  property.prop([sensibleRing], runs(40))("with 16 stations only, less closely", (spec) => {
    const [proof, design] = close({ ...spec, stations: 16 });
    expectClosed(proof, design, COARSE);
  });
});

test("designRing adds the same proof when asked, and none when not", () => {
  const spec = DEMO_RINGS["ferry 118 mm"];
  const design = designRing(spec);
  expect(design.proof).toBeUndefined();
  expect(designRing(spec, { proof: true }).proof).toEqual(proveClosure(design));
});

test("a design read back from JSON gives the same proof", () => {
  const design = designRing(DEMO_RINGS["motorcycle 54 mm"]);
  expect(proveClosure(JSON.parse(JSON.stringify(design)) as RingDesign)).toEqual(proveClosure(design));
});

describe("proveClosure finds fault with a ring that is wrong:", () => {
  const design = designRing(DEMO_RINGS["ferry 118 mm"]);
  const sound = proveClosure(design);
  const { bore, closedGap } = design.spec;
  const scaled = (values: number[], factor: number) => values.map((value) => value * factor);

  test("a free curvature 0.1 % too strong", () => {
    const free = { ...design.free, curvature: scaled(design.free.curvature, 1.001) };
    const proof = proveClosure({ ...design, free });
    // By hand: the curvature's excess closes the gap by 2π·r·0.001 or so, and leaves a radius 0.1 % too small.
    expect(proof.closedGap - closedGap).toBeLessThan(-0.3 * Math.PI * bore * 0.001);
    expect(proof.meanRadiusError / bore).toBeLessThan(-0.2 * 0.001);
    expect(proof.facesOutOfParallel).toBeGreaterThan(0.003);
  });

  test.each([1, 0.1])("a pressure 1 %% too low, in a ring of %s times the force", (share) => {
    const load = { contactPressure: 0.15 * share };
    const ring = designRing({ ...DEMO_RINGS["ferry 118 mm"], load });
    const pressure = scaled(ring.installed.pressure, 0.99);
    const proof = proveClosure({ ...ring, installed: { ...ring.installed, pressure } });
    // By hand: the gap stays open by 1 % of the opening; second-order terms, K in 1, come on top.
    const left = (proof.closedGap - closedGap) / (ring.free.gap - closedGap);
    expect(Math.abs(left / 0.01 - 1)).toBeLessThan(5 * ring.stiffnessParameter);
    expect(proof.outOfRound).toBeGreaterThan(1e6 * sound.outOfRound);
  });

  test("a wall a thousandth of a millimetre too thick", () => {
    const a = design.spec.section.radialThickness;
    const section = { ...design.spec.section, radialThickness: a + 0.001 };
    const proof = proveClosure({ ...design, spec: { ...design.spec, section } });
    // By hand: stiffer by 3·0.001/4.4, so it stays open by that share of the opening; second-order terms, K in 1,
    // and the outer face's growth, 0.0005/R against that share, come on top.
    const left = (proof.closedGap - closedGap) / (design.free.gap - closedGap);
    expect(Math.abs(left / (0.003 / a) - 1)).toBeLessThan(5 * design.stiffnessParameter + 0.02);
  });

  test("the other theory's free shape", () => {
    const proof = proveClosure({ ...design, spec: { ...design.spec, theory: "thin" } });
    // The theories differ by some (a/r)² = 0.6 % of the opening at most; a thousandth of that would show.
    expect(Math.abs(proof.closedGap - closedGap)).toBeGreaterThan(1e-4);
    expect(proof.outOfRound).toBeGreaterThan(1e6 * sound.outOfRound);
  });

  test("a pressure that does not balance itself", () => {
    // A uniform pressure on any arc has the resultant p₀·h times its chord, here the gap that is then left;
    // forceResidual is relative to p₀·h·R. The chord ends on the outer face, the gap is taken at mid wall.
    const uniform = design.installed.pressure.map(() => design.load.contactPressure);
    const proof = proveClosure({ ...design, installed: { ...design.installed, pressure: uniform } });
    expect((proof.forceResidual * design.installed.outerRadius) / proof.closedGap).toBeCloseTo(1, 3);
  });

  test("end faces cut at the wrong angle", () => {
    const ends = { ...design.ends, faceToNormal: design.ends.faceToNormal + 0.001 };
    const proof = proveClosure({ ...design, ends });
    expect(proof.facesOutOfParallel).toBeCloseTo(0.002, 5);
  });
});
