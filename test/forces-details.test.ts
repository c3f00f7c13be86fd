import { describe, expect, test } from "vitest";
import { closedGeometry } from "../src/forces/geometry.js";
import { installedRing } from "../src/forces/installedRing.js";
import { internalForces } from "../src/forces/internalForces.js";
import { joined } from "../src/forces/mirror.js";
import { halfStations, integralFromBack } from "../src/forces/stations.js";
import { tableCurve } from "../src/numeric/angleTable.js";
import { balancedPressure } from "../src/pressure/balanced.js";
import type { PressureSpec } from "../src/spec/ringSpec.js";
import { harmonics, integral } from "./statics.js";

/** Stations, statics and the mirror, each by itself. */

function expectClose(found: readonly number[], expected: readonly number[], tolerance: number): void {
  expect(found.length).toBe(expected.length);
  for (const [i, value] of found.entries()) expect(Math.abs(value - expected[i])).toBeLessThan(tolerance);
}

test("closedGeometry: the ends stand at the half gap over the radius", () => {
  // r = 48, so sin δ = 48/96 and δ = π/6; R = 50, sin = 48/100.
  const geometry = closedGeometry(100, 4, 48);
  expect(geometry.outerRadius).toBe(50);
  expect(geometry.centroidRadius).toBe(48);
  expectClose(
    [geometry.faceToNormal, geometry.centroidLimit, geometry.loadLimit],
    [Math.PI / 6, (5 * Math.PI) / 6, Math.PI - Math.asin(0.48)],
    1e-15,
  );
});

describe("halfStations", () => {
  test("are at equal steps from the back to the end", () => {
    const { theta, cosine, sine, runs } = halfStations(3, 40);
    const expected = Array.from({ length: 41 }, (_, i) => (3 * i) / 40);
    expectClose(theta, expected, 1e-15);
    expectClose(cosine, expected.map(Math.cos), 1e-15);
    expectClose(sine, expected.map(Math.sin), 1e-15);
    expect(runs).toEqual([{ first: 0, last: 40, step: 0.075 }]);
  });

  test("stand twice at a break, the steps shared out by length, seven to a run at least", () => {
    // 40 steps over 3 rad: 0.3 rad have 4 of them, raised to 7; 1.2 rad 16; 1.5 rad 20.
    const { theta, cosine, sine, runs } = halfStations(3, 40, [0.3, 1.5]);
    const even = (from: number, to: number, steps: number) =>
      Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);
    const expected = [...even(0, 0.3, 7), ...even(0.3, 1.5, 16), ...even(1.5, 3, 20)];
    expectClose(theta, expected, 1e-15);
    expectClose(cosine, expected.map(Math.cos), 1e-15);
    expectClose(sine, expected.map(Math.sin), 1e-15);
    expect(runs.map(({ first, last }) => [first, last])).toEqual([
      [0, 7],
      [8, 24],
      [25, 45],
    ]);
    expectClose(
      runs.map(({ step }) => step),
      [0.3 / 7, 1.2 / 16, 1.5 / 20],
      1e-15,
    );
    // Both stations of a break are the very same angle.
    expect(theta[7]).toBe(theta[8]);
    expect(theta[24]).toBe(theta[25]);
    expect(theta[45]).toBe(3);
  });
});

describe("integralFromBack", () => {
  test("of cos θ is sin θ", () => {
    const stations = halfStations(3, 60);
    // Degree 7 at steps of 0.05: (0.05)⁸ = 4e-11 a step at most, found below 1e-12 of the sum.
    expectClose(integralFromBack(stations.cosine, stations), stations.sine, 1e-11);
  });

  test("of steps 2, −1, 5 is a line with kinks, as nothing is smoothed over a jump", () => {
    const stations = halfStations(3, 40, [0.3, 1.5]);
    const { theta, runs } = stations;
    const value = (i: number) => [2, -1, 5][runs.findIndex(({ last }) => i <= last)];
    const expected = theta.map((at, i) =>
      i <= 7 ? 2 * at : i <= 24 ? 0.6 - (at - 0.3) : 0.6 - 1.2 + 5 * (at - 1.5),
    );
    expectClose(
      integralFromBack(
        theta.map((_, i) => value(i)),
        stations,
      ),
      expected,
      1e-13,
    );
  });
});

test("joined runs from the left end over the back, which stands once and is the right half's", () => {
  const halves = { left: [1, 2, 3], right: [10, 20, 30] };
  expect(joined(halves, 1)).toEqual([3, 2, 10, 20, 30]);
  expect(joined(halves, -1)).toEqual([-3, -2, 10, 20, 30]);
  expect(joined(halves, -1, 2)).toEqual([-6, -4, 20, 40, 60]);
});

test("installedRing: p₀, Ft·r, −Ft and Ft are the units of pressure, moment, normal and shear force", () => {
  const right = { pressure: [1, 1.5], moment: [2, 0.5], shear: [0.25, 0.75] };
  const left = { pressure: [1, 1.25], moment: [2, 0.25], shear: [-0.25, 0.5] };
  const theta = [-3, 0, 3];
  const ring = installedRing(closedGeometry(44, 4, 0), { left, right }, theta, 0.5, 8);
  expect(ring).toEqual({
    centroidRadius: 20,
    outerRadius: 22,
    theta,
    pressure: [0.625, 0.5, 0.75],
    moment: [40, 320, 80],
    normal: [-2, -16, -4],
    // Odd: the left half sees it in the mirror.
    shear: [-4, 2, 6],
  });
});

describe("internalForces are the statics integrals of the pressure beyond, of", () => {
  const angle = [-3.2, -2.2, -1, 0.3, 1.4, 2.1, 3.2];
  const relative = [0.9, 1.3, 0.8, 1, 1.2, 0.7, 1.1];
  const half = { angle: [0, 0.4, 1.1, 2, 3.2], relative: [1, 1.3, 0.8, 1.2, 0.7] };
  const whole = { angle, relative };
  const curveOf = (table: typeof whole) => {
    const { at, knots } = tableCurve(table);
    return { at, knots };
  };
  const [even, odd] = [
    [0.3, -0.2, 0, 0.1],
    [0.25, 0, -0.15],
  ];
  const series = (cosine: number[], sine: number[] = []) => ({
    at: (t: number) => 1 + harmonics(t, cosine, sine),
    knots: [],
  });
  const cases: [string, PressureSpec, { at: (t: number) => number; knots: readonly number[] }, boolean][] = [
    ["a uniform one", { shape: "uniform" }, series([]), true],
    ["cosine terms", { shape: "harmonics", cosine: even }, series(even), true],
    ["sine terms", { shape: "harmonics", cosine: [], sine: odd }, series([], odd), false],
    ["both", { shape: "harmonics", cosine: even, sine: odd }, series(even, odd), false],
    ["a table of one half", { shape: "sampled", ...half }, curveOf(half), true],
    ["a table of both halves", { shape: "sampled", ...whole }, curveOf(whole), false],
  ];

  // Wide gaps, so that nothing is small by chance; with a run of stations that jumps.
  describe.each([
    [3.1, 2.95],
    [2.5, 2.4],
  ])("with θL = %s", (loadLimit, limit) => {
    test.each(cases)("%s", (_, wanted, { at, knots }, symmetric) => {
      const stations = halfStations(limit, 24, [1.3]);
      const over = (f: (t: number) => number) => integral(f, -loadLimit, loadLimit, knots);
      const mean = wanted.shape === "sampled" ? over(at) / (2 * loadLimit) : 1;
      // The first harmonic that balances it: ∫p·cos = 0 = ∫p·sin.
      const e = -over((t) => (at(t) / mean) * Math.cos(t)) / over((t) => Math.cos(t) ** 2);
      const f = symmetric ? 0 : -over((t) => (at(t) / mean) * Math.sin(t)) / over((t) => Math.sin(t) ** 2);
      const p = (t: number) => at(t) / mean + e * Math.cos(t) + f * Math.sin(t);
      const forces = internalForces(balancedPressure(wanted, loadLimit), loadLimit, stations);
      expect(forces.left === forces.right).toBe(symmetric);
      for (const side of [1, -1] as const) {
        const { pressure, moment, shear } = side === 1 ? forces.right : forces.left;
        const { theta } = stations;
        const beyond = (wave: (x: number) => number) =>
          theta.map((from) => {
            const breaks = knots.map((knot) => side * knot).sort((one, other) => one - other);
            return integral((t) => p(side * t) * wave(t - from), from, loadLimit, breaks);
          });
        const ROUNDING = 2e-14;
        expectClose(
          pressure,
          theta.map((t) => p(side * t)),
          ROUNDING,
        );
        expectClose(moment, beyond(Math.sin), ROUNDING);
        expectClose(shear, beyond(Math.cos), ROUNDING);
        // Symmetric: no more than −0 or 0 at the back.
        if (symmetric) expect(Math.abs(shear[0])).toBe(0);
      }
    });
  });
});
