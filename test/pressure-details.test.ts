import { describe, expect, test } from "vitest";
import { tableCurve } from "../src/numeric/angleTable.js";
import { type BalancedPressure, balancedPressure } from "../src/pressure/balanced.js";
import { gapBump } from "../src/pressure/families.js";
import { lowestPressure } from "../src/pressure/lowest.js";
import { balancedSeries, balancingHarmonic, seriesAt } from "../src/pressure/series.js";
import type { PressureSpec } from "../src/spec/ringSpec.js";
import { integral } from "./statics.js";

/** The pressure's pieces: by their sums, by quadrature, and where a lowest place is known. */

const near = (found: number, expected: number, tolerance = 1e-13) =>
  expect(Math.abs(found - expected)).toBeLessThan(tolerance);

const LIMIT = 2.8;

test.each([
  ["as many", [1, 0.2, -0.3, 0.4], [9, 0.5, 0.6, -0.7]],
  ["more cosines", [1, 0.2, -0.3, 0.4], [9, 0.5]],
  ["more sines", [1], [9, 0.5, 0.6, -0.7]],
  ["no sines", [1, 0.2, -0.3], []],
])("seriesAt is the sum of cosines and sines, of which the first is nil: %s", (_, cosine, sine) => {
  for (const t of [-2.1, 0, 0.4, 3]) {
    const cosines = cosine.map((value, i) => value * Math.cos(i * t));
    const sines = sine.map((value, i) => value * Math.sin(i * t));
    near(
      seriesAt({ cosine, sine }, t),
      [...cosines, ...sines].reduce((sum, value) => sum + value, 0),
    );
  }
});

describe("the first harmonic that balances", () => {
  test("a resultant is −X/(θL ± sin θL·cos θL)", () => {
    // ∫cos² and ∫sin² over |α| ≤ θL; with θL = 3π/4 they are 3π/4 ∓ 1/2.
    const { cosine, sine } = balancingHarmonic(2, -3, (3 * Math.PI) / 4);
    near(cosine, -2 / ((3 * Math.PI) / 4 - 0.5));
    near(sine, 3 / ((3 * Math.PI) / 4 + 0.5));
    // No sine stays a plain 0, with which a ring counts as symmetric.
    expect(balancingHarmonic(1, 0, 3).sine).toBe(0);
  });

  test("the uniform pressure is e = −2·sin θL/(θL + sin θL·cos θL)", () => {
    const e = (-2 * Math.sin(LIMIT)) / (LIMIT + Math.sin(LIMIT) * Math.cos(LIMIT));
    const { cosine, sine } = balancedSeries({ cosine: [1], sine: [] }, LIMIT);
    expect([cosine.length, cosine[0]]).toEqual([2, 1]);
    near(cosine[1], e);
    expect(sine).toEqual([]);
  });

  test.each([
    ["cosines", [1, 0, 0.3, -0.2, 0.5], []],
    ["sines", [1], [0, 0, 0.3, -0.2, 0.5]],
    ["both", [1, 0, 0.1], [0, 0, 0, 0.4]],
  ])("any series leaves no resultant and changes nothing else: %s", (_, cosine, sine) => {
    const series = balancedSeries({ cosine, sine }, LIMIT);
    for (const wave of [Math.cos, Math.sin])
      near(
        integral((t) => seriesAt(series, t) * wave(t), -LIMIT, LIMIT),
        0,
      );
    const others = (values: readonly number[]) => values.filter((_value, i) => i !== 1);
    expect(others(series.cosine)).toEqual(others(cosine));
    expect(others(series.sine)).toEqual(others(sine));
  });
});

test("gapBump weighs the orders 2 to 6 with 5, 4, 3, 2, 1 fifteenths, up at the gap", () => {
  const expected = [1, 0, 5, -4, 3, -2, 1].map((value, i) => (i < 2 ? value : (0.6 * value) / 15));
  for (const [i, value] of gapBump(0.6).entries()) near(value, expected[i], 1e-15);
  expect(gapBump(0.6).length).toBe(7);
  near(seriesAt({ cosine: gapBump(0.6), sine: [] }, Math.PI), 1.6, 1e-14);
});

describe("balancedPressure", () => {
  const half = { angle: [0, 0.4, 1.1, 2, 3.2], relative: [1, 1.3, 0.8, 1.2, 0.7] };
  const whole = { angle: [-3.2, -2.2, -1, 0.3, 1.4, 2.1, 3.2], relative: [0.9, 1.3, 0.8, 1, 1.2, 0.7, 1.1] };
  const bump = (t: number) =>
    [5, -4, 3, -2, 1].reduce((sum, w, k) => sum + (w / 15) * Math.cos((k + 2) * t), 0);
  const overMean = (table: typeof half) => {
    const { at, knots } = tableCurve(table);
    const mean = integral(at, -LIMIT, LIMIT, knots) / (2 * LIMIT);
    return (t: number) => at(t) / mean;
  };
  const cases: [string, PressureSpec, (t: number) => number, boolean, readonly number[]][] = [
    ["uniform", { shape: "uniform" }, () => 1, true, []],
    ["moreAtGap", { shape: "moreAtGap", strength: 0.6 }, (t) => 1 + 0.6 * bump(t), true, []],
    ["lessAtGap", { shape: "lessAtGap", strength: 0.6 }, (t) => 1 - 0.6 * bump(t), true, []],
    [
      "cosines",
      { shape: "harmonics", cosine: [0.2, 0.3] },
      (t) => 1 + 0.2 * Math.cos(2 * t) + 0.3 * Math.cos(3 * t),
      true,
      [],
    ],
    [
      "sines",
      { shape: "harmonics", cosine: [], sine: [0, 0.3] },
      (t) => 1 + 0.3 * Math.sin(3 * t),
      false,
      [],
    ],
    [
      "sines that are nil",
      { shape: "harmonics", cosine: [0.2], sine: [0, 0] },
      (t) => 1 + 0.2 * Math.cos(2 * t),
      true,
      [],
    ],
    ["half a table", { shape: "sampled", ...half }, overMean(half), true, half.angle],
    ["a table", { shape: "sampled", ...whole }, overMean(whole), false, whole.angle],
  ];

  test.each(cases)("%s: what is wanted, and its balance", (_, wanted, at, symmetric, angle) => {
    const pressure = balancedPressure(wanted, LIMIT);
    expect(pressure.symmetric).toBe(symmetric);
    const { cosine: e, sine: f } = pressure.balance;
    const breaks = [...angle.map((t) => -t).reverse(), ...angle].sort((one, other) => one - other);
    for (const t of [-2.7, -1, 0, 0.6, 2.2]) near(pressure.at(t), at(t) + e * Math.cos(t) + f * Math.sin(t));
    for (const wave of [Math.cos, Math.sin])
      near(
        integral((t) => pressure.at(t) * wave(t), -LIMIT, LIMIT, breaks),
        0,
      );
    expect(Math.abs(e)).toBeGreaterThan(0.01);
    if (symmetric) expect(f).toBe(0);
    else expect(Math.abs(f)).toBeGreaterThan(0.001);
  });

  test("samples count by their ratio to the mean alone", () => {
    const scaled = { ...whole, relative: whole.relative.map((value) => 7 * value) };
    const [one, other] = [whole, scaled].map((table) =>
      balancedPressure({ shape: "sampled", ...table }, LIMIT),
    );
    near(one.at(1.3), other.at(1.3));
  });
});

describe("lowestPressure", () => {
  const angles = (count: number, limit = 3) =>
    Array.from({ length: count + 1 }, (_, i) => limit * ((2 * i) / count - 1));
  const series = (at: (t: number) => number): BalancedPressure => ({
    ...{ at, balance: { cosine: 0, sine: 0 }, symmetric: false },
    form: { cosine: [1], sine: [] },
  });
  const lowest = (pressure: BalancedPressure, theta: readonly number[]) =>
    lowestPressure(pressure, theta, theta.map(pressure.at));

  test("of a wave is found between the points", () => {
    // 1 − 0.4·cos(θ − 0.537) is least at 0.537, which no point hits, also where they are crowded on one side.
    const wave = series((t) => 1 - 0.4 * Math.cos(t - 0.537));
    for (const theta of [angles(40), angles(20), [-3, -1, 0.4, 0.5, 0.8, 2], [-3, -1, 0.3, 0.6, 0.7, 2]]) {
      const found = lowest(wave, theta);
      near(found.relative, 0.6, 1e-14);
      near(found.theta, 0.537, 1e-6);
    }
  });

  test("of equal dips is the first one, from the left", () => {
    expect(
      lowest(
        series((t) => 1 + 0.5 * Math.cos(2 * t)),
        angles(40),
      ).theta,
    ).toBeLessThan(0);
  });

  test("stands at an end as it is there", () => {
    const theta = angles(10);
    expect(
      lowest(
        series((t) => 1 + 0.1 * t),
        theta,
      ),
    ).toEqual({ relative: 1 - 0.1 * 3, theta: -3 });
    const falling = lowest(
      series((t) => 1 - 0.1 * t),
      theta,
    );
    near(falling.relative, 0.7, 1e-15);
    expect(falling.theta).toBe(3);
  });

  test("is not sought on a parabola that has no lowest point", () => {
    // Values higher on both sides that are not the pressure's, which is level there, or a bulge.
    const level = series(() => 1);
    expect(lowestPressure(level, [-1, 0, 1], [2, 1, 2])).toEqual({ relative: 1, theta: 0 });
    const bulge = series((t) => -t * t);
    expect(lowestPressure(bulge, [-1, 0, 1], [1, 0, 1])).toEqual({ relative: 0, theta: 0 });
  });

  test("of samples stands at a sample, if that is between the ends", () => {
    // The curve stays between its samples; without a balance the least sample is the least of all.
    const table = {
      angle: [-4, -2.2, -1, 0.33, 1.4, 2.1, 3.2],
      relative: [-1, 1.3, 0.8, 0.5, 1.2, 0.7, 0.1],
    };
    const curve = tableCurve(table);
    const sampled = (cosine: number, sine = 0): BalancedPressure => ({
      at: (t) => curve.at(t) / 2 + cosine * Math.cos(t) + sine * Math.sin(t),
      ...{ balance: { cosine, sine }, symmetric: false },
      form: { curve, mean: 2, balance: { cosine, sine } },
    });
    // Ends at −2 and 2.05: the samples beyond do not count, though they are lower.
    const expectAt = (found: { relative: number; theta: number }, relative: number, place: number) => {
      near(found.relative, relative, 1e-15);
      expect(found.theta).toBe(place);
    };
    const theta = [-2, -1.5, -0.6, -0.2, 0.7, 1.5, 2.05];
    expectAt(lowest(sampled(0), theta), 0.25, 0.33);
    // With a balance of 0.2·cos θ it is 0.8/2 + 0.2·cos 1 = 0.508 at −1 and 0.25 + 0.2·cos 0.33 = 0.439 at 0.33; but 0.36 + … at the right end.
    const found = lowest(sampled(0.2), theta);
    expect(found.theta).toBe(2.05);
    near(found.relative, curve.at(2.05) / 2 + 0.2 * Math.cos(2.05), 1e-15);
    // 0.25 − 0.2·cos 0.33 beats all points.
    expectAt(lowest(sampled(-0.2), theta), 0.25 - 0.2 * Math.cos(0.33), 0.33);
    expectAt(lowest(sampled(0, -0.2), theta.slice(0, 5)), 0.25 - 0.2 * Math.sin(0.33), 0.33);
    // Samples at the very ends count.
    expectAt(lowest(sampled(0), [-1, -0.5, 0.33]), 0.25, 0.33);
    expectAt(lowest(sampled(0), [0.33, 0.5, 1]), 0.25, 0.33);
    // Points that are lower than any sample stay.
    expect(lowestPressure(sampled(0), theta, [1, 1, 0.2, 1, 1, 1, 1])).toEqual({
      relative: 0.2,
      theta: -0.6,
    });
  });
});
