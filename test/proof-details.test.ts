import { describe, expect, test } from "vitest";
import { fitCircle } from "../src/numeric/fitCircle.js";
import type { Point } from "../src/numeric/point.js";
import { proveClosure } from "../src/proof/proveClosure.js";
import { type Assembled, assembled } from "./assembled.js";

/** The proof sees nothing wrong with sound rings of every kind, and tells of wrong ones just how wrong they are. */

const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThan(tolerance);

const section = { shape: "rectangle", radialThickness: 4.4, axialHeight: 2 } as const;
const ferry = {
  section,
  material: { youngsModulus: 205000, poissonRatio: 0.3 },
  theory: "curved",
  closedGap: 3,
} as const;
const FORCE = 20;
const [R, a] = [59, 4.4];

const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);
const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
const outline = [
  { x: 0.4, y: 0 },
  { x: 1.6, y: 0 },
  { x: 2, y: a },
  { x: 0, y: a },
];
const sines = { shape: "harmonics" as const, cosine: [0.2], sine: [0.15, -0.1] };

test.each([
  ["of one section", assembled(ferry, 2 * R, FORCE)],
  ["of the thin theory", assembled({ ...ferry, theory: "thin" }, 2 * R, FORCE)],
  ["without a gap", assembled({ ...ferry, closedGap: 0 }, 2 * R, FORCE)],
  ["of another pressure on either side", assembled(ferry, 2 * R, FORCE, { pressure: sines })],
  [
    "of a varying wall",
    assembled({ ...ferry, section: { ...section, wall } }, 2 * R, FORCE, { pressure: sines }),
  ],
  ["with slots", assembled({ ...ferry, section: { ...section, slots } }, 2 * R, FORCE)],
  [
    "of a trapezoidal section",
    assembled({ ...ferry, section: { ...section, shape: "profile", outline } }, 2 * R, FORCE),
  ],
])("a ring %s closes to its bore and gap, and the forces add up", (_, ring) => {
  const proof = proveClosure(ring);
  // At 40 stations the tables' polynomials leave some 1e-7 of the opening of 15 mm.
  const LENGTH = 3e-6;
  for (const error of [proof.meanRadiusError, proof.radialError, proof.outOfRound]) near(error, 0, LENGTH);
  near(proof.closedGap, ring.spec.closedGap, 3 * LENGTH);
  near(proof.facesOutOfParallel, 0, LENGTH / 10);
  near(proof.forceResidual, 0, LENGTH / 10);
  expect(proof.radialError).toBeGreaterThanOrEqual(proof.outOfRound / 2 - 1e-12);
});

describe("a ring on which nothing presses stays as it is free", () => {
  const ring = assembled(ferry, 2 * R, FORCE, { pressure: sines });
  const prove = () =>
    proveClosure({
      ...ring,
      installed: { ...ring.installed, pressure: ring.free.theta.map(() => 0) },
    });
  /** The outer face at the stations, square to the line. */
  const outer = ring.free.x.map((x, i): Point => {
    const tangent = ring.free.tangent[i];
    return [x + (a / 2) * Math.sin(tangent), ring.free.y[i] - (a / 2) * Math.cos(tangent)];
  });

  test("and as far from round", () => {
    const proof = prove();
    const circle = fitCircle(outer);
    const distances = outer.map(([x, y]) => Math.hypot(x - circle.x, y - circle.y));
    near(proof.meanRadiusError, circle.radius - R, 1e-6);
    near(proof.outOfRound, Math.max(...distances) - Math.min(...distances), 1e-6);
    near(proof.radialError, Math.max(...distances.map((distance) => Math.abs(distance - R))), 1e-6);
    expect(proof.outOfRound).toBeGreaterThan(0.5);
  });

  test("its faces at the angle of both turns, its gap that along the right face's normal", () => {
    const { left, right } = ring.ends;
    const proof = prove();
    near(proof.facesOutOfParallel, Math.abs(left.turn + right.turn), 1e-7);
    const last = ring.free.x.length - 1;
    const [dx, dy] = [ring.free.x[last] - ring.free.x[0], ring.free.y[last] - ring.free.y[0]];
    // Closed, the right face looks along −x across the gap; it has turned since.
    const across = dx * Math.cos(right.turn) + dy * Math.sin(right.turn);
    near(proof.closedGap, across, 1e-6);
  });

  test("without forces", () => {
    near(prove().forceResidual, 0, 1e-12);
  });
});

test("faces that turned past each other are as far out of parallel", () => {
  const ring = assembled({ ...ferry, closedGap: 0 }, 2 * R, 4 * FORCE);
  const still = ring.free.theta.map(() => 0);
  const proof = proveClosure({ ...ring, installed: { ...ring.installed, pressure: still } });
  near(proof.facesOutOfParallel, -2 * ring.ends.turn, 1e-6);
  // Bent inward instead, the free curvature over the closed one's other side.
  const over = ring.free.curvature.map((kappa) => 2 / (R - a / 2) - kappa);
  const crossed = proveClosure({
    ...ring,
    free: { ...ring.free, curvature: over },
    installed: { ...ring.installed, pressure: still },
  });
  near(crossed.facesOutOfParallel, -2 * ring.ends.turn, 2e-3 * -ring.ends.turn);
  expect(crossed.closedGap).toBeLessThan(0);
});

describe("a rigid circle under a pressure that does not balance", () => {
  // A uniform one leaves p·h·s, s the gap: over Ft = p·h·R that is s/R.
  const closedGap = 6;
  const stiff = { ...ferry, closedGap, material: { youngsModulus: 1e14, poissonRatio: 0.3 } };
  const ring = assembled(stiff, 2 * R, FORCE);
  const withPressure = (at: (t: number) => number): Assembled => ({
    ...ring,
    installed: { ...ring.installed, pressure: ring.free.theta.map((t) => (at(t) * FORCE) / (R * 2)) },
  });

  test("leaves its resultant over", () => {
    near(proveClosure(withPressure(() => 1)).forceResidual, closedGap / R, 1e-4 * (closedGap / R));
  });

  test("leaves its resultant over, whichever way it points", () => {
    // p·sin α has the resultant h·R·∫sin² = Ft·(θL − sin θL·cos θL) across the gap, through the centre.
    const thetaL = Math.PI - Math.asin(closedGap / (2 * R));
    const resultant = thetaL - Math.sin(thetaL) * Math.cos(thetaL);
    near(proveClosure(withPressure(Math.sin)).forceResidual, resultant, 1e-3 * resultant);
  });

  test("leaves the moment over, where that is more", () => {
    // An arc of three times the radius, φ = π/3 to either side: the resultant 2·p·h·(ρ + a/2)·sin φ along its axis, through its
    // centre, with the arm ρ·sin φ about the end.
    const closed = assembled({ ...stiff, closedGap: 0 }, 2 * R, FORCE);
    const rho = 3 * (R - a / 2);
    const sine = Math.sin(Math.PI / 3);
    const { forceResidual } = proveClosure({
      ...closed,
      free: { ...closed.free, curvature: closed.free.theta.map(() => 1 / rho) },
    });
    const expected = (2 * (rho + a / 2) * sine * rho * sine) / R ** 2;
    near(forceResidual, expected, 1e-6 * expected);
  });

  test("stays closed", () => {
    const proof = proveClosure(withPressure(() => 1));
    near(proof.outOfRound, 0, 1e-6);
    near(proof.closedGap, closedGap, 1e-6);
  });
});
