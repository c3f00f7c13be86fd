import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import {
  designRing,
  endsInBand,
  type Point,
  proveClosure,
  type RingDesign,
  type RingSpecInput,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, runs } from "./rings.js";

/**
 * Rings whose halves differ: the mirror image of an order gives the mirror image of the ring, everything about both
 * halves is told apart, and they close as well as any.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const BORE = FERRY.bore;

/** An order and its mirror image. */
type Pair = readonly [name: string, order: RingSpecInput, image: RingSpecInput];

const section = (extra: object): RingSpecInput => ({ ...FERRY, section: { ...FERRY.section, ...extra } });
const wall = (theta: number) => 1 - 0.08 * Math.cos(theta) + 0.06 * Math.sin(2 * theta);
const angle = [-Math.PI, -2.2, -1, 0.3, 1.4, 2.1, Math.PI];
const backwards = angle.map((at) => -at).reverse();
const values = [0.9, 1.3, 0.8, 1, 1.2, 0.7, 1.1];
const sampled = { shape: "sampled", angle, relative: values } as const;
const sampledImage = { shape: "sampled", angle: backwards, relative: [...values].reverse() } as const;
const slots = { count: 25, depth: 1.3, width: 0.7 };

const PAIRS: Pair[] = [
  [
    "sine terms",
    { ...FERRY, pressure: { shape: "harmonics", cosine: [0.1], sine: [0.2, 0, -0.1] } },
    { ...FERRY, pressure: { shape: "harmonics", cosine: [0.1], sine: [-0.2, 0, 0.1] } },
  ],
  ["a table of pressure", { ...FERRY, pressure: sampled }, { ...FERRY, pressure: sampledImage }],
  ["a wall given as a function", section({ wall }), section({ wall: (theta: number) => wall(-theta) })],
  [
    "a wall given as a table",
    section({ wall: { angle, relative: values.map((v) => 0.8 + 0.2 * v) } }),
    section({ wall: { angle: backwards, relative: values.map((v) => 0.8 + 0.2 * v).reverse() } }),
  ],
  [
    "slots on one side",
    section({ slots: { ...slots, from: 0.4, to: "140 deg" } }),
    section({ slots: { ...slots, from: "-140 deg", to: -0.4 } }),
  ],
  [
    "slots over the back",
    section({ slots: { ...slots, from: -0.5, to: 2 } }),
    section({ slots: { ...slots, from: -2, to: 0.5 } }),
  ],
  [
    "slots from close to the back on",
    section({ slots: { ...slots, from: 0.001, to: 2 } }),
    section({ slots: { ...slots, from: -2, to: -0.001 } }),
  ],
  [
    "all of it, in the thin theory with a wide gap",
    {
      ...section({ wall, slots: { ...slots, from: -0.5, to: 2 } }),
      pressure: sampled,
      theory: "thin",
      closedGap: 3,
    },
    {
      ...section({ wall: (theta: number) => wall(-theta), slots: { ...slots, from: -2, to: 0.5 } }),
      pressure: sampledImage,
      theory: "thin",
      closedGap: 3,
    },
  ],
];

/** Largest distance of an array from the other one, read from its other end. */
function apart(one: readonly number[], other: readonly number[], parity: 1 | -1): number {
  expect(one.length).toBe(other.length);
  return Math.max(...one.map((value, i) => Math.abs(value - parity * other[other.length - 1 - i])));
}

const flipped = (points: readonly Point[]): Point[] => points.map(([x, y]): Point => [-x, y]).reverse();

describe.each(PAIRS)("with %s", (_name, order, image) => {
  const one = designRing(order);
  const other = designRing(image);
  // Both halves are computed alike, but sums run the other way round: rounding, relative to each array's largest.
  const ROUNDING = 1e-13;

  test("the mirror image of the order gives the mirror image of the ring", () => {
    const arrays: [
      RingDesign["free"] | RingDesign["installed"] | NonNullable<RingDesign["wall"]>,
      Record<string, 1 | -1>,
    ][] = [];
    for (const design of [one, other]) {
      arrays.push([design.free, { theta: -1, x: -1, y: 1, tangent: -1, curvature: 1 }]);
      arrays.push([design.installed, { theta: -1, pressure: 1, moment: 1, normal: 1, shear: -1 }]);
      if (design.wall) arrays.push([design.wall, { thickness: 1, netShare: 1 }]);
    }
    const half = arrays.length / 2;
    for (let k = 0; k < half; k++) {
      const [mine, parities] = arrays[k];
      const theirs = arrays[k + half][0];
      for (const [key, parity] of Object.entries(parities)) {
        const pick = (part: object) => (part as Record<string, number[]>)[key];
        const size = Math.max(...pick(mine).map(Math.abs));
        expect(apart(pick(mine), pick(theirs), parity), key).toBeLessThanOrEqual(ROUNDING * size);
      }
    }
    const length = other.free.arcLength.at(-1) as number;
    expect(
      apart(
        one.free.arcLength,
        other.free.arcLength.map((s) => length - s),
        1,
      ),
    ).toBeLessThan(ROUNDING * length);
    expect(Math.abs(one.free.gap - other.free.gap)).toBeLessThan(ROUNDING * BORE);
    expect(Math.abs(one.load.balance - other.load.balance)).toBeLessThan(ROUNDING);
    expect(Math.abs(one.load.balanceSine + other.load.balanceSine)).toBeLessThan(ROUNDING);
    expect(Math.abs(one.stress.closing.max / other.stress.closing.max - 1)).toBeLessThan(ROUNDING);
    expect(one.stress.closing.theta).toBeCloseTo(-other.stress.closing.theta, 12);
  });

  test("and of its outlines, slots and ends", () => {
    const faces: [readonly Point[], readonly Point[]][] = [
      [one.outline.outer, other.outline.outer],
      [one.outline.inner, other.outline.inner],
    ];
    const theirs = other.outline.slots ?? [];
    expect(one.outline.slots?.length).toBe(other.outline.slots?.length);
    for (const [k, slot] of (one.outline.slots ?? []).entries())
      faces.push([slot, theirs[theirs.length - 1 - k]]);
    for (const [mine, face] of faces) {
      for (const [k, [x, y]] of flipped(face).entries()) {
        expect(Math.hypot(mine[k][0] - x, mine[k][1] - y)).toBeLessThan(ROUNDING * BORE);
      }
    }
    expect(Math.abs(one.ends.left.turn - other.ends.right.turn)).toBeLessThan(ROUNDING);
    expect(Math.abs(one.ends.right.turn - other.ends.left.turn)).toBeLessThan(ROUNDING);
    // So much differ the ends that a mix-up would show.
    expect(Math.abs(one.ends.left.turn - one.ends.right.turn)).toBeGreaterThan(1e-4);
    expect(one.ends.turn).toBeCloseTo((one.ends.left.turn + one.ends.right.turn) / 2, 15);
  });

  test("the ring closes to the circle", () => {
    const proof = proveClosure(one);
    // As for any ring; but the curve through few samples has a bend that jumps at each, here by up to 10·p₀, and the proof's
    // smooth tables miss that by a small share of 10·step³.
    const step = Math.PI / one.spec.stations;
    const tolerance = order.pressure?.shape === "sampled" ? 0.1 * step ** 3 : 2e-12;
    expect(proof.radialError).toBeLessThan(tolerance * BORE);
    expect(Math.abs(proof.closedGap - one.spec.closedGap)).toBeLessThan(tolerance * BORE);
    expect(Math.abs(proof.facesOutOfParallel)).toBeLessThan(tolerance);
    expect(proof.forceResidual).toBeLessThan(tolerance);
  });

  test("the ends turn as the free line's ends do, and the gap is their distance", () => {
    const { free, ends, outline, installed } = one;
    const [first, last] = [0, free.theta.length - 1];
    expect(ends.right.turn).toBeCloseTo(free.tangent[last] - installed.theta[last], 14);
    expect(ends.left.turn).toBeCloseTo(installed.theta[first] - free.tangent[first], 14);
    const middle = (at: 0 | -1) => {
      const [[x1, y1], [x2, y2]] = [outline.outer.at(at) as Point, outline.inner.at(at) as Point];
      return [(x1 + x2) / 2, (y1 + y2) / 2];
    };
    const [[x1, y1], [x2, y2]] = [middle(0), middle(-1)];
    // Half-way between the corners a face is at mid wall but for a²·δ²/ρ, δ its angle to the section normal.
    const slack = (FERRY.section.radialThickness * ends.faceToNormal) ** 2 / (BORE / 2);
    expect(Math.abs(Math.hypot(x2 - x1, y2 - y1) - free.gap)).toBeLessThan(slack + 1e-12);
  });
});

property.prop(
  [
    fc.constantFrom(...DEMO_NAMES),
    fc.array(fc.integer({ min: -25, max: 25 }), { minLength: 2, maxLength: 6 }),
  ],
  runs(30),
)("a ring whose halves are alike has ends that are alike, to the last digit", (name, percents) => {
  const ring = DEMO_RINGS[name];
  const cosine = percents.map((percent) => percent / 100 / percents.length);
  const varied = {
    angle: [0, 1, 2, Math.PI],
    relative: [1, ...percents.slice(0, 2).map((n) => 1 + n / 100), 1],
  };
  const { ends, free } = designRing({
    ...ring,
    pressure: { shape: "harmonics", cosine },
    section: { ...ring.section, wall: { ...varied, relative: [...varied.relative] } },
  });
  expect(ends.left).toEqual(ends.right);
  expect(ends.left).toEqual({ turn: ends.turn, faceToAxis: ends.faceToAxis });
  expect(free.y[0]).toBe(free.y.at(-1));
});

describe("endsInBand of a ring whose halves differ", () => {
  const [, order, image] = PAIRS[0];
  const design = designRing(order);
  const { free, outline, ends } = design;
  const last = free.theta.length - 1;
  const [from, to] = [outline.outer[0], outline.outer.at(-1) as Point];
  // The band pulls from corner to corner; its line is tilted by this against the free ring's own axes.
  const tilt = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const along = (free.x[last] - free.x[0]) * Math.cos(tilt) + (free.y[last] - free.y[0]) * Math.sin(tilt);

  test("pulls nothing where the ring is free, and finds each end turned as there, but for the tilt of the pull", () => {
    const held = endsInBand(design, along);
    expect(Math.abs(held.pull)).toBeLessThan(1e-9 * design.load.tangentialForce);
    expect(held.turn).toBeCloseTo(ends.turn, 11);
    expect(held.right.turn).toBeCloseTo(ends.right.turn - tilt, 11);
    expect(held.left.turn).toBeCloseTo(ends.left.turn + tilt, 11);
    expect(Math.abs(tilt)).toBeGreaterThan(0.01);
  });

  test("pulls next to nothing at the free gap, which is the ends' distance and not its part along the pull", () => {
    // The gap at which nothing pulls is smaller by the cosine of the angle between the two, here some 1e-6 of it.
    const held = endsInBand(design, free.gap);
    const share = (free.gap - along) / free.gap;
    expect(share).toBeGreaterThan(0);
    expect(share).toBeLessThan(1e-5);
    expect(Math.abs(held.pull)).toBeLessThan(2 * share * design.load.tangentialForce);
    expect(Math.abs(held.turn - ends.turn)).toBeLessThan(2 * share * Math.abs(ends.turn));
  });

  test("is the mirror image for the mirror image", () => {
    const gap = 0.6 * free.gap;
    const one = endsInBand(design, gap);
    const other = endsInBand(designRing(image), gap);
    expect(one.pull).toBeCloseTo(other.pull, 9);
    expect(one.left.turn).toBeCloseTo(other.right.turn, 10);
    expect(one.right.turn).toBeCloseTo(other.left.turn, 10);
    expect(one.turn).toBeCloseTo((one.left.turn + one.right.turn) / 2, 14);
    expect(one.pull).toBeGreaterThan(0);
  });
});
