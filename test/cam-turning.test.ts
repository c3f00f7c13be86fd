import { describe, expect, test } from "vitest";
import { type AddedMetal, outlinePoints } from "../src/curves.js";
import { camCsv } from "../src/files/csv.js";
import {
  type CamFace,
  type CamInput,
  type CamTurning,
  camTurning,
  closeInBore,
  designRing,
  type Point,
  pressureOf,
  proveClosure,
  type RingDesign,
  type RingSpecInput,
  ringOfCurvature,
  SpecError,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError } from "./rings.js";

/**
 * The cam lathe's table, read as a polar curve: whether it is the free ring, how the tool moves, and whether the ring
 * that it makes closes again to a circle with its pressure.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const NO_METAL: AddedMetal = { outer: 0, inner: 0, sides: 0, ends: 0 };

const section = (extra: object): RingSpecInput => ({ ...FERRY, section: { ...FERRY.section, ...extra } });
const sines = (sine: number[], pressure = 0.15): RingSpecInput => ({
  ...FERRY,
  load: { contactPressure: pressure },
  pressure: { shape: "harmonics", cosine: [], sine },
});

/** Rings of every kind. */
const RINGS: readonly (readonly [name: string, spec: RingSpecInput])[] = [
  ["ferry 118 mm", FERRY],
  ["gas engine 340 mm", DEMO_RINGS["gas engine 340 mm"]],
  ["more at the gap", { ...FERRY, pressure: { shape: "moreAtGap", strength: 1 } }],
  ["halves not alike", sines([0.2, 0, -0.1])],
  [
    "wall as a function",
    section({ wall: (theta: number) => 1 - 0.08 * Math.cos(theta) + 0.06 * Math.sin(2 * theta) }),
  ],
  ["slots on one side", section({ slots: { count: 20, depth: 1.2, width: 0.7, from: -0.5, to: 2 } })],
  ["wide gap, soft", { ...FERRY, closedGap: 3, load: { contactPressure: 0.02 } }],
];
/** Dense tables take their time: of rings that differ in size or pressure only, one is enough. */
const LOOKED_INTO = RINGS.filter(([name]) => !/gas engine|more at/.test(name));
const FACES = ["outer", "inner"] as const;
type Face = (typeof FACES)[number];

const worst = (values: readonly number[]) =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
const lastOf = <T>(values: readonly T[]) => values[values.length - 1];

/** The point at an angle from the back and a radius, about a centre. */
const pointAt = (angle: number, radius: number, [x, y]: Point = [0, 0]): Point => [
  x + radius * Math.sin(angle),
  y - radius * Math.cos(angle),
];
/** Angle from the back of a point about a centre. */
const angleOf = ([px, py]: Point, [x, y]: Point = [0, 0]) => Math.atan2(px - x, y - py);
const pointsOf = ({ angle, centre }: CamTurning, radius: readonly number[]): Point[] =>
  angle.map((at, k) => pointAt(at, radius[k], centre));

/** Whether a row stands on the ring, not on the sector that is cut out. */
const onRing = ({ angle, cutOut }: CamTurning, k: number, margin = 0) => {
  const turn = 2 * Math.PI;
  const past = (angle[k] - cutOut.to - margin + 2 * turn) % turn;
  return past <= (cutOut.from - cutOut.to - 2 * margin + 2 * turn) % turn;
};

/** Distance from a smooth line of points: from the circle through the nearest one and its neighbours. */
function distanceTo(line: readonly Point[]): (point: Point) => number {
  // Points that stand twice, or nearly, mean no circle.
  const points = line.filter(
    ([x, y], i) => i === 0 || Math.hypot(x - line[i - 1][0], y - line[i - 1][1]) > 1e-3,
  );
  return ([x, y]) => {
    let nearest = 1;
    let square = Number.POSITIVE_INFINITY;
    for (let i = 1; i < points.length - 1; i++) {
      const here = (points[i][0] - x) ** 2 + (points[i][1] - y) ** 2;
      if (here < square) [nearest, square] = [i, here];
    }
    const [[x0, y0], [x1, y1], [x2, y2]] = [points[nearest - 1], points[nearest], points[nearest + 1]];
    const [ax, ay, bx, by] = [x0 - x1, y0 - y1, x2 - x1, y2 - y1];
    const cross = 2 * (ax * by - ay * bx);
    const [a2, b2] = [ax * ax + ay * ay, bx * bx + by * by];
    const [cx, cy] = [x1 + (by * a2 - ay * b2) / cross, y1 + (ax * b2 - bx * a2) / cross];
    return Math.abs(Math.hypot(x - cx, y - cy) - Math.hypot(x1 - cx, y1 - cy));
  };
}

/**
 * How far a face is off circles through three points a step apart: κ′·h³/(9√3), and h²·Δκ/2 at most where the curvature
 * jumps. At its end the outline takes a varying wall as it is at the end of the line: its slope times what the cut takes.
 */
function offCircles({ free, wall, spec, ends }: RingDesign): number {
  const { arcLength: s, curvature } = free;
  const a = spec.section.radialThickness;
  let most = 0;
  for (let i = 1; i < s.length - 1; i++) {
    const step = s[i] - s[i - 1];
    const change = Math.abs(curvature[i] - curvature[i - 1]);
    most = Math.max(most, step > 0 ? (change * step ** 2) / 15 : (change * (s[i + 1] - s[i]) ** 2) / 2);
  }
  if (!wall) return 2 * most;
  const slope = Math.abs(wall.thickness[1] - wall.thickness[0]) / (s[1] - s[0]);
  return 2 * most + slope * a * ends.faceToNormal;
}

describe.each(LOOKED_INTO)("camTurning of a ring, %s,", (_name, spec) => {
  const design = designRing({ ...spec, stations: 360 });
  const { bore } = design.spec;
  /** Angles at which a face's curvature or its slope changes at once: its ends, and the ends of slots. */
  const junctions = (name: Face) => [
    ...endsOf(design, name),
    ...design.free.theta.flatMap((theta, i) =>
      theta === design.free.theta[i - 1] ? [angleOf(design.outline.outer[i])] : [],
    ),
  ];

  test("has its rows at equal steps, closes, and stays on the free ring's faces but for the cut-out", () => {
    const cam = camTurning(design);
    expect(cam.centre).toEqual([0, 0]);
    expect(cam.angle.length).toBe(361);
    expect(worst(cam.angle.map((at, k) => at + Math.PI - (2 * Math.PI * k) / 360))).toBeLessThan(1e-14);
    for (const name of FACES) {
      const { radius } = cam[name];
      expect(Math.abs(lastOf(radius) - radius[0])).toBeLessThan(1e-12 * bore);
      const face = design.outline[name];
      // The inner face ends where the cut does: some way outside the sector seen at the outer face.
      const [first, last] = [angleOf(face[0]), angleOf(lastOf(face))];
      const rows = cam.angle.flatMap((at, k) => (at >= first && at <= last ? [pointAt(at, radius[k])] : []));
      expect(rows.length).toBeGreaterThan(300);
      const off = worst(rows.map(distanceTo(face)));
      expect(off).toBeLessThan(offCircles(design) + 1e-11 * bore);
    }
  });

  test("cuts out the sector between its outer corners", () => {
    const { cutOut } = camTurning(design);
    expect(Math.abs(cutOut.to - angleOf(design.outline.outer[0]))).toBeLessThan(1e-10);
    expect(Math.abs(cutOut.from - angleOf(lastOf(design.outline.outer)))).toBeLessThan(1e-10);
  });

  test("keeps the wall, measured square to the outer face, wherever the ring is", () => {
    const cam = camTurning(design, { step: 4e-3 });
    const toInner = distanceTo(pointsOf(cam, cam.inner.radius));
    const wall = design.wall?.thickness ?? design.free.theta.map(() => design.spec.section.radialThickness);
    for (let k = 0; k < cam.angle.length; k += 15) {
      // Away from the ends, so that the foot on the inner face is ring as well.
      if (!onRing(cam, k, 0.1)) continue;
      const { radius, slope } = cam.outer;
      const [sin, cos] = [Math.sin(cam.angle[k]), Math.cos(cam.angle[k])];
      // Square to the tangent (ρ′·u + ρ·u′): inward.
      const [tx, ty] = [slope[k] * sin + radius[k] * cos, -slope[k] * cos + radius[k] * sin];
      const speed = Math.hypot(tx, ty);
      const outer = pointAt(cam.angle[k], radius[k]);
      const place = nearestStation(design, outer);
      const foot: Point = [outer[0] - (wall[place] * ty) / speed, outer[1] + (wall[place] * tx) / speed];
      // The wall is taken at the nearest station, at most half a step away; where slots end circles leave some 1e-6.
      const slopeOfWall = Math.abs(wall[place + 1] - wall[place - 1]) / 2;
      expect(toInner(foot)).toBeLessThan(slopeOfWall + 5e-6);
    }
  });

  test("has a slope and a second derivative that are those of its lift", () => {
    const cam = camTurning(design, { step: 2e-3, noseRadius: 2 });
    const step = cam.angle[1] - cam.angle[0];
    for (const name of FACES) {
      const { lift, slope, second, toolRadius, largestLift } = cam[name];
      expect(Math.min(...lift)).toBe(0);
      expect(Math.max(...lift)).toBe(largestLift);
      const lowest = Math.min(...toolRadius);
      expect(worst(lift.map((value, k) => value - (toolRadius[k] - lowest)))).toBe(0);
      let [slopeOff, secondOff] = [0, 0];
      // A formula of five points must not lie across a junction, which the nose's middle passes some 0.01 rad earlier or later.
      const places = junctions(name);
      for (let k = 2; k < lift.length - 2; k++) {
        if (places.some((place) => Math.abs(cam.angle[k] - place) < 0.015)) continue;
        const [a, b, c, d, e] = lift.slice(k - 2, k + 3);
        slopeOff = Math.max(slopeOff, Math.abs((a - 8 * b + 8 * d - e) / (12 * step) - slope[k]));
        secondOff = Math.max(
          secondOff,
          Math.abs((-a + 16 * b - 30 * c + 16 * d - e) / (12 * step ** 2) - second[k]),
        );
      }
      // The formulas miss step⁴/30 = 5e-13 of the fifth derivative and step⁴/90 of the sixth, which over the gap are as large
      // as the radius over 0.1⁴ or so; rounding leaves some 1e-16 of the radius over step and step².
      expect(slopeOff).toBeLessThan(1e-8 * bore);
      expect(secondOff).toBeLessThan(1e-6 * bore);
    }
  });

  test("goes over the gap without a jump in radius, slope or second derivative", () => {
    /** Largest changes from row to row about the faces' ends. */
    const changes = (step: number) => {
      const cam = camTurning(design, { step });
      return FACES.flatMap((name) => {
        const near = cam.angle.flatMap((at, k) =>
          k > 0 && endsOf(design, name).some((end) => Math.abs(at - end) < 1.2e-2) ? [k] : [],
        );
        return (["radius", "slope", "second"] as const).map((key) =>
          worst(near.map((k) => cam[name][key][k] - cam[name][key][k - 1])),
        );
      });
    };
    const [coarse, fine] = [changes(4e-3), changes(1e-3)];
    // Changes that are in proportion to the step vanish with it; a jump would stay.
    for (const [i, change] of coarse.entries()) expect(fine[i]).toBeLessThan(0.35 * change + 1e-9 * bore);
  });

  test("moves a tool whose nose touches the faces everywhere and cuts them nowhere", () => {
    const nose = 3;
    const cam = camTurning(design, { step: 2e-3, noseRadius: nose });
    const pointed = camTurning(design, { step: 2e-3 });
    for (const name of FACES) {
      // The face itself does not depend on the tool.
      expect(worst(cam[name].radius.map((radius, k) => radius - pointed[name].radius[k]))).toBeLessThan(
        1e-11 * bore,
      );
      const face = pointsOf(cam, cam[name].radius);
      // Once round and a little more, so that each row has neighbours.
      const toFace = distanceTo([...face, face[1]]);
      const tools = pointsOf(cam, cam[name].toolRadius).filter((_, k) => k % 10 === 0);
      // The nearest place of all, so that it is nowhere nearer either.
      const off = worst(tools.map((tool) => toFace(tool) - nose));
      const side = name === "outer" ? 1 : -1;
      expect(
        Math.min(...cam[name].toolRadius.map((rho, k) => side * (rho - cam[name].radius[k]))),
      ).toBeGreaterThan(0);
      // Rows stand h = 2e-3 rad apart, over the gap on a curve that bends by at most some 1/r within it: κ′·h³/(9√3).
      expect(off).toBeLessThan(2e-8 * bore + 4 * offCircles(design));
    }
  });
});

/** Angles at which a face ends. */
function endsOf({ outline }: RingDesign, name: Face): [number, number] {
  return [angleOf(outline[name][0]), angleOf(lastOf(outline[name]))];
}

function nearestStation({ outline }: RingDesign, [px, py]: Point): number {
  let [nearest, square] = [0, Number.POSITIVE_INFINITY];
  for (const [i, [x, y]] of outline.outer.entries()) {
    const here = (x - px) ** 2 + (y - py) ** 2;
    if (here < square) [nearest, square] = [i, here];
  }
  return nearest;
}

describe("camTurning with metal on the faces", () => {
  const design = designRing(FERRY);
  const added = { outer: 0.3, inner: 0.2, sides: 0, ends: 0.1 };

  test("turns the outline that has it", () => {
    const cam = camTurning(design, {}, added);
    const points = outlinePoints(design, { added, tolerance: 1e-5 });
    for (const name of FACES) {
      const [one, other] = [points[name][0], lastOf(points[name])];
      const [first, last] = [angleOf(one), angleOf(other)].sort((a, b) => a - b);
      const rows = cam.angle.flatMap((at, k) =>
        at >= first && at <= last ? [pointAt(at, cam[name].radius[k])] : [],
      );
      // Points 0.07 mm apart: circles through three leave 0.07³·κ′, 1e-10 mm.
      expect(worst(rows.map(distanceTo(points[name])))).toBeLessThan(1e-8);
    }
    const corners = [cam.cutOut.to, cam.cutOut.from];
    expect(corners[0]).toBeCloseTo(angleOf(points.outer[0]), 9);
    expect(corners[1]).toBeCloseTo(angleOf(lastOf(points.outer)), 9);
  });

  test("turns the blank larger by it at the back", () => {
    const [plain, more] = [camTurning(design), camTurning(design, {}, added)];
    expect(more.outer.radius[180] - plain.outer.radius[180]).toBeCloseTo(0.3, 10);
    expect(plain.inner.radius[180] - more.inner.radius[180]).toBeCloseTo(0.2, 10);
  });
});

describe("largestAcceleration", () => {
  test.each(RINGS)("is ω²·max|second| by hand: %s", (_name, spec) => {
    const design = designRing(spec);
    for (const rpm of [60, 400]) {
      const cam = camTurning(design, { spindleSpeed: rpm, noseRadius: 1 });
      // mm to m; ω = 2π·n/60.
      const square = ((2 * Math.PI * rpm) / 60) ** 2 / 1000;
      for (const name of FACES) {
        const byHand = square * worst(cam[name].second);
        // The largest may stand between two rows.
        expect(cam[name].largestAcceleration).toBeGreaterThan(byHand * (1 - 1e-12));
        expect(cam[name].largestAcceleration).toBeLessThan(byHand * 1.1);
      }
    }
    expect(camTurning(design, { spindleSpeed: 0 }).outer.largestAcceleration).toBe(0);
  });

  test.each([0.15, 0.05, 0.01])(
    "and largestLift are the tool's, however many rows the table has: halves not alike, %s MPa",
    (pressure) => {
      const design = designRing(sines([0.4], pressure));
      const [usual, dense] = [camTurning(design), camTurning(design, { step: 1e-3 })];
      for (const name of FACES) {
        // By a row's own step a crest of the lift is missed by second·step²/8, a crest of the acceleration by a hundredth.
        expect(relativeError(usual[name].largestAcceleration, dense[name].largestAcceleration)).toBeLessThan(
          0.02,
        );
        const lift = (worst(dense[name].second) * (Math.PI / 180) ** 2) / 8;
        expect(Math.abs(usual[name].largestLift - dense[name].largestLift)).toBeLessThan(lift);
      }
    },
  );
});

describe("a face that is hollow to the tool", () => {
  /** Curvature of the table as a polar curve, (ρ² + 2ρ′² − ρρ″)/(ρ² + ρ′²)^(3/2): any textbook of curves. */
  const curvature = ({ radius: [...radius], slope, second }: CamFace) =>
    radius.map((rho, k) => (rho ** 2 + 2 * slope[k] ** 2 - rho * second[k]) / Math.hypot(rho, slope[k]) ** 3);

  test("is never the outer one of a ring whose halves are alike, and always the inner one", () => {
    for (const [, spec] of RINGS.slice(0, 3)) {
      const { outer, inner } = camTurning(designRing(spec), { step: 4e-3 });
      expect(outer.smallestHollow).toBeUndefined();
      expect(Math.min(...curvature(outer))).toBeGreaterThan(0);
      expect(relativeError(inner.smallestHollow as number, 1 / Math.max(...curvature(inner)))).toBeLessThan(
        1e-3,
      );
    }
  });

  // Ends at different radii must be joined over the gap: the softer the ring, the shorter the bridge.
  describe.each([
    [0.15, 0.2],
    [0.15, 0.4],
    [0.05, 0.4],
    [0.01, 0.2],
  ])("is also the outer one of a ring of %s MPa and %s of it as sin 2θ:", (pressure, sine) => {
    const design = designRing(sines([sine], pressure));
    const { outer, inner } = camTurning(design, { step: 4e-4 });
    const hollow = { outer: -1 / Math.min(...curvature(outer)), inner: 1 / Math.max(...curvature(inner)) };

    test("smallestHollow is its smallest radius of curvature", () => {
      const found = camTurning(design);
      // The dense table and a search at hundreds of points over the bridge differ by some thousandths.
      expect(relativeError(found.outer.smallestHollow as number, hollow.outer)).toBeLessThan(0.01);
      expect(relativeError(found.inner.smallestHollow as number, hollow.inner)).toBeLessThan(0.01);
    });

    test("a larger nose is refused, a smaller one not", () => {
      const smallest = Math.min(hollow.outer, hollow.inner);
      expect(camTurning(design, { noseRadius: 0.98 * smallest }).outer.lift.length).toBe(361);
      const error = refusal(design, { noseRadius: 1.02 * smallest });
      expect(error.field).toBe("noseRadius");
      expect(error.allowed).toMatch(hollow.outer < hollow.inner ? /outer face/ : /inner face/);
    });
  });
});

describe("the centre", () => {
  /** Width of the zone between two circles about a centre that hold the points. */
  const zone = (points: readonly Point[], [cx, cy]: Point) => {
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (const [x, y] of points) {
      const distance = Math.hypot(x - cx, y - cy);
      [least, most] = [Math.min(least, distance), Math.max(most, distance)];
    }
    return most - least;
  };

  const LOBED: (typeof RINGS)[number] = [
    "five lobes",
    { ...FERRY, pressure: { shape: "harmonics", cosine: [0, 0, 0, 0.8] } },
  ];
  test.each([...RINGS.slice(0, 4), LOBED])(
    "of the minimum zone has the least lift, less than any of a grid about it: %s",
    (_name, spec) => {
      const design = designRing(spec);
      for (const noseRadius of [0, 4]) {
        const bore = camTurning(design, { noseRadius, step: "0.5 deg" });
        const best = camTurning(design, { noseRadius, centre: "minimumZone" });
        const points = pointsOf(bore, bore.outer.toolRadius);
        const found = zone(points, best.centre);
        // Points half a degree apart miss a crest by second·step²/8.
        const missed = (worst(bore.outer.second) * (Math.PI / 360) ** 2) / 8;
        expect(Math.abs(best.outer.largestLift - found)).toBeLessThan(4 * missed);
        // Opening moves the gap's side outward, so the bore's centre is far from the best.
        expect(found).toBeLessThan(0.6 * bore.outer.largestLift);
        const spread = bore.outer.largestLift / 2;
        for (let i = -6; i <= 6; i++) {
          for (let j = -6; j <= 6; j++) {
            // Steps that are wide far off and narrow close by.
            const at: Point = [
              best.centre[0] + spread * (i / 6) ** 3,
              best.centre[1] + spread * (j / 6) ** 3,
            ];
            expect(zone(points, at)).toBeGreaterThan(found - missed);
          }
        }
      }
    },
  );

  test("of the minimum zone lies on the axis of a ring whose halves are alike", () => {
    for (const name of DEMO_NAMES) {
      const [x, y] = camTurning(designRing(DEMO_RINGS[name]), { centre: "minimumZone" }).centre;
      // The search ends within 1e-7 of the radius; a corner of the zone is flatter than that by a little.
      expect(Math.abs(x)).toBeLessThan(1e-6 * DEMO_RINGS[name].bore);
      expect(y).toBeGreaterThan(0);
    }
  });

  test.each([
    [0.5, 1],
    [7, 0],
    [-20, 10],
    [30, -25],
  ])("at %d, %d turns the same ring", (x, y) => {
    const design = designRing({ ...FERRY, stations: 360 });
    const cam = camTurning(design, { centre: [x, `${y} mm`] });
    expect(cam.centre).toEqual([x, y]);
    for (const name of FACES) {
      const face = design.outline[name];
      const ends = [angleOf(face[0], [x, y]), angleOf(lastOf(face), [x, y])];
      const points = pointsOf(cam, cam[name].radius);
      const rows = points.filter((_, k) => {
        const past = (cam.angle[k] - ends[0] + 4 * Math.PI) % (2 * Math.PI);
        return past > 0 && past < (ends[1] - ends[0] + 4 * Math.PI) % (2 * Math.PI);
      });
      expect(rows.length).toBeGreaterThan(300);
      expect(worst(rows.map(distanceTo(face)))).toBeLessThan(offCircles(design) + 1e-9);
    }
    expect(cam.cutOut.to).toBeCloseTo(angleOf(design.outline.outer[0], [x, y]), 9);
    expect(cam.cutOut.from).toBeCloseTo(angleOf(lastOf(design.outline.outer), [x, y]), 9);
  });

  test("beside the axis leaves the rows marked as cut out those between the ends", () => {
    // Counter-clockwise from the right-hand end to the left-hand one: 11.6 mm of some 60 mm radius, 0.19 rad or 11 rows.
    const design = designRing(FERRY);
    for (const centre of [
      [0, 0],
      [7, 0],
      [-7, 3],
    ] as [number, number][]) {
      const cam = camTurning(design, { centre });
      const lines = camCsv(cam).trim().split("\n").slice(1);
      const marked = lines.map((line) => line.endsWith(",yes"));
      expect(marked.flatMap((yes, k) => (yes === onRing(cam, k) ? [k] : []))).toEqual([]);
      const count = marked.filter((yes) => yes).length;
      expect(count).toBeGreaterThan(9);
      expect(count).toBeLessThan(14);
    }
  });
});

// biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
function refusal(design: RingDesign, options: any, added = NO_METAL): SpecError {
  try {
    camTurning(design, options as CamInput, added);
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    return error as SpecError;
  }
  throw new Error(`not refused: ${JSON.stringify(options)}`);
}

describe("camTurning refuses", () => {
  const design = designRing(FERRY);
  test.each([
    [{ centre: [70, 0] }, "centre", /inside the tool's path/],
    [{ centre: [0, 60] }, "centre", /inside the tool's path/],
    // 54.6 mm inside at the back, less the nose.
    [{ centre: [0, -50], noseRadius: 6 }, "centre", /inside the tool's path/],
    [{ centre: "middle" }, "centre", /"bore", "minimumZone" or \[x, y\]/],
    [{ centre: [1] }, "centre.1", /mm/],
    [{ centre: [1, "2 kg"] }, "centre.1", /"kg" is not a length unit/],
    [{ centre: [Number.NaN, 0] }, "centre.0", /mm/],
    [{ noseRadius: 80 }, "noseRadius", /below 5\d\.\d+ mm, the smallest hollow radius of the inner face/],
    [{ noseRadius: -1 }, "noseRadius", /from 0/],
    [{ step: 0 }, "step", /0\.0001 to 0\.2 rad/],
    [{ step: "1 mm" }, "step", /"mm" is not an angle unit/],
    [{ step: 1 }, "step", /0\.0001 to 0\.2 rad/],
    [{ spindleSpeed: -1 }, "spindleSpeed", /from 0/],
    [{ spindleSpeed: "60 rpm" }, "spindleSpeed", /number/],
    [{ nose: 3 }, "nose", /nearest is "noseRadius"/],
  ])("%j", (options, field, allowed) => {
    const error = refusal(design, options);
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(allowed);
  });

  test("nothing about a centre close to the inner face", () => {
    expect(camTurning(design, { centre: [0, -53] }).outer.largestLift).toBeGreaterThan(100);
  });
});

/** Degree of the polynomial that the table's radii are read by. */
const DEGREE = 24;

/** Least squares by polynomials that are orthogonal on the points (G. E. Forsythe, J. SIAM 5 (1957) 74–88, from memory). */
function smoothed(t: readonly number[], f: readonly number[]): (at: number) => [number, number, number] {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const steps: { coefficient: number; alpha: number; beta: number }[] = [];
  let [before, now] = [t.map(() => 0), t.map(() => 1)];
  let sizeBefore = 1;
  for (let degree = 0; degree <= DEGREE; degree++) {
    const size = sum(now.map((p) => p * p));
    const coefficient = sum(now.map((p, i) => p * f[i])) / size;
    const alpha = sum(now.map((p, i) => p * p * t[i])) / size;
    const beta = degree === 0 ? 0 : size / sizeBefore;
    steps.push({ coefficient, alpha, beta });
    const next = now.map((p, i) => (t[i] - alpha) * p - beta * before[i]);
    [before, now, sizeBefore] = [now, next, size];
  }
  return (at) => {
    let [value, slope, second] = [0, 0, 0];
    let [p0, p1, p2, q0, q1, q2] = [1, 0, 0, 0, 0, 0];
    for (const { coefficient, alpha, beta } of steps) {
      value += coefficient * p0;
      slope += coefficient * p1;
      second += coefficient * p2;
      const off = at - alpha;
      [p0, p1, p2, q0, q1, q2] = [
        off * p0 - beta * q0,
        off * p1 + p0 - beta * q1,
        off * p2 + 2 * p1 - beta * q2,
        p0,
        p1,
        p2,
      ];
    }
    return [value, slope, second];
  };
}

/** The free curvature of the ring's line, over installed angle, that a table of one face's radii in millimetres means. */
function curvatureFromCsv(design: RingDesign, csv: string, name: Face): (theta: number) => number {
  const [head, ...lines] = csv.trim().split("\n");
  const column = head.split(",").indexOf(`${name}_radius_mm`);
  const rows = lines.map((line) => line.split(",")).filter((cells) => lastOf(cells) === "no");
  const angles = rows.map((cells) => (Number(cells[0]) * Math.PI) / 180);
  const reach = lastOf(angles);
  const curve = smoothed(
    angles.map((at) => at / reach),
    rows.map((cells) => Number(cells[column])),
  );
  const a = design.spec.section.radialThickness;
  const r = (design.spec.bore - a) / 2;
  const inward = name === "outer" ? a / 2 : -a / 2;
  /** Curvature of the line and its length per angle, half a wall inside or outside the face. */
  const lineAt = (angle: number) => {
    const [rho, slope, second] = curve(angle / reach).map((value, order) => value / reach ** order);
    const speed = Math.hypot(rho, slope);
    const ofFace = (rho ** 2 + 2 * slope ** 2 - rho * second) / speed ** 3;
    const shrink = 1 - ofFace * inward;
    return { curvature: ofFace / shrink, speed: speed * shrink };
  };
  // Closed, the line shortens by M²/(E²·I·A) = (1/r − κ₀)²·a²/12 (see coiling.test.ts) and lies on the radius r.
  const closing = (angle: number) => {
    const { curvature, speed } = lineAt(angle);
    return (speed / r) * (1 - ((1 / r - curvature) * a) ** 2 / 12);
  };
  const count = 2000;
  const nodes = Array.from({ length: count + 1 }, (_, k) => angles[0] + ((reach - angles[0]) * k) / count);
  const theta = [0];
  for (let k = 1; k <= count; k++) {
    const [one, other] = [nodes[k - 1], nodes[k]];
    const simpson = closing(one) + 4 * closing((one + other) / 2) + closing(other);
    theta.push(theta[k - 1] + ((other - one) * simpson) / 6);
  }
  // The back is where the table's angle is nil.
  const zero = nodes.findIndex((angle) => angle > -1e-12);
  const atBack = theta[zero] - nodes[zero] * closing(0);
  return (wanted) => {
    let [low, high] = [0, count];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (theta[middle] - atBack <= wanted) low = middle;
      else high = middle;
    }
    const share = (wanted - theta[low] + atBack) / (theta[low + 1] - theta[low]);
    return lineAt(nodes[low] + share * (nodes[low + 1] - nodes[low])).curvature;
  };
}

describe("a ring turned by the table as it is written, to a millionth of a millimetre,", () => {
  const cases = RINGS.filter(([name]) => !/wall|slots|wide/.test(name));
  describe.each(cases)("%s", (_name, spec) => {
    const design = designRing(spec);
    const { load: _load, pressure: _pressure, ...body } = design.spec;
    const { contactPressure: p0 } = design.load;
    const r = design.installed.centroidRadius;
    const csv = camCsv(camTurning(design));
    const ring = ringOfCurvature(body, curvatureFromCsv(design, csv, "outer"));
    /**
     * Radii rounded by up to 5e-7 mm, 2.9e-7 in the mean square, smoothed by 25 of 350 freedoms: 8e-8 mm stay. Of that the
     * fourth derivative makes pressure, δp/p₀ = δρ⁗/(K·r), and a wave that DEGREE can follow has DEGREE/π to a radian.
     */
    const noise = (8e-8 * (DEGREE / Math.PI) ** 4) / (design.stiffnessParameter * r);

    test("closes to a circle, its gap and parallel faces", () => {
      const proof = proveClosure({ ...design, free: { ...design.free, curvature: ring.free.curvature } });
      // The errors of the radii themselves, at the ends somewhat more, where a polynomial swings.
      const rounding = 2e-6;
      expect(proof.radialError).toBeLessThan(rounding);
      expect(Math.abs(proof.closedGap - design.spec.closedGap)).toBeLessThan(rounding);
      // There its error is √25 times as large as all along, and its slope DEGREE²/π times that a radian; two faces.
      const turn = (2 * 5 * 8e-8 * (DEGREE ** 2 / Math.PI)) / r;
      expect(Math.abs(proof.facesOutOfParallel)).toBeLessThan(turn);
    });

    test("presses with its pressure, and its ends need nothing from outside", () => {
      const made = pressureOf(ring);
      // Near the ends the fourth derivative of a polynomial swings; there the ends' own conditions are looked at.
      const off = made.pressure.filter((_, i) => Math.abs(made.theta[i]) < 2.6);
      const wanted = design.installed.pressure.filter((_, i) => Math.abs(made.theta[i]) < 2.6);
      expect(off.length).toBeGreaterThan(290);
      const error = worst(off.map((p, i) => (p - wanted[i]) / p0));
      expect(error).toBeLessThan(10 * noise);
      expect(10 * noise).toBeLessThan(0.01);
      expect(made.ends.left.meets && made.ends.right.meets).toBe(true);
    });

    test("touches its bore all round", () => {
      const closure = closeInBore(ring);
      expect(closure.contactShare).toBe(1);
      expect(worst(closure.clearance)).toBeLessThan(1e-6);
      expect(Math.abs(closure.closedGap - closeInBore(design).closedGap)).toBeLessThan(1e-6);
      const own = closeInBore(design);
      const off = closure.pressure.filter((_, i) => Math.abs(closure.theta[i]) < 2.6);
      const wanted = own.pressure.filter((_, i) => Math.abs(closure.theta[i]) < 2.6);
      expect(worst(off.map((p, i) => (p - wanted[i]) / p0))).toBeLessThan(20 * noise);
    });

    test("is the same read from the inner face", () => {
      const inner = curvatureFromCsv(design, csv, "inner");
      const line = curvatureFromCsv(design, csv, "outer");
      for (let theta = -2.6; theta <= 2.6; theta += 0.1) {
        // Of a wave of DEGREE/π to a radian the second derivative makes curvature.
        const bound = (10 * 8e-8 * (DEGREE / Math.PI) ** 2) / r ** 2;
        expect(Math.abs(inner(theta) - line(theta))).toBeLessThan(bound);
      }
    });
  });

  test("and no other: radii a hundredth of a millimetre of cos 5φ off close out of round by as much", () => {
    const design = designRing(FERRY);
    const cam = camTurning(design);
    const radius = cam.outer.radius.map((rho, k) => rho + 0.01 * Math.cos(5 * cam.angle[k]));
    const csv = camCsv({ ...cam, outer: { ...cam.outer, radius } });
    const { load: _load, pressure: _pressure, ...body } = design.spec;
    const ring = ringOfCurvature(body, curvatureFromCsv(design, csv, "outer"));
    const proof = proveClosure({ ...design, free: { ...design.free, curvature: ring.free.curvature } });
    // Under the design's own pressure nothing presses the wave flat; a sixth of it may go into the circle's fit.
    expect(proof.radialError).toBeGreaterThan(0.008);
    expect(pressureOf(ring).touches).toBe(false);
  });
});
