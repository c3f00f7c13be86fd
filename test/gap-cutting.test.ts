import { test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type AddedMetal, outlinePoints } from "../src/curves.js";
import {
  type CutSetup,
  designRing,
  endsInBand,
  type GapInput,
  gapCutting,
  type Hold,
  type Point,
  type RingDesign,
  type RingSpecInput,
  SpecError,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, EXTREME_RINGS, runs, sensibleRing } from "./rings.js";

/**
 * Set-ups for cutting the gap against the corners of the drawn outline, against ends turned back as rigid bodies, and
 * against what a straight cutter leaves.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const NO_METAL: AddedMetal = { outer: 0, inner: 0, sides: 0, ends: 0 };

type Named = readonly [name: string, spec: RingSpecInput];
/** Few stations: what is asked is how corners lie to each other, and marches in a band take their time. */
const few = (rings: readonly Named[]) =>
  rings.map(([name, spec]): Named => [name, { ...spec, stations: 48 }]);

/** Rings whose halves are alike. */
const ALIKE = few([
  ...DEMO_NAMES.map((name) => [name, DEMO_RINGS[name]] as const),
  ["ferry, thin theory", { ...FERRY, theory: "thin" }],
  ["ferry, more at the gap", { ...FERRY, pressure: { shape: "moreAtGap", strength: 1 } }],
  [
    "ferry, thinner ends",
    { ...FERRY, section: { ...FERRY.section, wall: (theta: number) => 0.9 + 0.1 * Math.cos(theta) } },
  ],
  ...EXTREME_RINGS.filter(([, { closedGap, theory }]) => closedGap > 0 && theory === "curved"),
]);
const UNLIKE = few([
  ["sine terms", { ...FERRY, pressure: { shape: "harmonics", cosine: [0.1], sine: [0.2, 0, -0.1] } }],
  [
    "a wall that differs",
    {
      ...FERRY,
      closedGap: 1.2,
      section: { ...FERRY.section, wall: (theta: number) => 1 + 0.06 * Math.sin(2 * theta) },
    },
  ],
  [
    "slots on one side",
    {
      ...FERRY,
      section: { ...FERRY.section, slots: { count: 20, depth: 1.2, width: 0.7, from: -0.5, to: 2 } },
    },
  ],
]);

const lastOf = <T>(values: readonly T[]) => values[values.length - 1];
const apart = ([x1, y1]: Point, [x2, y2]: Point) => Math.hypot(x1 - x2, y1 - y2);
const middleOf = ([x1, y1]: Point, [x2, y2]: Point): Point => [(x1 + x2) / 2, (y1 + y2) / 2];

function setupOf(design: RingDesign, hold: Hold, options: GapInput = {}, ends = 0): CutSetup {
  const found = gapCutting(design, options, ends).setups.find((setup) => setup.hold === hold);
  if (!found) throw new Error(`no set-up ${hold}`);
  return found;
}

/** Corners of an end face: outer and inner. */
type Face = readonly [outer: Point, inner: Point];

function facesOf({ outline }: RingDesign): { left: Face; right: Face } {
  const { outer, inner } = outline;
  return { left: [outer[0], inner[0]], right: [lastOf(outer), lastOf(inner)] };
}

/** Angle of a face to the axis, positive where it leans away from the gap outside. */
const leans = ([outer, inner]: Face, side: 1 | -1) =>
  Math.atan2(side * (outer[0] - inner[0]), outer[1] - inner[1]);

/**
 * How much the drawn corners and the set-ups may differ. The gap is taken on mid wall, not half-way between corners: they are
 * (a·δ)²/R apart at the most, δ the face's angle to the section normal; and the outline bends the end by its free radius.
 */
function slack({ spec, ends }: RingDesign): number {
  return (spec.section.radialThickness * ends.faceToNormal) ** 2 / (spec.bore / 2) + 1e-11 * spec.bore;
}

/** Of a ring whose halves differ the ends stand at different heights; distances across the gap are slanted by this angle. */
function tiltOf(design: RingDesign): number {
  const { left, right } = facesOf(design);
  const [[x1, y1], [x2, y2]] = [middleOf(...left), middleOf(...right)];
  return Math.atan2(Math.abs(y2 - y1), x2 - x1);
}

describe.each([...ALIKE, ...UNLIKE])("cut free in a nest: %s:", (_name, spec) => {
  const design = designRing(spec);
  const { left, right } = facesOf(design);
  const { setups, faceLength } = gapCutting(design);
  const [setup] = setups;
  const tilt = tiltOf(design);
  const { radialThickness: a } = design.spec.section;
  // Set-ups add up the faces' sines; slanted and of different angles, they miss the second order of both.
  const { left: onLeft, right: onRight } = setup.faces;
  const second = a * (tilt * Math.abs(onLeft - onRight) + tilt ** 2 * (onLeft + onRight));
  // The wall at either end is taken as the mean of both.
  const [one, other] = [apart(...left), apart(...right)];
  const uneven = (Math.abs(one - other) * Math.abs(onLeft - onRight)) / 2;

  test("the gaps are the distances of the drawn corners", () => {
    expect([setup.hold, setup.gap]).toEqual(["free", design.free.gap]);
    const tolerance = 2 * slack(design) + second + uneven;
    expect(Math.abs(setup.gap - apart(middleOf(...left), middleOf(...right)))).toBeLessThan(tolerance);
    expect(Math.abs(setup.gapOuter - apart(left[0], right[0]))).toBeLessThan(tolerance);
    expect(Math.abs(setup.gapInner - apart(left[1], right[1]))).toBeLessThan(tolerance);
    // Open, the faces stand wider apart outside.
    expect(setup.gapOuter).toBeGreaterThan(setup.gap);
    expect(setup.gapInner).toBeLessThan(setup.gap);
  });

  test("each face leans as drawn, and is as long", () => {
    // Straight from corner to corner, so the angle is good to the slack over the wall.
    expect(Math.abs(setup.faces.right - leans(right, 1))).toBeLessThan(slack(design) / a + 1e-11);
    expect(Math.abs(setup.faces.left - leans(left, -1))).toBeLessThan(slack(design) / a + 1e-11);
    expect(Math.abs(faceLength - (one + other) / 2)).toBeLessThan(slack(design));
  });

  test("the corners stand as high over the back as drawn", () => {
    const back = design.outline.outer[design.free.theta.indexOf(0)];
    const mean = (left[0][1] + right[0][1]) / 2 - back[1];
    expect(Math.abs(setup.height - mean)).toBeLessThan(1e-12 * design.spec.bore);
  });

  test("turned back by its angle each face is parallel to the axis, and both are a closed gap apart", () => {
    const { closedGap } = design.spec;
    const { free, installed } = design;
    const last = free.theta.length - 1;
    const r = installed.centroidRadius;
    const height = Math.sqrt(r * r - closedGap ** 2 / 4);
    for (const [face, side, at, angle] of [
      [left, -1, 0, setup.faces.left],
      [right, 1, last, setup.faces.right],
    ] as const) {
      // About the end of the line, which closed lies at ±s/2; leaning back, counter-clockwise on the right.
      const [cos, sin] = [Math.cos(side * angle), Math.sin(side * angle)];
      const closed = face.map(([x, y]): Point => {
        const [dx, dy] = [x - free.x[at], y - free.y[at]];
        return [(side * closedGap) / 2 + dx * cos - dy * sin, height + dx * sin + dy * cos];
      });
      for (const [x] of closed)
        expect(Math.abs(x - (side * closedGap) / 2)).toBeLessThan(1e-11 * design.spec.bore);
      // And the corners are on bore and inner circle.
      const wall = design.wall?.thickness[at] ?? a;
      const { outerRadius: R } = installed;
      expect(Math.abs(Math.hypot(...closed[0]) - R)).toBeLessThan(slack(design));
      expect(Math.abs(Math.hypot(...closed[1]) - (R - wall))).toBeLessThan(slack(design));
    }
  });
});

describe.each([...ALIKE, ...UNLIKE])("cut closed in a sleeve: %s:", (_name, spec) => {
  test("gap, outer and inner gap are all the closed one, the faces parallel", () => {
    const design = designRing(spec);
    const { closedGap, bore } = design.spec;
    const setup = setupOf(design, "closed");
    expect(setup.pull).toBeUndefined();
    expect([setup.gap, setup.gapOuter, setup.gapInner]).toEqual([closedGap, closedGap, closedGap]);
    expect(setup.faces).toEqual({ left: 0, right: 0 });
    expect(setup.height).toBeCloseTo(bore / 2 + Math.sqrt(bore ** 2 - closedGap ** 2) / 2, 11);
    const { gapOuter, gapInner, facesAngle, toFile } = setup.parallelCutter;
    expect([gapOuter, gapInner]).toEqual([closedGap, closedGap]);
    expect(Math.abs(facesAngle)).toBe(0);
    expect(toFile).toBe(0);
  });
});

describe.each([...ALIKE, ...UNLIKE])("cut held by a band: %s:", (_name, spec) => {
  const design = designRing(spec);
  const { closedGap } = design.spec;
  const { gap } = design.free;

  test.each([0.02, 0.7])("pull, turns and height at %s of the opening are those of endsInBand", (share) => {
    const heldGap = closedGap + share * (gap - closedGap);
    const { setups, faceLength } = gapCutting(design, { heldGap });
    const setup = setups[1];
    const held = endsInBand(design, heldGap);
    expect([setup.hold, setup.gap]).toEqual(["held", heldGap]);
    expect(setup.pull).toBe(held.pull);
    expect(setup.height).toBe(held.height);
    expect(setup.faces.left).toBe(-held.left.turn);
    expect(setup.faces.right).toBe(-held.right.turn);
    // By hand: corners half a face from its middle, either side.
    const wider = (faceLength / 2) * (Math.sin(-held.left.turn) + Math.sin(-held.right.turn));
    expect(setup.gapOuter).toBeCloseTo(heldGap + wider, 11);
    expect(setup.gapInner).toBeCloseTo(heldGap - wider, 11);
  });

  test("by default it is half open", () => {
    expect(setupOf(design, "held").gap).toBeCloseTo((closedGap + gap) / 2, 12);
  });
});

test("held at its free gap, a ring whose halves are alike is as in the nest, but for a pull of nil", () => {
  for (const [, spec] of ALIKE) {
    const design = designRing(spec);
    const [free, held] = [setupOf(design, "free"), setupOf(design, "held", { heldGap: design.free.gap })];
    for (const key of ["gap", "gapOuter", "gapInner", "height"] as const)
      expect(Math.abs(held[key] - free[key])).toBeLessThan(1e-9 * design.spec.bore);
    expect(held.faces.right).toBeCloseTo(free.faces.right, 9);
    expect(Math.abs(held.pull as number)).toBeLessThan(1e-8 * design.load.tangentialForce);
  }
});

/** Where a line x = at crosses the circle of a face that bends as the end of the line does; up there. */
function cutPoint({ free }: RingDesign, end: number, offset: number, at: number): Point {
  const rho = 1 / free.curvature[end];
  const [sin, cos] = [Math.sin(free.tangent[end]), Math.cos(free.tangent[end])];
  const [cx, cy] = [free.x[end] - rho * sin, free.y[end] + rho * cos];
  const radius = rho + offset;
  return [at, cy + Math.sqrt(radius ** 2 - (at - cx) ** 2)];
}

/** Both ends cut by one straight cutter as wide as the gap, then closed as rigid bodies: distances across the closed gap. */
function closedByCutter(design: RingDesign, width: number) {
  const { free, ends, installed, spec, wall } = design;
  const { closedGap, section } = spec;
  const a = section.radialThickness;
  const r = installed.centroidRadius;
  const { left, right } = facesOf(design);
  const [[x1], [x2]] = [middleOf(...left), middleOf(...right)];
  const height = Math.sqrt(r * r - closedGap ** 2 / 4);
  const corners = ([-1, 1] as const).map((side) => {
    const end = side === 1 ? free.theta.length - 1 : 0;
    const turn = side * (side === 1 ? ends.right.turn : ends.left.turn);
    const at = (x1 + x2) / 2 + (side * width) / 2;
    const [cos, sin] = [Math.cos(-turn), Math.sin(-turn)];
    return [a / 2, a / 2 - (wall?.thickness[end] ?? a)].map((offset): Point => {
      const [x, y] = cutPoint(design, end, offset, at);
      const [dx, dy] = [x - free.x[end], y - free.y[end]];
      return [(side * closedGap) / 2 + dx * cos - dy * sin, height + dx * sin + dy * cos];
    });
  });
  const [[leftOuter, leftInner], [rightOuter, rightInner]] = corners;
  const lean = ([xo, yo]: Point, [xi, yi]: Point) => Math.atan2(xo - xi, yo - yi);
  return {
    gapOuter: rightOuter[0] - leftOuter[0],
    gapInner: rightInner[0] - leftInner[0],
    facesAngle: lean(rightOuter, rightInner) - lean(leftOuter, leftInner),
  };
}

describe.each([...ALIKE, ...UNLIKE])("one straight cutter through the free gap: %s:", (_name, spec) => {
  const design = designRing(spec);
  const { closedGap, section } = design.spec;
  const a = section.radialThickness;

  test.each([0, 0.3])(
    "leaves closed gaps that are the rigid ends', with %s of the closed gap to file",
    (share) => {
      const metal = share * closedGap;
      const setup = setupOf(design, "free", { filingStock: metal });
      const found = setup.parallelCutter;
      const expected = closedByCutter(design, setup.gap);
      const { left, right } = setup.faces;
      const steepest = Math.max(left, right);
      /**
       * Left out: the outline falls away from the cut by its own slope, δ and the cut's width over r, on ½·a·tan; a cutter
       * as wide as the slanted distance of unlike ends is wider than their distance along it; and the second order above.
       */
      const cut = (a / 2) * Math.tan(steepest);
      const falls =
        (design.ends.faceToNormal + (cut + metal) / (design.spec.bore / 2)) *
        (cut + metal) *
        Math.tan(steepest);
      const slanted = design.free.gap * (1 - Math.cos(tiltOf(design)));
      const wall = design.wall?.thickness;
      const uneven = wall ? Math.abs(wall[0] - lastOf(wall)) * Math.abs(Math.tan(left) - Math.tan(right)) : 0;
      const moved = metal * steepest * Math.abs(left - right);
      const tolerance = 2 * falls + 1.01 * slanted + uneven + moved + 2 * slack(design) + 1e-10;
      expect(Math.abs(found.gapOuter - expected.gapOuter)).toBeLessThan(tolerance);
      expect(Math.abs(found.gapInner - expected.gapInner)).toBeLessThan(tolerance);
      expect(Math.abs(found.facesAngle - expected.facesAngle)).toBeLessThan((2 * slack(design)) / a + 1e-9);
      // So small that nothing of the wedge itself hides in it.
      expect(tolerance).toBeLessThan(0.12 * Math.abs(found.gapInner - found.gapOuter));
      // Filed off until the faces are parallel: the difference of the gaps. They stand closer outside.
      expect(found.toFile).toBeCloseTo(found.gapInner - found.gapOuter, 11);
      expect(found.facesAngle).toBeLessThan(0);
      expect((found.gapOuter + found.gapInner) / 2).toBeCloseTo(closedGap - 2 * metal, 11);
    },
  );
});

test("a straight cutter on the ferry ring by hand: ½·4.4·tan 0.0615 a side", () => {
  // ends.turn −0.0615 rad of the ferry ring, see its design; wedge 2·4.4·tan 0.061548 = 0.5423 mm in all.
  const { gapOuter, gapInner, toFile, facesAngle } = setupOf(designRing(FERRY), "free").parallelCutter;
  expect(toFile).toBeCloseTo(0.5423, 3);
  expect(gapOuter).toBeCloseTo(0.45 - 0.2711, 3);
  expect(gapInner).toBeCloseTo(0.45 + 0.2711, 3);
  expect(facesAngle).toBeCloseTo(-2 * 0.061548, 5);
});

describe("stock left to file", () => {
  test.each([...ALIKE, ...UNLIKE])(
    "narrows every gap by what stands on both ends, as drawn: %s",
    (_name, spec) => {
      const design = designRing(spec);
      const { closedGap } = design.spec;
      const filingStock = 0.2 * closedGap;
      for (const ends of [0, 0.1 * closedGap, -0.05 * closedGap]) {
        const metal = filingStock + ends;
        const cutting = gapCutting(design, { filingStock }, ends);
        expect(cutting.filingStock).toBe(filingStock);
        expect(cutting.closedGap).toBeCloseTo(closedGap - 2 * metal, 12);
        const closed = cutting.setups[2];
        for (const gap of [closed.gap, closed.gapOuter, closed.gapInner])
          expect(gap).toBeCloseTo(closedGap - 2 * metal, 12);
        // The outline drawn with that metal on its ends.
        const { outer, inner } = outlinePoints(design, { added: { ...NO_METAL, ends: metal } });
        const [left, right]: Face[] = [
          [outer[0], lastOf(inner)],
          [lastOf(outer), inner[0]],
        ];
        const free = cutting.setups[0];
        const { left: onLeft, right: onRight } = free.faces;
        const tilt = tiltOf(design);
        const a = design.spec.section.radialThickness;
        // The face slides along outer and inner face, which are square to it but for δ + metal/r, and turn on over the metal.
        const slides = 2 * metal * (design.ends.faceToNormal + metal / (design.spec.bore / 2));
        const tolerance =
          2 * slack(design) +
          Math.abs(slides) * (Math.abs(onLeft) + Math.abs(onRight)) +
          (a + metal) *
            (tilt * Math.abs(onLeft - onRight) + tilt ** 2 * 2 * (onLeft + onRight + Math.abs(metal / a)));
        const wall = design.wall?.thickness;
        const uneven = wall ? (Math.abs(wall[0] - lastOf(wall)) * Math.abs(onLeft - onRight)) / 2 : 0;
        expect(Math.abs(free.gapOuter - apart(left[0], right[0]))).toBeLessThan(tolerance + uneven);
        expect(Math.abs(free.gapInner - apart(left[1], right[1]))).toBeLessThan(tolerance + uneven);
        expect(Math.abs(free.gap - apart(middleOf(...left), middleOf(...right)))).toBeLessThan(
          tolerance + uneven,
        );
      }
    },
  );

  test("is filed off in five even steps, to the designed gaps", () => {
    const design = designRing(FERRY);
    const { filing } = gapCutting(design, { filingStock: "0.1 mm" });
    expect(filing.length).toBe(6);
    for (const [k, { filed, closedGap, freeGap }] of filing.entries()) {
      expect(filed).toBeCloseTo(0.02 * k, 14);
      expect(closedGap).toBeCloseTo(0.45 - 0.2 + 0.04 * k, 13);
      // Open, the faces lean by 0.0615, and what comes off them counts by its cosine.
      expect(freeGap).toBeCloseTo(design.free.gap - 2 * (0.1 - 0.02 * k) * Math.cos(0.061548), 7);
    }
    expect(lastOf(filing).freeGap).toBeCloseTo(design.free.gap, 12);
    expect(filing[0].freeGap).toBeCloseTo(gapCutting(design, { filingStock: 0.1 }).setups[0].gap, 12);
  });

  test("leaves what else is on the ends", () => {
    const design = designRing(FERRY);
    const { filing, closedGap } = gapCutting(design, { filingStock: 0.05 }, 0.1);
    expect(closedGap).toBeCloseTo(0.15, 13);
    expect(filing[0].closedGap).toBeCloseTo(0.15, 13);
    expect(lastOf(filing).closedGap).toBeCloseTo(0.25, 13);
    expect(lastOf(filing).freeGap).toBeCloseTo(design.free.gap - 0.2 * Math.cos(0.061548), 7);
  });

  test("of nil needs no steps", () => {
    const { filing } = gapCutting(designRing(FERRY));
    expect(filing).toEqual([{ filed: 0, closedGap: 0.45, freeGap: designRing(FERRY).free.gap }]);
  });
});

property.prop([sensibleRing], runs(25))(
  "a sensible ring's set-ups open from closed over held to free",
  (ring) => {
    const design = designRing(ring);
    const { setups } = gapCutting(design);
    expect(setups.map(({ hold }) => hold)).toEqual(["free", "held", "closed"]);
    const [free, held, closed] = setups;
    for (const key of ["gap", "gapOuter"] as const) {
      expect(free[key]).toBeGreaterThan(held[key]);
      expect(held[key]).toBeGreaterThan(closed[key]);
    }
    expect(free.faces.right).toBeGreaterThan(held.faces.right);
    expect(held.faces.right).toBeGreaterThan(0);
    expect(free.faces.left).toBe(free.faces.right);
    expect(free.parallelCutter.toFile).toBeGreaterThan(held.parallelCutter.toFile);
  },
);

describe("gapCutting refuses", () => {
  const design = designRing(FERRY);
  // biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
  const refusal = (options: any, ends: any = 0): SpecError => {
    try {
      gapCutting(design, options, ends);
    } catch (error) {
      expect(error).toBeInstanceOf(SpecError);
      return error as SpecError;
    }
    throw new Error(`not refused: ${JSON.stringify(options)}`);
  };

  test.each([
    [{ filingStock: 0.226 }, 0, "filingStock", /at most 0\.225 mm/],
    [{ filingStock: 0.13 }, 0.1, "filingStock", /at most 0\.125 mm/],
    [{ filingStock: 0 }, 0.3, "filingStock", /at most 0 mm/],
    [{ filingStock: -0.1 }, 0, "filingStock", /from 0/],
    [{ filingStock: "0.1 N" }, 0, "filingStock", /"N" is not a length unit/],
    [{ filingStock: Number.NaN }, 0, "filingStock", /from 0/],
    [{ heldGap: 0.4 }, 0, "heldGap", /from the closed gap,? 0\.45/],
    [{ heldGap: 11.2 }, 0, "heldGap", /free gap,? 11\.1/],
    [{ heldGap: Number.NaN }, 0, "heldGap", /mm/],
    [{ heldGap: "5 N" }, 0, "heldGap", /"N" is not a length unit/],
    [{ gapTolerance: 0 }, 0, "gapTolerance", /above 0/],
    [{ held: 5 }, 0, "held", /nearest is "heldGap"/],
    [null, 0, "options", /must be an object/],
    [{}, Number.NaN, "ends", /finite length, mm/],
    [{}, Number.NEGATIVE_INFINITY, "ends", /finite length, mm/],
    [{}, "0.1", "ends", /finite length, mm/],
  ])("%j with %s on the ends besides", (options, ends, field, allowed) => {
    const error = refusal(options, ends);
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(allowed);
  });

  test("nothing at the limits", () => {
    expect(gapCutting(design, { filingStock: 0.225 }).closedGap).toBeCloseTo(0, 14);
    expect(setupOf(design, "held", { heldGap: 0.45 }).gap).toBe(0.45);
    expect(setupOf(design, "held", { heldGap: design.free.gap }).gap).toBe(design.free.gap);
  });
});
