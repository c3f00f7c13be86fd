import { describe, expect, test } from "vitest";
import { freeEnds } from "../src/ends/ends.js";
import { endsInBand } from "../src/ends/endsInBand.js";
import { heldRing } from "../src/ends/heldRing.js";
import { partClosed } from "../src/ends/partClosed.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { SpecError } from "../src/spec/error.js";
import { assembled } from "./assembled.js";

/** The ends free and in a band: where statics, energy or the free shape tell what must come out. */

const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThan(tolerance);

const FORCE = 20;
const section = { shape: "rectangle", radialThickness: 4.4, axialHeight: 2 } as const;
const ferry = {
  section,
  material: { youngsModulus: 205000, poissonRatio: 0.3 },
  theory: "curved",
  closedGap: 0,
} as const;
const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);
const slots = { count: 25, depth: 1.3, width: 0.7, from: -0.5, to: 2 };
const kinds = [
  ["of one section", section],
  ["of a varying wall", { ...section, wall }],
  ["with slots on one side", { ...section, slots }],
] as const;

test("freeEnds: turns from the closed position, their mean, and the wedge a·s/r of square cuts", () => {
  // d = 44, a = 4, s = 20: sin δ = 1/2, so θC = 5π/6.
  const geometry = closedGeometry(44, 4, 20);
  const limit = (5 * Math.PI) / 6;
  const ends = freeEnds({ left: limit - 0.3, right: limit - 0.1 }, geometry, 3, 20);
  near(ends.faceToNormal, Math.PI / 6, 1e-15);
  near(ends.left.turn, -0.3, 1e-15);
  near(ends.left.faceToAxis, 0.3, 1e-15);
  near(ends.right.turn, -0.1, 1e-15);
  near(ends.right.faceToAxis, 0.1, 1e-15);
  near(ends.turn, -0.2, 1e-15);
  near(ends.faceToAxis, 0.2, 1e-15);
  // Wall 3 at the ends, its middle at 22 − 1.5.
  near(ends.wedgeIfSquare, 60 / 20.5, 1e-14);
});

describe.each(kinds)("a ring %s, made for uniform pressure and no gap,", (_, section) => {
  const ring = assembled({ ...ferry, section }, 118, FORCE);
  const { theta } = ring.installed;

  test("is held closed by Ft, its faces parallel", () => {
    // A band round a circle presses uniformly with T/(h·R); the pull is then Ft by its definition (ISO 6621-2, from memory).
    const held = endsInBand(ring, 0);
    near(held.pull, FORCE, 1e-6 * FORCE);
    for (const turn of [held.turn, held.left.turn, held.right.turn]) near(turn, 0, 1e-7);
    expect(held.gap).toBe(0);
  });

  test("is a ring of circles when held closed", () => {
    const { outline, pull, gap } = partClosed(ring, 0);
    near(pull, FORCE, 1e-6 * FORCE);
    expect(gap).toBe(0);
    expect(outline.outer.length).toBe(theta.length);
    expect(outline.inner.length).toBe(theta.length);
    for (const [i, t] of theta.entries()) {
      const inner = 59 - (ring.wall?.thickness[i] ?? 4.4);
      for (const [[x, y], radius] of [
        [outline.outer[i], 59],
        [outline.inner[i], inner],
      ] as const) {
        near(x, radius * Math.sin(t), 1e-5);
        near(y, -radius * Math.cos(t), 1e-5);
      }
    }
  });
});

describe.each([
  ["no gap", 0],
  ["a wide gap", 9],
])("a ring of %s, held at its free gap,", (_, closedGap) => {
  test.each(kinds)("%s, needs no pull and is the free ring", (_name, section) => {
    const ring = assembled({ ...ferry, section, closedGap }, 118, FORCE);
    const { outer } = ring.outline;
    const gap = ring.free.gap;
    // The opening is asked for along the pull, which joins the outer corners.
    const [left, right] = [outer[0], outer[outer.length - 1]];
    const tilt = Math.atan2(right[1] - left[1], right[0] - left[0]);
    const { left: from, right: to } = ring.faceMiddles;
    const along = (to[0] - from[0]) * Math.cos(tilt) + (to[1] - from[1]) * Math.sin(tilt);
    near(Math.hypot(to[0] - from[0], to[1] - from[1]), gap, 1e-9);
    const held = partClosed(ring, along);
    near(held.pull, 0, 1e-6 * FORCE);
    for (const face of ["outer", "inner"] as const) {
      expect(held.outline[face].length).toBe(ring.outline[face].length);
      for (const [i, [x, y]] of held.outline[face].entries()) {
        near(x, ring.outline[face][i][0], 1e-5);
        near(y, ring.outline[face][i][1], 1e-5);
      }
    }
    // From the pull's line, each face has turned by its own angle and the tilt.
    const ends = endsInBand(ring, along);
    near(ends.right.turn, ring.ends.right.turn - tilt, 1e-6);
    near(ends.left.turn, ring.ends.left.turn + tilt, 1e-6);
    near(ends.turn, ring.ends.turn, 1e-6);
    near(ends.faceToAxis, ring.ends.faceToAxis, 1e-6);
    near(ends.right.faceToAxis, Math.abs(ends.right.turn), 1e-15);
  });
});

test("the inner face stops short of the last stations where the gap is so wide that the cuts take it away", () => {
  // Cuts 80 apart meet the inner face of 54.6 at π − asin(40/54.6), more than a step before the line of 56.8 ends.
  const ring = assembled({ ...ferry, closedGap: 80 }, 118, FORCE, { steps: 80 });
  const { outline } = partClosed(ring, ring.free.gap);
  expect(outline.inner.length).toBe(outline.outer.length - 2);
  for (const [i, [x, y]] of outline.inner.entries()) {
    near(x, ring.outline.inner[i][0], 1e-5);
    near(y, ring.outline.inner[i][1], 1e-5);
  }
});

describe("the corners of a ring in a band stand over its back", () => {
  const height = (section: (typeof kinds)[number][1]) =>
    endsInBand(assembled({ ...ferry, section }, 118, FORCE), 0).height;

  test.each(kinds.slice(0, 2))("by a bore's diameter when closed without a gap: %s", (_, section) => {
    near(height(section), 118, 1e-5);
  });

  // Found here: the back is looked up in the march as if stations stood twice in it where slots begin or end.
  test("by a bore's diameter when closed without a gap: with slots on one side", () => {
    near(height(kinds[2][1]), 118, 1e-5);
  });

  test("by what they do in the free shape when free", () => {
    const ring = assembled({ ...ferry, closedGap: 9 }, 118, FORCE);
    const { outer } = ring.outline;
    near(endsInBand(ring, ring.free.gap).height, outer[0][1] - outer[(outer.length - 1) / 2][1], 1e-5);
  });
});

test("the pull is what the band's length costs in energy: U = ½∫M²/(E·I) ds falls by ∫T dL", () => {
  // A thin ring keeps its line's length S; the band is S + a/2·(ψR − ψL) long, and the way across the gap.
  const [a, h, E] = [4.4, 2, 205000];
  const flexibility = 12 / (E * h * a ** 3);
  const steps = 80;
  const ring = assembled({ ...ferry, theory: "thin" }, 118, FORCE, { steps });
  const ds = (Math.PI * ring.installed.centroidRadius) / steps;
  const state = (gap: number) => {
    const { pull, march } = heldRing(ring, gap);
    const { outer } = march;
    const line = outer[0].point[1];
    // M = T·(H − y − a/2), H the height of the pull's line; the line lies a/2 inside the face, so its y is the face's and a/2·cos ψ.
    const bending = outer.map(
      ({ point: [, y], tangent }) => pull * (line - y - (a / 2) * (Math.cos(tangent) + 1)),
    );
    // Without a gap the faces are square to the line, so that the corners belong to its ends.
    const squares = bending.map((M) => (M * M * flexibility) / 2);
    const simpson = squares.reduce(
      (sum, value, i) => sum + value * (i === 0 || i === squares.length - 1 ? 1 : i % 2 === 1 ? 4 : 2),
      0,
    );
    const [first, last] = [outer[0], outer[outer.length - 1]];
    const loop = (a / 2) * (first.tangent - last.tangent) + (first.point[0] - last.point[0]);
    return { pull, energy: (simpson * ds) / 3, loop };
  };
  const gap = ring.free.gap;
  const [one, middle, other] = [0.3, 0.5, 0.7].map((share) => state(share * gap));
  // Simpson's rule: the loop grows all but evenly with the gap.
  const work = (other.loop - one.loop) * ((one.pull + 4 * middle.pull + other.pull) / 6);
  near((one.energy - other.energy) / work, 1, 1e-4);
});

test("a ring is held anywhere from its closed to its free gap, and nowhere else", () => {
  const ring = assembled({ ...ferry, closedGap: 0.45 }, 118, FORCE);
  const { gap } = ring.free;
  for (const wrong of [0.449, gap + 0.001, Number.NaN, -1]) {
    expect(() => endsInBand(ring, wrong)).toThrow(SpecError);
    expect(() => partClosed(ring, wrong)).toThrow(
      /^gap.*from the closed gap 0\.45 to the free gap \d+\.\d+ mm/,
    );
  }
  const pulls = [0.45, 0.3 * gap, 0.7 * gap, gap].map((at) => endsInBand(ring, at).pull);
  expect([...pulls].sort((one, other) => other - one)).toEqual(pulls);
  near(pulls[0], FORCE, 0.01 * FORCE);
});
