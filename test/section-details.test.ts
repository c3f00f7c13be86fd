import { describe, expect, test } from "vitest";
import { fibresOf, heightAt } from "../src/section/columns.js";
import { curvedSection, isProfiled } from "../src/section/curvedSection.js";
import { type Corner, edgesOf, type Profile, profileOf, turnsOf } from "../src/section/profile.js";
import { area, curvedSecondMoment, secondMoment } from "../src/section/rectangle.js";
import { radialMoments, sectionProperties } from "../src/section/sectionProperties.js";
import { crackRotation, slotShare } from "../src/section/slots.js";
import { taperShare, wallAlong, wallAt } from "../src/section/wall.js";
import type { ProfileFeatures } from "../src/spec/ringSpec.js";
import { integral } from "./statics.js";

/** Sections, slots and walls piece by piece: corners and properties by hand and by handbook. */

const near = (found: number, expected: number, tolerance = 1e-13) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

describe("the corners of a section 4 thick and 3 high,", () => {
  const tenth = Math.atan(0.1);
  const rectangle = [
    [0, -2],
    [3, -2],
    [3, 2],
    [0, 2],
  ];
  const top = rectangle.slice(2);
  const cases: [string, ProfileFeatures, number[][]][] = [
    ["plain", {}, rectangle],
    [
      "bevel on top",
      { inner: { shape: "bevel", side: "top", depth: 1, height: 0.5 } },
      [[0, -2], [2.5, -2], [3, -1], ...top],
    ],
    [
      "step on top",
      { inner: { shape: "step", side: "top", depth: 1, height: 0.5 } },
      [[0, -2], [2.5, -2], [2.5, -1], [3, -1], ...top],
    ],
    [
      "bevel below",
      { inner: { shape: "bevel", side: "bottom", depth: 1, height: 0.5 } },
      [[0, -1], [0.5, -2], [3, -2], ...top],
    ],
    [
      "step below",
      { inner: { shape: "step", side: "bottom", depth: 1, height: 0.5 } },
      [[0, -1], [0.5, -1], [0.5, -2], [3, -2], ...top],
    ],
    [
      "undercut",
      { undercut: { depth: 0.8, height: 1 } },
      [
        [0, -2],
        [3, -2],
        [3, 2],
        [1, 2],
        [1, 1.2],
        [0, 1.2],
      ],
    ],
    [
      "taper",
      { face: { shape: "taper", angle: tenth } },
      [
        [0, -2],
        [3, -2],
        [3, 1.7],
        [0, 2],
      ],
    ],
    [
      "taper over an undercut",
      { face: { shape: "taper", angle: tenth }, undercut: { depth: 0.8, height: 1 } },
      [
        [0, -2],
        [3, -2],
        [3, 1.8],
        [1, 2],
        [1, 1.2],
        [0, 1.2],
      ],
    ],
    // The bulge is the rise over half the chord.
    [
      "barrel",
      { face: { shape: "barrel", drop: 0.2 } },
      [
        [0, -2],
        [3, -2],
        [3, 1.8, 0.2 / 1.5],
        [0, 1.8],
      ],
    ],
    [
      "barrel over an undercut",
      { face: { shape: "barrel", drop: 0.2 }, undercut: { depth: 0.8, height: 1 } },
      [
        [0, -2],
        [3, -2],
        [3, 1.8, 0.2],
        [1, 1.8],
        [1, 1.2],
        [0, 1.2],
      ],
    ],
    // Four tenths less on either side, 4 mm further in.
    [
      "keystone",
      { sides: { shape: "keystone", angle: 2 * tenth } },
      [
        [0.4, -2],
        [2.6, -2],
        [3, 2],
        [0, 2],
      ],
    ],
    [
      "half keystone",
      { sides: { shape: "halfKeystone", angle: tenth } },
      [
        [0, -2],
        [2.6, -2],
        [3, 2],
        [0, 2],
      ],
    ],
    [
      "keystone with a barrel",
      { sides: { shape: "keystone", angle: 2 * tenth }, face: { shape: "barrel", drop: 0.2 } },
      [
        [0.4, -2],
        [2.6, -2],
        [2.98, 1.8, 0.2 / 1.48],
        [0.02, 1.8],
      ],
    ],
    [
      "of its own outline, from the inner face",
      {
        outline: [
          { x: 0, y: 0 },
          { x: 3, y: 0, bulge: 0.5 },
          { x: 0, y: 4, bulge: 0 },
        ],
      },
      [
        [0, -2],
        [3, -2, 0.5],
        [0, 2],
      ],
    ],
  ];

  test.each(cases)("%s", (_, features, expected) => {
    const corners = profileOf(4, 3, features);
    expect(corners.length).toBe(expected.length);
    for (const [i, { x, y, bulge }] of corners.entries()) {
      near(x, expected[i][0]);
      near(y, expected[i][1]);
      near(bulge ?? 0, expected[i][2] ?? 0);
    }
  });

  test.each(cases.slice(1))("tell that it is no rectangle: %s", (_, features) => {
    expect(isProfiled(features)).toBe(true);
  });

  test("tell a rectangle", () => {
    expect(isProfiled({})).toBe(false);
  });
});

/** The unit circle, of two arcs. */
const disc: Profile = [
  { x: -1, y: 0, bulge: 1 },
  { x: 1, y: 0, bulge: 1 },
];
/** Its upper half. */
const halfDisc: Profile = [
  { x: -1, y: 0 },
  { x: 1, y: 0, bulge: 1 },
];
const corners = (...points: [number, number][]): Profile => points.map(([x, y]): Corner => ({ x, y }));
/** 4 high and 5 along, the sides 1 thick. */
const angleSection = corners([0, 0], [5, 0], [5, 1], [1, 1], [1, 4], [0, 4]);
/** A channel that is open upward: two columns where it is. */
const channel = corners([0, 0], [5, 0], [5, 3], [4, 3], [4, 1], [1, 1], [1, 3], [0, 3]);
const triangle = corners([0, 0], [3, 0], [0, 2]);

describe("an edge", () => {
  test("that is straight runs evenly", () => {
    const [{ from, to, at }] = edgesOf(triangle);
    expect([from, to]).toEqual([triangle[0], triangle[1]]);
    expect(at(0.25)).toEqual({ x: 0.75, y: 0, dx: 3, dy: 0 });
    expect(edgesOf(triangle)[2].to).toBe(triangle[0]);
    expect(turnsOf({ from, to, at }, "x")).toEqual([0, 1]);
  });

  test("that is an arc runs round its centre", () => {
    // The lower half of the circle, from π to 2π.
    const [lower] = edgesOf(disc);
    for (const share of [0, 0.2, 0.5, 0.9, 1]) {
      const angle = Math.PI * (1 + share);
      const { x, y, dx, dy } = lower.at(share);
      near(x, Math.cos(angle));
      near(y, Math.sin(angle));
      near(dx, -Math.PI * Math.sin(angle));
      near(dy, Math.PI * Math.cos(angle));
    }
    // Lowest half-way; from left to right all along.
    const [first, turn, last] = turnsOf(lower, "y");
    expect([first, last]).toEqual([0, 1]);
    near(turn, 0.5);
    expect(turnsOf(lower, "y").length).toBe(3);
    // Three quarters of a circle from (0, −1) to (−1, 0), bulge tan(270°/4): along x it turns at (1, 0), 1/3 on; in y at (0, 1).
    const [arc] = edgesOf([
      { x: 0, y: -1, bulge: Math.tan((3 * Math.PI) / 8) },
      { x: -1, y: 0 },
    ]);
    const turns = turnsOf(arc, "x");
    expect(turns.length).toBe(3);
    near(turns[1], 1 / 3);
    near(turnsOf(arc, "y")[1], 2 / 3);
  });

  test.each([
    ["counter-clockwise", -0.5, 3.6],
    ["clockwise", 3.6, -0.5],
    ["short", 0.3, 1.5],
  ])("that lies anyhow runs at one speed, and turns where it is outermost: %s", (_, from, to) => {
    // Radius 2 about (1, −3); the bulge is the tangent of a quarter of the angle.
    const point = (angle: number) => ({ x: 1 + 2 * Math.cos(angle), y: -3 + 2 * Math.sin(angle) });
    const [arc] = edgesOf([{ ...point(from), bulge: Math.tan((to - from) / 4) }, point(to)]);
    for (const share of [0, 0.2, 0.7, 1]) {
      const angle = from + share * (to - from);
      const { x, y, dx, dy } = arc.at(share);
      near(x, point(angle).x);
      near(y, point(angle).y);
      near(dx, -2 * (to - from) * Math.sin(angle));
      near(dy, 2 * (to - from) * Math.cos(angle));
    }
    const within = (...angles: number[]) =>
      angles.map((angle) => (angle - from) / (to - from)).filter((share) => share > 0 && share < 1);
    for (const [axis, places] of [
      ["x", within(0, Math.PI)],
      ["y", within(Math.PI / 2)],
    ] as const) {
      const turns = turnsOf(arc, axis);
      const expected = [0, ...places.sort((one, other) => one - other), 1];
      expect(turns.length).toBe(expected.length);
      for (const [k, share] of turns.entries()) near(share, expected[k]);
    }
  });
});

describe("sectionProperties", () => {
  const expectProperties = (
    profile: Profile,
    expected: { area: number; x: number; y: number; inPlane: number; lateral: number; product: number },
  ) => {
    const { area: found, centroid, inPlane, lateral, product, principal } = sectionProperties(profile);
    const { x, y, ...rest } = expected;
    near(found, rest.area);
    near(centroid.x, x);
    near(centroid.y, y);
    near(inPlane, rest.inPlane);
    near(lateral, rest.lateral);
    near(product, rest.product);
    // Mohr's circle: the sum, the product of moments, and no deviation about the principal axes.
    const [larger, smaller] = principal.moments;
    near(larger + smaller, rest.inPlane + rest.lateral);
    near(larger * smaller, rest.inPlane * rest.lateral - rest.product ** 2, 1e-12);
    expect(larger).toBeGreaterThanOrEqual(smaller);
    return principal;
  };

  test("of a rectangle are h·a³/12 and a·h³/12", () => {
    const principal = expectProperties(profileOf(4, 3, {}), {
      ...{ area: 12, x: 1.5, y: 0, inPlane: 16, lateral: 9, product: 0 },
    });
    near(principal.angle, 0);
    const lying = sectionProperties(profileOf(3, 4, {})).principal;
    near(Math.abs(lying.angle), Math.PI / 2);
  });

  test("of a right triangle are b·h³/36, h·b³/36 and −b²·h²/72", () => {
    // Handbook, right triangle, about its centroid.
    const area = 3;
    expectProperties(triangle, {
      area,
      x: 1,
      y: 2 / 3,
      inPlane: 24 / 36,
      lateral: 54 / 36,
      product: -36 / 72,
    });
  });

  test("of an angle are those of its two rectangles", () => {
    // 5 × 1 at (2.5, 0.5) and 1 × 3 at (0.5, 2.5): area 8, centroid (1.75, 1.25).
    const inPlane = 5 / 12 + 5 * 0.75 ** 2 + 27 / 12 + 3 * 1.25 ** 2;
    const lateral = 125 / 12 + 5 * 0.75 ** 2 + 3 / 12 + 3 * 1.25 ** 2;
    const product = 5 * 0.75 * -0.75 + 3 * -1.25 * 1.25;
    const { angle } = expectProperties(angleSection, {
      area: 8,
      x: 1.75,
      y: 1.25,
      inPlane,
      lateral,
      product,
    });
    // About an axis turned by φ from x: Iu = Ix·cos² + Iy·sin² − 2·Ixy·sin·cos, which is the larger principal moment.
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    near(
      inPlane * c * c + lateral * s * s - 2 * product * s * c,
      sectionProperties(angleSection).principal.moments[0],
    );
  });

  test("of a circle and its half are π/4, and π/8 − 8/(9π) about 4/(3π)", () => {
    const { angle } = expectProperties(disc, {
      ...{ area: Math.PI, x: 0, y: 0, inPlane: Math.PI / 4, lateral: Math.PI / 4, product: 0 },
    });
    expect(Number.isFinite(angle)).toBe(true);
    expectProperties(halfDisc, {
      ...{ area: Math.PI / 2, x: 0, y: 4 / (3 * Math.PI), product: 0 },
      ...{ inPlane: Math.PI / 8 - 8 / (9 * Math.PI), lateral: Math.PI / 8 },
    });
  });
});

test("radialMoments are ∫yⁿ dA", () => {
  // Rectangle 3 high, −2 … 2: 3·(2ⁿ⁺¹ − (−2)ⁿ⁺¹)/(n + 1).
  for (const [n, found] of radialMoments(profileOf(4, 3, {}), 6).entries())
    near(found, (3 * (2 ** (n + 1) - (-2) ** (n + 1))) / (n + 1));
  // Triangle of width 3·(1 − y/2), y = 0 … 2: 3·2ⁿ⁺¹/((n + 1)·(n + 2)).
  for (const [n, found] of radialMoments(triangle, 6).entries())
    near(found, (3 * 2 ** (n + 1)) / ((n + 1) * (n + 2)));
  // Circle: π, π/4, π/8 for n = 0, 2, 4.
  const circle = [Math.PI, 0, Math.PI / 4, 0, Math.PI / 8];
  for (const [n, found] of radialMoments(disc, 5).entries()) near(found, circle[n]);
});

describe("curvedSection", () => {
  const outline = [
    { x: 0.6, y: 0 },
    { x: 1.8, y: 0 },
    { x: 2.4, y: 4 },
    { x: 0, y: 4 },
  ];

  test.each([0, 0.05, -0.1, 0.25])("integrates yᵏ/(1 + κ·y) over a trapezoid for κ = %s", (kappa) => {
    const { integrals, outer, inner, properties } = curvedSection(4, 2.4, { outline });
    expect([outer, inner]).toEqual([2, -2]);
    near(properties.area, 7.2);
    for (const [k, found] of integrals(kappa).entries())
      near(
        found,
        integral((y) => ((1.8 + 0.3 * y) * y ** k) / (1 + kappa * y), -2, 2),
      );
  });

  test("reaches as far as the bulge of an arc", () => {
    // A barrel 0.2 high on a face whose edges stand back by that; and a half circle inside.
    const barrel = curvedSection(4, 3, { face: { shape: "barrel", drop: 0.2 } });
    near(barrel.outer, 2);
    expect(barrel.inner).toBe(-2);
    const round = curvedSection(4, 2, {
      outline: [
        { x: -1, y: 1, bulge: 1 },
        { x: 1, y: 1 },
        { x: 1, y: 3 },
        { x: -1, y: 3 },
      ],
    });
    expect(round.outer).toBe(1);
    near(round.inner, -2);
    // Rectangle 2 × 2 about 0 and half a disc below −1.
    near(round.integrals(0)[0], 4 + Math.PI / 2);
    near(round.integrals(0)[1], (-Math.PI / 2) * (1 + 4 / (3 * Math.PI)));
  });
});

test("the rectangle's properties are a·h, h·a³/12 and h/κ²·[(1/κ)·ln((1 + x)/(1 − x)) − a], x = κ·a/2", () => {
  expect(area(4, 3)).toBe(12);
  expect(secondMoment(4, 3)).toBe(16);
  for (const kappa of [0.2, -0.2, 0.29]) {
    const x = 2 * kappa;
    near(
      curvedSecondMoment(16, 4, kappa),
      (3 / kappa ** 2) * (Math.log((1 + x) / (1 - x)) / kappa - 4),
      1e-12,
    );
  }
});

describe("fibres", () => {
  const moment = (profile: Profile, power: number) =>
    fibresOf(profile).reduce((sum, { y, area: dA }) => sum + dA * y ** power, 0);

  test.each([
    // ∫dA, ∫y dA and ∫y² dA about y = 0.
    ["a triangle", triangle, [3, 2, 2]],
    ["an angle", angleSection, [8, 10, 5 / 3 + 3 * 2.5 ** 2 + 27 / 12]],
    // 5 × 1 below, twice 1 × 2 at y = 2.
    ["a channel", channel, [9, 2.5 + 8, 5 / 3 + 2 * (2 * 4 + 8 / 12)]],
    ["a circle", disc, [Math.PI, 0, Math.PI / 4]],
    ["half a circle", halfDisc, [Math.PI / 2, 2 / 3, Math.PI / 8]],
    // Upper half with a chord below at −1: a square 2 × 1 more.
    [
      "a round-topped block",
      [
        { x: -1, y: -1 },
        { x: 1, y: -1 },
        { x: 1, y: 0, bulge: 1 },
        { x: -1, y: 0 },
      ],
      [Math.PI / 2 + 2, 2 / 3 - 1, Math.PI / 8 + 2 / 3],
    ],
    // The block less the half circle: a groove in it.
    [
      "a block with a groove",
      [
        { x: -2, y: -2 },
        { x: 2, y: -2 },
        { x: 2, y: 0 },
        { x: 1, y: 0, bulge: -1 },
        { x: -1, y: 0 },
        { x: -2, y: 0 },
      ],
      [8 - Math.PI / 2, -8 + 2 / 3, 32 / 3 - Math.PI / 8],
    ],
  ] as [string, Profile, number[]][])("add up to the area and moments of %s", (_, profile, expected) => {
    // Round sections to what two panels of ten points leave of them.
    for (const [power, value] of expected.entries()) near(moment(profile, power), value, 1e-8);
  });

  test("are as many as the columns have pieces", () => {
    // Ten by ten to a column between corners: five pieces 0 … 1, 1 … 4 and 4 … 5 of the channel, each in one.
    expect(fibresOf(channel).length).toBe(3 * 100);
    expect(fibresOf(triangle).length).toBe(100);
  });
});

test("heightAt is how much of the section lies at a radius", () => {
  near(heightAt(triangle, 0.5), 3 * 0.75);
  expect(heightAt(triangle, 2.5)).toBe(0);
  near(heightAt(channel, 0.5), 5);
  near(heightAt(channel, 2), 2);
  for (const y of [-0.9, -0.3, 0.01, 0.7]) near(heightAt(disc, y), 2 * Math.sqrt(1 - y * y), 1e-12);
  near(heightAt(halfDisc, 0.6), 1.6, 1e-12);
  expect(heightAt(halfDisc, -0.1)).toBe(0);
});

describe("slots", () => {
  test("turn a wall by what the crack's stress intensity says", () => {
    // Energy: S(x) = 3π·∫x·F(x)² dx, with F of an edge crack in pure bending, H. Tada, P. C. Paris & G. R. Irwin, The Stress Analysis of
    // Cracks Handbook (from memory), good to 0.2 % up to x = 0.6.
    const F = (x: number) => 1.122 - 1.4 * x + 7.33 * x ** 2 - 13.08 * x ** 3 + 14 * x ** 4;
    for (const x of [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]) {
      const S = 3 * Math.PI * integral((t) => t * F(t) ** 2, 0, x);
      expect(Math.abs(crackRotation(x) / S - 1)).toBeLessThan(0.01);
    }
  });

  test("turn it as the exact limits, shallow and deep", () => {
    near(crackRotation(1e-6) / 1e-12, (3 * Math.PI * 1.1215 ** 2) / 2, 1e-4);
    near(crackRotation(1 - 1e-6) * 1e-12, 3.975 ** 2 / 24, 1e-3);
  });

  test("far apart are each a crack and a net section as wide as the slot", () => {
    // Over a long pitch the extra rotation is 24·M/(E·h·a²)·S and the slot's width of net section, a³/(a − d)³ − 1 = 7 times the wall's own.
    const pitch = 1000;
    const share = slotShare(4, 2, 0.6, pitch);
    near(share * pitch * 7, 0.6 * 7 + 2 * 4 * crackRotation(0.5), 1e-12);
  });

  test("close together are the net section all along", () => {
    near(slotShare(4, 2, 0.6, 0.6 + 1e-9), 1, 1e-8);
  });

  test("between lie between, the more the closer", () => {
    const shares = [0.7, 1, 2, 5, 20].map((pitch) => slotShare(4, 2, 0.6, pitch));
    expect([...shares].sort((one, other) => other - one)).toEqual(shares);
    // f(1) = 1 − exp(−1.3): fitted, see there.
    const length = (8 * crackRotation(0.5)) / 7;
    near(slotShare(4, 2, 0.6, 0.6 + length) * (0.6 + length), 0.6 + length * (1 - Math.exp(-1.3)));
    near(slotShare(4, 2, 0.6, 0.6 + 2 * length) * (0.6 + 2 * length), 0.6 + length * (1 - Math.exp(-3.2)));
  });

  test("too shallow for numbers count by their width", () => {
    expect(slotShare(4, 1e-200, 0.5, 2)).toBe(0.25);
  });
});

describe("the wall", () => {
  test("at a station is nominal, or the table's, or over a slot", () => {
    expect(wallAt(4, undefined, 7)).toEqual({ thickness: 4 });
    const along = { thickness: [3, 3.5], taper: [0.1, 0.2], netShare: [0, 0.25], slotDepth: 1.5 };
    expect(wallAt(4, along, 0)).toEqual({ thickness: 3, taper: 0.1 });
    expect(wallAt(4, along, 1)).toEqual({ thickness: 3.5, taper: 0.2, slotted: { net: 2, share: 0.25 } });
  });

  test("that slopes adds a·a″/10 + 3·a′²/5", () => {
    near(taperShare(4, 0.1, 0.02), 0.008 + 0.006);
  });

  const slots = { count: 10, depth: 1.5, width: 0.6, from: -0.5, to: 2 };
  const half = { angle: [0, 1, 3.2], relative: [1, 1.1, 0.9] };
  const whole = { angle: [-3.2, -1, 0, 3.2], relative: [0.8, 1, 1.1, 0.9] };

  test("is plain without shape and slots", () => {
    const wall = wallAlong(4, undefined, undefined, 3, 20);
    expect([wall.plain, wall.symmetric, wall.breaks]).toEqual([true, true, []]);
    expect(wall.at(1, 1)).toEqual({ thickness: 4 });
  });

  test("follows a function or a table, which may be alike on both halves", () => {
    const byFunction = wallAlong(4, (t) => 1 + t / 10, undefined, 3, 20);
    expect([byFunction.plain, byFunction.symmetric, byFunction.breaks]).toEqual([false, false, []]);
    near(byFunction.at(-2, 0).thickness, 3.2);
    const byHalf = wallAlong(4, half, undefined, 3, 20);
    expect([byHalf.plain, byHalf.symmetric]).toEqual([false, true]);
    near(byHalf.at(-1, 0).thickness, 4.4);
    const byWhole = wallAlong(4, whole, undefined, 3, 20);
    expect([byWhole.plain, byWhole.symmetric]).toEqual([false, false]);
    near(byWhole.at(-1, 0).thickness, 4);
    near(byWhole.at(-3.2, 0).thickness, 3.2);
  });

  test("jumps where the slots begin and end, in either half", () => {
    expect(wallAlong(4, undefined, slots, 3, 20).breaks).toEqual([0.5, 2]);
    expect(wallAlong(4, undefined, { ...slots, from: -2.5, to: 0.5 }, 3, 20).breaks).toEqual([0.5, 2.5]);
    expect(wallAlong(4, undefined, { ...slots, from: -2, to: 2 }, 3, 20).breaks).toEqual([2]);
    expect(wallAlong(4, undefined, { ...slots, from: 0, to: 2 }, 3, 20).breaks).toEqual([2]);
    // Beyond the end there is no ring.
    expect(wallAlong(4, undefined, { ...slots, from: 1, to: 3 }, 3, 20).breaks).toEqual([1]);
    expect(wallAlong(4, undefined, { ...slots, from: 1, to: 3.1 }, 3, 20).breaks).toEqual([1]);
  });

  test("has the slots between their ends, by the side asked for", () => {
    const wall = wallAlong(4, undefined, slots, 3, 20);
    expect([wall.plain, wall.symmetric]).toEqual([false, false]);
    // Ten over 2.5 rad at a radius of 20: a pitch of 5.
    const slotted = { thickness: 4, slotted: { net: 2.5, share: slotShare(4, 1.5, 0.6, 5) } };
    for (const inside of [-0.5, 0, 1, 2]) expect(wall.at(1, inside)).toEqual(slotted);
    for (const inside of [-0.51, 2.01]) expect(wall.at(1, inside)).toEqual({ thickness: 4 });
    // One object as long as the wall does not vary.
    expect(wall.at(1, 1)).toBe(wall.at(1.5, 1));
  });

  test("with slots is alike on both halves when shape and slots are", () => {
    const both = { ...slots, from: -1, to: 1 };
    expect(wallAlong(4, undefined, both, 3, 20).symmetric).toBe(true);
    expect(wallAlong(4, half, both, 3, 20).symmetric).toBe(true);
    expect(wallAlong(4, whole, both, 3, 20).symmetric).toBe(false);
    expect(wallAlong(4, half, slots, 3, 20).symmetric).toBe(false);
    const wall = wallAlong(4, (t) => 1 + t / 10, both, 3, 20);
    expect([wall.plain, wall.symmetric]).toEqual([false, false]);
    for (const t of [0.5, -0.5]) {
      const { thickness, slotted } = wall.at(t, t);
      near(thickness, 4 + 0.4 * t);
      near(slotted?.net ?? 0, 2.5 + 0.4 * t);
      near(slotted?.share ?? 0, slotShare(4 + 0.4 * t, 1.5, 0.6, 4));
    }
  });
});
