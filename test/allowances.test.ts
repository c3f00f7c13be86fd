import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type AddedMetal, outlinePoints } from "../src/curves.js";
import {
  type AllowancesInput,
  camTurning,
  closeInBore,
  coiling,
  designRing,
  finishedFrom,
  gapCutting,
  heatSet,
  type MakingInput,
  type MetalToMake,
  metalFrom,
  metalToMake,
  type Point,
  planMaking,
  proveClosure,
  type RingDesign,
  type RingSpecInput,
  SpecError,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError, runs } from "./rings.js";

/**
 * Metal to make under coatings and stock: made, coated and lapped it must be the ring that was ordered; and planMaking, which
 * puts the parts together.
 */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const WALLED: RingSpecInput = {
  ...FERRY,
  section: {
    ...FERRY.section,
    wall: (theta: number) => 1 - 0.08 * Math.cos(theta) + 0.05 * Math.sin(2 * theta),
  },
};
const UNLIKE: RingSpecInput = {
  ...FERRY,
  pressure: { shape: "harmonics", cosine: [0.1], sine: [0.2, 0, -0.1] },
};
const SLOTTED: RingSpecInput = {
  ...FERRY,
  section: { ...FERRY.section, slots: { count: 60, depth: 1.2, width: 0.7 } },
};
const RINGS: readonly (readonly [name: string, spec: RingSpecInput])[] = [
  ...DEMO_NAMES.map((name) => [name, DEMO_RINGS[name]] as const),
  ["halves not alike", UNLIKE],
  ["a wall that varies", WALLED],
];

const FACES = ["outer", "inner", "sides", "ends"] as const;
const NONE: AddedMetal = { outer: 0, inner: 0, sides: 0, ends: 0 };
const lastOf = <T>(values: readonly T[]) => values[values.length - 1];
const worst = (values: readonly number[]) =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
const apart = ([x1, y1]: Point, [x2, y2]: Point) => Math.hypot(x1 - x2, y1 - y2);
const middleOf = ([x1, y1]: Point, [x2, y2]: Point): Point => [(x1 + x2) / 2, (y1 + y2) / 2];

/** What a shop puts on and takes off, mm: chromium outside, a phosphate coat all round, stock on the ends. */
const SHOPS: readonly (readonly [name: string, allowances: AllowancesInput])[] = [
  [
    "chromium outside, lapped",
    { coating: { outer: 0.12 }, lapping: { outer: 0.02, sides: 0.01, ends: 0.05 } },
  ],
  ["coated all round", { coating: { outer: 0.01, inner: "8 um", sides: 0.006, ends: 0.004 } }],
  ["inside only", { coating: { inner: 0.05 }, lapping: { inner: 0.02 } }],
  ["stock everywhere", { lapping: { outer: 0.15, inner: 0.1, sides: 0.05, ends: 0.03 } }],
];

describe("finishedFrom and metalFrom", () => {
  const size = fc.integer({ min: 1, max: 100000 }).map((n) => n / 1000);
  const film = fc.integer({ min: 0, max: 500 }).map((n) => n / 1000);
  property.prop([size, film, film], runs(200))("are each other's inverse", (metal, coating, lapping) => {
    // Three sums of at most 100 mm.
    expect(Math.abs(metalFrom(finishedFrom(metal, coating, lapping), coating, lapping) - metal)).toBeLessThan(
      1e-13,
    );
    expect(Math.abs(finishedFrom(metalFrom(metal, coating, lapping), coating, lapping) - metal)).toBeLessThan(
      1e-13,
    );
  });

  test("by hand: 4.3 mm of metal, 0.12 mm put on and 0.02 mm lapped off are 4.4 mm", () => {
    expect(finishedFrom(4.3, 0.12, 0.02)).toBeCloseTo(4.4, 14);
    expect(metalFrom(4.4, 0.12, 0.02)).toBeCloseTo(4.3, 14);
  });
});

test("metalToMake without allowances is the ring itself, whether stiffness counts or not", () => {
  for (const [, spec] of [...RINGS, ["slotted", SLOTTED] as const]) {
    for (const coatingStiffness of ["counted", "neglected"] as const) {
      const metal = metalToMake(spec, { coatingStiffness });
      const design = designRing(spec);
      // The bare ring's load is given by its force, which rounds.
      const tolerance = coatingStiffness === "counted" ? 0 : 1e-12;
      expect(
        relativeError(metal.design.load.tangentialForce, design.load.tangentialForce),
      ).toBeLessThanOrEqual(tolerance);
      expect(worst(metal.design.free.x.map((x, i) => x - design.free.x[i]))).toBeLessThanOrEqual(
        100 * tolerance,
      );
      expect(metal.added).toEqual(NONE);
      expect(metal.radialThickness).toBe(design.spec.section.radialThickness);
      expect(metal.axialHeight).toBe(design.spec.section.axialHeight);
      expect(Math.abs(metal.freeGap - design.free.gap)).toBeLessThanOrEqual(100 * tolerance);
      expect(metal.coatingStiffness).toBe(coatingStiffness);
    }
    expect(metalToMake(spec).coatingStiffness).toBe("counted");
  }
});

/** Distance of a point from a smooth line of points: from the circle through the nearest one and its neighbours. */
function distanceTo(line: readonly Point[]): (point: Point) => number {
  const points = line.filter((point, i) => i === 0 || apart(point, line[i - 1]) > 1e-3);
  return ([x, y]) => {
    let [nearest, square] = [1, Number.POSITIVE_INFINITY];
    for (let i = 1; i < points.length - 1; i++) {
      const here = (points[i][0] - x) ** 2 + (points[i][1] - y) ** 2;
      if (here < square) [nearest, square] = [i, here];
    }
    const [[x0, y0], [x1, y1], [x2, y2]] = [points[nearest - 1], points[nearest], points[nearest + 1]];
    const [ax, ay, bx, by] = [x0 - x1, y0 - y1, x2 - x1, y2 - y1];
    const cross = 2 * (ax * by - ay * bx);
    const [a2, b2] = [ax * ax + ay * ay, bx * bx + by * by];
    const [cx, cy] = [x1 + (by * a2 - ay * b2) / cross, y1 + (ax * b2 - bx * a2) / cross];
    // Positive outward of a ring's face.
    return Math.hypot(x - cx, y - cy) - Math.hypot(x1 - cx, y1 - cy);
  };
}

/** Points every 0.2 mm or so. */
const drawn = (design: RingDesign, added: AddedMetal) => outlinePoints(design, { added, tolerance: 1e-4 });
/** Corners of the end faces, outer and inner; the inner face is drawn from right to left. */
const endFaces = ({ outer, inner }: { outer: Point[]; inner: Point[] }) => ({
  left: [outer[0], lastOf(inner)] as const,
  right: [lastOf(outer), inner[0]] as const,
});
/** Distance of a point from the straight line through two others. */
const offLine = ([x, y]: Point, [[x1, y1], [x2, y2]]: readonly [Point, Point]) =>
  ((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / Math.hypot(x2 - x1, y2 - y1);

/** What stands on each face, read as numbers. */
function filmsOf({ coating = {}, lapping = {} }: AllowancesInput) {
  const read = (value: number | string | undefined) =>
    typeof value === "string" ? Number.parseFloat(value) / 1000 : (value ?? 0);
  const each = (faces: NonNullable<AllowancesInput["coating"]>) =>
    Object.fromEntries(FACES.map((face) => [face, read(faces[face])])) as Record<
      (typeof FACES)[number],
      number
    >;
  return { coat: each(coating), lap: each(lapping) };
}

describe.each(SHOPS)("metalToMake, %s, stiffness counted,", (_name, allowances) => {
  const { coat, lap } = filmsOf(allowances);
  /** Of the finished face over the made one. */
  const grows = (face: (typeof FACES)[number]) => coat[face] - lap[face];

  test.each(RINGS)("is made so that coated and lapped it is the ring ordered: %s", (_ring, spec) => {
    const metal = metalToMake(spec, allowances);
    const finished = designRing(spec);
    expect(metal.design).toEqual(finished);
    for (const face of FACES) expect(metal.added[face]).toBeCloseTo(-grows(face), 14);
    const { radialThickness, axialHeight } = finished.spec.section;
    expect(metal.radialThickness).toBeCloseTo(radialThickness - grows("outer") - grows("inner"), 13);
    expect(metal.axialHeight).toBeCloseTo(axialHeight - 2 * grows("sides"), 13);
    // Square to its faces the finished outline stands off the made one by what came on less what went off.
    const [made, wanted] = [drawn(metal.design, metal.added), drawn(finished, NONE)];
    for (const [face, outward] of [
      ["outer", 1],
      ["inner", -1],
    ] as const) {
      const toMade = distanceTo(made[face]);
      // The ends move, too: away from them there is made face below each finished one.
      const inside = wanted[face].slice(20, -20).filter((_, k) => k % 10 === 0);
      const off = inside.map((point) => outward * toMade(point) - grows(face));
      expect(inside.length).toBeGreaterThan(80);
      // Circles through three points h = 0.2 to 0.4 mm apart leave κ′·h³/16, κ′ = 1e-5/mm² at most.
      expect(worst(off)).toBeLessThan(2e-8);
    }
    const [ends, finishedEnds] = [endFaces(made), endFaces(wanted)];
    for (const [side, outward] of [
      ["left", 1],
      ["right", -1],
    ] as const) {
      const off = finishedEnds[side].map((corner) => outward * offLine(corner, ends[side]) - grows("ends"));
      expect(worst(off)).toBeLessThan(1e-10 * finished.spec.bore);
    }
  });

  test("has its free gap where the made faces have their middle", () => {
    for (const [ring, spec] of RINGS) {
      const metal = metalToMake(spec, allowances);
      const { left, right } = endFaces(drawn(metal.design, metal.added));
      const found = apart(middleOf(...left), middleOf(...right));
      expect(Math.abs(metal.freeGap - found), ring).toBeLessThan(gapSlack(metal));
    }
  });
});

/**
 * The gap is taken on mid wall, not half-way between corners, and metal on the ends slides along the faces by its δ + t/r;
 * unlike ends stand at different heights, which slants what comes off them.
 */
function gapSlack({ design, added }: MetalToMake): number {
  const { ends, spec } = design;
  const R = spec.bore / 2;
  const metal = Math.abs(added.ends);
  const turned = Math.abs(ends.left.turn) + Math.abs(ends.right.turn);
  const slides = 2 * metal * (ends.faceToNormal + metal / R) * turned;
  const unlike = 2 * metal * Math.abs(ends.left.turn - ends.right.turn);
  const wall = design.wall ? Math.abs(design.wall.thickness[0] - lastOf(design.wall.thickness)) : 0;
  return (
    2 * ((spec.section.radialThickness * ends.faceToNormal) ** 2 / R) +
    slides +
    unlike +
    wall * Math.abs(ends.left.turn - ends.right.turn) +
    1e-9
  );
}

test.each(RINGS)("A gap ordered of the finished ring is that of the finished ring: %s", (_name, spec) => {
  const { load, ...body } = spec;
  const freeGap = designRing({ ...body, load }).free.gap;
  const ordered = { ...body, load: { freeGap } };
  const coating = { outer: 0.12, inner: 0.02, ends: 0.03 };
  for (const coatingStiffness of ["counted", "neglected"] as const) {
    const { finished } = metalToMake(ordered, { coating, coatingStiffness });
    // Three rounds of a search that gains the film over the ring, some 2e-3, in each.
    expect(Math.abs(finished.freeGap - freeGap)).toBeLessThan(1e-7);
  }
});

describe.each(SHOPS)("metalToMake, %s, stiffness of the coating neglected,", (_name, allowances) => {
  const { coat, lap } = filmsOf(allowances);
  /** What is left of the coating. */
  const film = (face: (typeof FACES)[number]) => (coat[face] > 0 ? coat[face] - lap[face] : 0);

  test.each(RINGS)("is the ring under the coating, of the same force: %s", (_ring, spec) => {
    const metal = metalToMake(spec, { ...allowances, coatingStiffness: "neglected" });
    const finished = designRing(spec);
    const [bare, whole] = [metal.design.spec, finished.spec];
    expect(bare.bore).toBeCloseTo(whole.bore - 2 * film("outer"), 12);
    expect(bare.section.radialThickness).toBeCloseTo(
      whole.section.radialThickness - film("outer") - film("inner"),
      12,
    );
    expect(bare.section.axialHeight).toBeCloseTo(whole.section.axialHeight - 2 * film("sides"), 12);
    expect(bare.closedGap).toBeCloseTo(whole.closedGap + 2 * film("ends"), 12);
    expect(relativeError(metal.design.load.tangentialForce, finished.load.tangentialForce)).toBeLessThan(
      1e-13,
    );
    if (metal.design.wall && finished.wall) {
      const thinner = film("outer") + film("inner");
      // Stations stand at angles that a wider gap moves a little: at the wall's slope of 0.7 mm a radian.
      const line = Math.abs(film("inner") - film("outer"));
      const moved = (2 * film("ends")) / whole.bore + (line * whole.closedGap) / whole.bore ** 2;
      const off = metal.design.wall.thickness.map(
        (value, i) => value + thinner - (finished.wall?.thickness[i] as number),
      );
      expect(worst(off)).toBeLessThan(0.8 * moved + 1e-12);
    }
    // Ordered and gauged is the finished one.
    const { wall, ...section } = metal.finished.spec.section;
    const { wall: wanted, ...wholeSection } = whole.section;
    expect({ ...metal.finished.spec, section }).toEqual({ ...whole, section: wholeSection });
    expect(typeof wall).toBe(typeof wanted);
    if (typeof wall === "object" && typeof wanted === "object") {
      for (const key of ["angle", "relative"] as const)
        expect(worst(wall[key].map((value, i) => value - wanted[key][i]))).toBeLessThan(1e-13);
    }
    const { contactPressure } = metal.finished;
    expect(relativeError(contactPressure, finished.load.contactPressure)).toBeLessThan(1e-13);
    // What comes off the machine is that ring and, on faces without a coating, what is lapped off.
    for (const face of FACES) expect(metal.added[face]).toBeCloseTo(coat[face] > 0 ? 0 : lap[face], 14);
    expect(metal.radialThickness).toBeCloseTo(
      bare.section.radialThickness + metal.added.outer + metal.added.inner,
      13,
    );
    expect(metal.axialHeight).toBeCloseTo(bare.section.axialHeight + 2 * metal.added.sides, 13);
  });

  test.each(DEMO_NAMES)("is softer by the cube of the wall, the height and the radius: %s", (name) => {
    const spec = DEMO_RINGS[name];
    const [bare, whole] = [
      metalToMake(spec, { ...allowances, coatingStiffness: "neglected" }).design,
      metalToMake(spec, { ...allowances, coatingStiffness: "counted" }).design,
    ];
    const { radialThickness: a, axialHeight: h } = whole.spec.section;
    const r = whole.installed.centroidRadius;
    const change = bare.stiffnessParameter / whole.stiffnessParameter - 1;
    // K = Ft·r²/(E·I): to the first order 3·t/a, 2·t/h for both sides, and the line's shift of half a coating, squared.
    const wall = (film("outer") + film("inner")) / a;
    const sides = (2 * film("sides")) / h;
    const shift = (film("inner") - film("outer")) / r;
    const first = 3 * wall + sides + shift;
    expect(Math.abs(change - first)).toBeLessThan(8 * (wall + sides + Math.abs(shift)) ** 2 + 1e-12);
    // And so much wider it opens, to the order of K.
    const opening = ({ free, spec: { closedGap } }: RingDesign) => free.gap - closedGap;
    const wider = opening(bare) / opening(whole) - 1;
    expect(Math.abs(wider - first - shift / 2)).toBeLessThan(
      (0.02 + 2 * whole.stiffnessParameter + 4 * wall) *
        (first + 4 * (film("ends") / whole.spec.bore) + 1e-9) +
        1e-3 * film("ends"),
    );
  });

  test("closes in its own smaller bore with the force of the ordered ring", () => {
    for (const spec of [FERRY, UNLIKE]) {
      const { design } = metalToMake(spec, { ...allowances, coatingStiffness: "neglected" });
      const { radialError, closedGap } = proveClosure(design);
      // Rounding and the integrator, as for any ring.
      expect(radialError).toBeLessThan(1e-12 * design.spec.bore);
      expect(closedGap).toBeCloseTo(design.spec.closedGap, 10);
      const [bare, ordered] = [closeInBore(design), closeInBore(designRing(spec))];
      expect(bare.contactShare).toBe(1);
      // Forces sum up to 2π·Ft but for the gap, which a coating on the ends moves by 2·t of π·d.
      expect(relativeError(bare.force, ordered.force)).toBeLessThan(2e-4);
    }
  });
});

describe("metalToMake of a ring ordered by its free gap, stiffness neglected,", () => {
  test.each([{ outer: 0.12 }, { inner: 0.1 }, { ends: 0.03 }, { outer: 0.05, inner: 0.05, ends: 0.02 }])(
    "opens to that gap when it is coated: %j",
    (coating) => {
      const { load: _, ...body } = FERRY;
      const freeGap = 12;
      const { design } = metalToMake(
        { ...body, load: { freeGap } },
        { coating, coatingStiffness: "neglected" },
      );
      // The finished faces stand on the bare ones by the coating, as drawn.
      const { left, right } = endFaces(drawn(design, { ...NONE, ...coating }));
      const finished = apart(middleOf(...left), middleOf(...right));
      // Half a micrometre; of 0.03 mm on each end, which leans by 0.07, a quarter of a hundredth is not across the gap.
      expect(Math.abs(finished - freeGap)).toBeLessThan(5e-4);
    },
  );
});

describe("metalToMake of a slotted ring, stiffness neglected,", () => {
  test.each([{ outer: 0.05 }, { inner: 0.05 }, { ends: 0.05 }, { sides: 0.05 }])(
    "keeps its slots, which reach from end to end: %j",
    (coating) => {
      const { design } = metalToMake(SLOTTED, { coating, coatingStiffness: "neglected" });
      expect(design.spec.section.slots).toMatchObject({ count: 60, depth: 1.2, width: 0.7 });
      expect(design.outline.slots?.length).toBe(60);
      // Slots that end short of the gap would let the section jump.
      expect(new Set(design.free.theta).size).toBe(design.free.theta.length);
    },
  );

  test("or over a zone, at the same angles", () => {
    const zone = { count: 20, depth: 1.2, width: 0.7, from: -0.5, to: 2 };
    const spec = { ...FERRY, section: { ...FERRY.section, slots: zone } };
    const { design } = metalToMake(spec, {
      coating: { outer: 0.05, ends: 0.05 },
      coatingStiffness: "neglected",
    });
    const { from, to, ...sizes } = design.spec.section.slots ?? { from: 0, to: 0 };
    expect(sizes).toEqual({ count: 20, depth: 1.2, width: 0.7 });
    expect(from).toBeCloseTo(-0.5, 12);
    expect(to).toBeCloseTo(2, 12);
  });
});

// biome-ignore lint/suspicious/noExplicitAny: wrong types are the point
type Loose = any;

function refusal(make: () => unknown): SpecError {
  try {
    make();
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).message).toMatch(/^.{1,400}$/);
    return error as SpecError;
  }
  throw new Error("not refused");
}

describe("metalToMake refuses", () => {
  const bothWays = (allowances: Loose): SpecError[] =>
    (["counted", "neglected"] as const).map((coatingStiffness) =>
      refusal(() => metalToMake(FERRY, { ...allowances, coatingStiffness })),
    );

  test.each([
    [
      { coating: { outer: 0.1 }, lapping: { outer: 0.1 } },
      /lapping\.outer$/,
      /less than the coating there, 0\.1 mm/,
    ],
    [{ coating: { sides: 0.01 }, lapping: { sides: 0.02 } }, /lapping\.sides$/, /lapped through/],
    [{ lapping: { ends: 0.226 } }, /lapping\.ends$/, /at most half the closed gap, 0\.225 mm/],
  ])("%j", (allowances, field, allowed) => {
    for (const error of bothWays(allowances)) {
      expect(error.field).toMatch(field);
      expect(error.allowed).toMatch(allowed);
    }
  });

  test.each([{ coating: { outer: 2, inner: 4 } }, { coating: { inner: 4.4 } }, { coating: { sides: 1 } }])(
    "coatings thicker than what they stand on, by the coating's name: %j",
    (allowances) => {
      for (const error of bothWays(allowances)) expect(error.field).toMatch(/coating/);
    },
  );

  test.each([
    [{ coating: { outer: 20 } }, "coating.outer", 20, /from 0 to 5 mm/],
    [{ coating: { outer: -0.01 } }, "coating.outer", -0.01, /from 0 to 5 mm/],
    [{ coating: { inner: Number.NaN } }, "coating.inner", Number.NaN, /from 0 to 5 mm/],
    [{ coating: { ends: "5 kg" } }, "coating.ends", "5 kg", /"kg" is not a length unit/],
    [{ coating: { sides: "thin" } }, "coating.sides", "thin", /mm/],
    [{ lapping: { sides: null } }, "lapping.sides", null, /mm/],
    [{ coating: 0.1 }, "coating", 0.1, /object/],
    [{ coatingStiffness: "half" }, "coatingStiffness", "half", /"counted" or "neglected"/],
  ])("%j", (allowances: Loose, field, value, allowed) => {
    const error = refusal(() => metalToMake(FERRY, allowances));
    expect(error.field).toBe(`allowances.${field}`);
    expect(error.value).toEqual(value);
    expect(error.allowed).toMatch(allowed);
  });

  test.each([
    [{ coatng: { outer: 0.1 } }, "coatng", "coating"],
    [{ coating: { outside: 0.1, ends: 0.1 } }, "coating.outside", "outer"],
    [{ lapping: { end: 0.1 } }, "lapping.end", "ends"],
  ])("%j, and names the nearest field", (allowances: Loose, field, nearest) => {
    const error = refusal(() => metalToMake(FERRY, allowances));
    expect(error.field).toBe(`allowances.${field}`);
    expect(error.allowed).toContain(`the nearest is "${nearest}"`);
  });

  test("a ring that is none by itself, by the field of the order", () => {
    expect(refusal(() => metalToMake({ ...FERRY, bore: -1 }, { coating: { outer: 0.1 } })).field).toBe(
      "bore",
    );
  });
});

describe("planMaking", () => {
  const input: MakingInput = {
    tolerance: "2 um",
    allowances: { coating: { outer: 0.08 }, lapping: { ends: 0.04 } },
    coiling: { yieldStress: 1200, batch: 50, kerf: 1 },
    cam: { step: "2 deg", noseRadius: 0.8 },
    gap: { filingStock: 0.1, heldGap: 6 },
    heatSet: { remaining: 0.1, before: 63 },
    page: "A3",
  };

  test("puts the parts together, the filing stock counted as metal on the ends", () => {
    const { making, metal, added, ...parts } = planMaking(FERRY, input);
    expect(metal).toEqual(metalToMake(FERRY, input.allowances));
    expect(added.outer).toBeCloseTo(-0.08, 14);
    expect(added.ends).toBeCloseTo(0.04 + 0.1, 14);
    expect([added.inner, added.sides]).toEqual([metal.added.inner, metal.added.sides]);
    expect(parts.coiling).toEqual(coiling(metal.design, input.coiling, added));
    expect(parts.cam).toEqual(camTurning(metal.design, input.cam, added));
    expect(parts.gap).toEqual(gapCutting(metal.design, input.gap, metal.added.ends));
    expect(parts.heatSet).toEqual(
      heatSet(metal.design, input.heatSet as NonNullable<MakingInput["heatSet"]>, added, 0.002),
    );
    expect(making).toMatchObject({ tolerance: 0.002, page: "A3" });
  });

  test("files down to the gap that is left for lapping", () => {
    const { gap } = planMaking(FERRY, input);
    // 0.45 − 2·(0.04 + 0.1), then − 2·0.04.
    expect(gap.filing[0].closedGap).toBeCloseTo(0.17, 12);
    expect(lastOf(gap.filing).closedGap).toBeCloseTo(0.37, 12);
  });

  test("with the coating's stiffness neglected makes the ring under it", () => {
    const allowances = { coating: { outer: 0.08, inner: 0.02 }, coatingStiffness: "neglected" } as const;
    const { metal, coiling: coiled } = planMaking(FERRY, { ...input, allowances });
    expect(metal.design.spec.bore).toBeCloseTo(118 - 0.16, 12);
    expect(coiled.radialThickness).toBeCloseTo(4.3, 12);
  });

  test("has a default for everything but the heat, which is planned when asked for", () => {
    const plan = planMaking(FERRY);
    expect(plan.heatSet).toBeUndefined();
    expect(plan.metal.design).toEqual(designRing(FERRY));
    expect(plan.added).toEqual(NONE);
    expect(plan.making).toMatchObject({ tolerance: 0.001, page: "A4" });
    expect(plan.gap).toEqual(gapCutting(designRing(FERRY)));
    expect(plan.cam).toEqual(camTurning(designRing(FERRY)));
  });

  test("changes nothing in what it is given, and survives JSON", () => {
    const before = JSON.stringify(input);
    const plan = planMaking(FERRY, input);
    expect(JSON.stringify(input)).toBe(before);
    // toStrictEqual also tells −0 from 0, NaN from null and a missing field from an undefined one.
    expect(JSON.parse(JSON.stringify(plan))).toStrictEqual(plan);
  });

  test.each([
    [{ coiling: { density: 5 } }, "coiling.density"],
    [{ coiling: { yieldStress: "1200 kg" } }, "coiling.yieldStress"],
    [{ cam: { step: 3 } }, "cam.step"],
    [{ cam: { noseRadius: 100 } }, "cam.noseRadius"],
    [{ cam: { centre: [90, 0] } }, "cam.centre"],
    [{ cam: { centre: [Number.NaN, 1] } }, "cam.centre.0"],
    [{ heatSet: { remaining: 2, before: "straight" } }, "heatSet.remaining"],
    [{ heatSet: { remaining: 0.3, before: "straight" } }, "heatSet.remaining"],
    [{ heatSet: { remaining: 0.1 } }, "heatSet.before"],
    [{ gap: { filingStock: 0.3 } }, "gap.filingStock"],
    [{ gap: { heldGap: 50 } }, "gap.heldGap"],
    [{ allowances: { coating: { outer: 20 } } }, "allowances.coating.outer"],
    [{ allowances: { coating: { outer: 0.1 }, lapping: { outer: 0.2 } } }, "allowances.lapping.outer"],
    [{ allowances: { coating: { outer: 2, inner: 4 } } }, "allowances.coating"],
    [{ gap: { gapTolerance: 0.45 } }, "gap.gapTolerance"],
    [{ gap: { gapTolerance: 0.5 } }, "gap.gapTolerance"],
    [null, "making"],
    [{ tolerance: 0 }, "tolerance"],
    // A hundredth of the bore is 1.18 mm.
    [{ tolerance: 2 }, "tolerance"],
    [{ page: "A5" }, "page"],
    [{ oven: {} }, "oven"],
    [{ cam: { nose: 1 } }, "cam.nose"],
  ])("refuses %j by the field's whole path", (making: Loose, field) => {
    expect(refusal(() => planMaking(FERRY, making)).field).toBe(field);
  });

  test("brings its arcs as near to the mandrel as it is told", () => {
    const making = (tolerance: number) => ({ tolerance, heatSet: { remaining: 0.1, before: 58 } });
    const fits = [0.001, 0.1].map((tolerance) => planMaking(FERRY, making(tolerance)).heatSet?.mandrel);
    expect(fits.map((fit) => fit?.tolerance)).toEqual([0.001, 0.1]);
    expect(fits[1]?.pieces.length).toBeLessThan(fits[0]?.pieces.length as number);
    expect(fits[1]?.deviation).toBeLessThanOrEqual(0.1);
  });

  test("refuses no object for options by that name", () => {
    for (const options of [null, 3]) {
      expect(refusal(() => planMaking(FERRY, {}, options as Loose)).field).toBe("options");
      expect(refusal(() => metalToMake(FERRY, {}, options as Loose)).field).toBe("options");
    }
  });

  test("checks a gauge against the gap as ordered, not the wider one of the metal", () => {
    const allowances = { coating: { ends: 0.02 }, coatingStiffness: "neglected" } as const;
    const { field, allowed } = refusal(() => planMaking(FERRY, { allowances, gap: { gapTolerance: 0.47 } }));
    expect([field, allowed]).toEqual(["gap.gapTolerance", "must be below the closed gap, 0.45 mm"]);
  });

  test("refuses a wrong order by the order's own field", () => {
    expect(refusal(() => planMaking({ ...FERRY, closedGap: -1 })).field).toBe("closedGap");
  });
});
