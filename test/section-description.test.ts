import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import {
  describeSection,
  designRing,
  type RingSpecInput,
  type SectionDescription,
  SpecError,
} from "../src/index.js";
import { DEMO_NAMES, DEMO_RINGS, relativeError, runs } from "./rings.js";

/** What a section is like: sense and size of its twist, and the land of a worn face. */

type Section = Partial<RingSpecInput["section"]>;

const FERRY = DEMO_RINGS["ferry 118 mm"];
const [A, H] = [4.4, 2];
/** 2·Ft = p₀·d1·h1; r = (d1 − a1)/2. */
const FT = (0.15 * 118 * 2) / 2;
const MEAN_RADIUS = (118 - 4.4) / 2;

const describeRing = (section: Section, wear?: readonly number[]): SectionDescription =>
  describeSection(designRing({ ...FERRY, section: { ...FERRY.section, ...section } }), wear);
const twistOf = (section: Section) => describeRing(section).twist;

type Side = "top" | "bottom";
const cut = (shape: "bevel" | "step", side: Side, depth = 1, height = 0.8): Section => ({
  inner: { shape, side, depth, height },
});
const taper = (angle: number): Section => ({ face: { shape: "taper", angle } });
const barrel = (drop: number): Section => ({ face: { shape: "barrel", drop } });

describe("by the trade's convention a ring twists", () => {
  // ISO 6621-1, definitions of twist (from memory): positive, the lower outer edge on the bore, with a bevel or step at the upper inner edge.
  // A piece taken away at the lower outer edge, as a scraper's groove, does the same: common practice, no source.
  test.each<[string, Section]>([
    ["a bevel at its upper inner edge", cut("bevel", "top")],
    ["a step at its upper inner edge", cut("step", "top")],
    ["an undercut below its face", { undercut: { depth: 0.5, height: 0.6 } }],
  ])("to the positive side with %s", (_, section) => {
    const { angle, acrossFace } = twistOf(section);
    expect(angle).toBeGreaterThan(1e-3);
    expect(acrossFace).toBeGreaterThan(0.001);
  });

  test.each<[string, Section]>([
    ["a bevel at its lower inner edge", cut("bevel", "bottom")],
    ["a step at its lower inner edge", cut("step", "bottom")],
    // The metal that a taper takes away is at the upper outer edge; far less of it.
    ["a tapered face", taper(0.05)],
  ])("to the negative side with %s", (_, section) => {
    const { angle, acrossFace } = twistOf(section);
    expect(angle).toBeLessThan(-1e-4);
    expect(acrossFace).toBeLessThan(0);
  });

  // Symmetric about half its height: no product.
  const outline = (corners: [x: number, y: number, bulge?: number][]): Section => ({
    shape: "profile",
    outline: corners.map(([x, y, bulge]) => ({ x, y, ...(bulge !== undefined && { bulge }) })),
  });
  test.each<[string, Section]>([
    ["a plain rectangle", {}],
    ["a barrelled face", barrel(0.02)],
    ["a keystone", { sides: { shape: "keystone", angle: 0.26 } }],
    ["a barrelled keystone", { ...barrel(0.1), sides: { shape: "keystone", angle: 0.1 } }],
    [
      "a hexagon",
      outline([
        [0.5, 0],
        [1.5, 0],
        [2, 2],
        [1.5, 4.4],
        [0.5, 4.4],
        [0, 2],
      ]),
    ],
    [
      "a lens",
      outline([
        [1, 0, 0.4],
        [1, 4.4, 0.4],
      ]),
    ],
  ])("not at all with %s", (_, section) => {
    expect(twistOf(section)).toEqual({ angle: 0, acrossFace: 0, softening: 0 });
  });

  const tenth = fc.integer({ min: 1, max: 10 }).map((value) => value / 10);
  property.prop([fc.array(fc.tuple(tenth, tenth), { minLength: 1, maxLength: 6 }), tenth], runs(60))(
    "not at all with any section that is its own mirror image",
    (steps, height) => {
      // A vase: half widths at growing distances from the inner face, then the same backwards.
      const widths = [[0.5, 0], ...steps.map(([width], k) => [width, k + 1]), [0.7, steps.length + 1]].map(
        ([width, level]) => [width * height, (A * level) / (steps.length + 1)] as const,
      );
      const right = widths.map(([half, y]) => ({ x: height + half, y }));
      const left = widths.map(([half, y]) => ({ x: height - half, y })).reverse();
      const section = { axialHeight: 2 * height, shape: "profile" as const, outline: [...right, ...left] };
      expect(twistOf(section).angle).toBe(0);
    },
  );

  const depth = fc.integer({ min: 5, max: 200 }).map((value) => value / 100);
  const high = fc.integer({ min: 5, max: 150 }).map((value) => value / 100);
  property.prop([fc.constantFrom("bevel" as const, "step" as const), depth, high], runs(40))(
    "as far to the other side with its inner cut at the other side",
    (shape, deep, tall) => {
      const [top, bottom] = [
        twistOf(cut(shape, "top", deep, tall)),
        twistOf(cut(shape, "bottom", deep, tall)),
      ];
      expect(top.angle).toBeGreaterThan(0);
      // The product is what is left of sums as large as the lateral moment; the smallest bevel here leaves 1e-4 of it.
      expect(relativeError(bottom.angle, -top.angle)).toBeLessThan(1e-10);
      expect(relativeError(bottom.softening, top.softening)).toBeLessThan(1e-10);
    },
  );

  test("as far to the other side if an outline is turned over", () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 1.4, y: 0, bulge: -0.2 },
      { x: 2, y: 1.2 },
      { x: 2, y: 4.3 },
      { x: 0, y: 4.4 },
    ];
    const over = corners.map((_, i) => {
      const { x, y } = corners[4 - i];
      // Backwards, a bulge belongs to the corner before.
      const { bulge = 0 } = corners[(8 - i) % 5];
      return { x: 2 - x, y, bulge };
    });
    const [one, other] = [corners, over].map((outline) => twistOf({ shape: "profile", outline }));
    expect(one.angle).toBeGreaterThan(1e-3);
    expect(relativeError(other.angle, -one.angle)).toBeLessThan(1e-12);
  });
});

/** Gauss–Legendre, five points on −1 … 1 (NIST DLMF, table 3.5.1), written anew. */
const GAUSS = [
  [0, 0.5688888888888889],
  [-0.5384693101056831, 0.47862867049936647],
  [0.5384693101056831, 0.47862867049936647],
  [-0.906179845938664, 0.23692688505618908],
  [0.906179845938664, 0.23692688505618908],
] as const;

interface Fibre {
  x: number;
  y: number;
  area: number;
}

/** Fibres between two lines y(x), straight between the breaks; exact for moments up to the ninth power. */
function fibresBetween(
  low: (x: number) => number,
  high: (x: number) => number,
  breaks: readonly number[],
): Fibre[] {
  const fibres: Fibre[] = [];
  for (let k = 1; k < breaks.length; k++) {
    const half = (breaks[k] - breaks[k - 1]) / 2;
    for (const [node, weight] of GAUSS) {
      const x = (breaks[k] + breaks[k - 1]) / 2 + half * node;
      const reach = (high(x) - low(x)) / 2;
      for (const [step, part] of GAUSS)
        fibres.push({ x, y: (high(x) + low(x)) / 2 + reach * step, area: weight * half * part * reach });
    }
  }
  return fibres;
}

/**
 * Stretch e, bend k and tilt q of the hoop strain ε = e + k·y + q·x that carries the moment M about the axial axis, no force, and no moment about
 * the radial axis; q = 0 where the ring is held flat. By elimination, about any origin.
 */
function hoopStrain(fibres: readonly Fibre[], E: number, M: number, free: boolean) {
  const sum = (f: (fibre: Fibre) => number) =>
    fibres.reduce((total, fibre) => total + E * fibre.area * f(fibre), 0);
  const shapes: ((fibre: Fibre) => number)[] = [
    () => 1,
    ({ y }) => y,
    ...(free ? [({ x }: Fibre) => x] : []),
  ];
  const rows = shapes.map((one, i) => [
    ...shapes.map((other) => sum((f) => one(f) * other(f))),
    i === 1 ? M : 0,
  ]);
  for (let i = 0; i < rows.length; i++) {
    for (let j = 0; j < rows.length; j++) {
      if (i === j) continue;
      const factor = rows[j][i] / rows[i][i];
      for (let k = 0; k < rows[j].length; k++) rows[j][k] -= factor * rows[i][k];
    }
  }
  const [stretch, bend, tilt = 0] = rows.map((row, i) => row[rows.length] / row[i]);
  return { stretch, bend, tilt };
}

describe("twist and softening follow from hoop stresses that balance, solved by quadrature over fibres:", () => {
  const tan1 = Math.tan(Math.PI / 180);
  const tan75 = Math.tan((7.5 * Math.PI) / 180);
  const floor = () => -A / 2;
  const face = () => A / 2;
  test.each<[string, Section, Fibre[]]>([
    [
      "a bevel at the upper inner edge",
      cut("bevel", "top", 1.2, 0.8),
      fibresBetween((x) => -2.2 + Math.max(0, ((x - 1.2) / 0.8) * 1.2), face, [0, 1.2, 2]),
    ],
    [
      "a bevel at the lower inner edge",
      cut("bevel", "bottom", 1.2, 0.8),
      fibresBetween((x) => -2.2 + Math.max(0, (1 - x / 0.8) * 1.2), face, [0, 0.8, 2]),
    ],
    [
      "a step at the upper inner edge",
      cut("step", "top", 1.2, 0.8),
      fibresBetween((x) => (x > 1.2 ? -1 : -2.2), face, [0, 1.2, 2]),
    ],
    ["a taper of 1°", taper(Math.PI / 180), fibresBetween(floor, (x) => 2.2 - x * tan1, [0, 2])],
    [
      "an undercut",
      { undercut: { depth: 0.5, height: 0.6 } },
      fibresBetween(floor, (x) => (x < 0.6 ? 1.7 : 2.2), [0, 0.6, 2]),
    ],
    [
      // Its upper side runs inward by tan 7.5°.
      "a half keystone",
      { sides: { shape: "halfKeystone", angle: Math.PI / 24 } },
      fibresBetween((x) => Math.max(-2.2, 2.2 - (2 - x) / tan75), face, [0, 2 - 4.4 * tan75, 2]),
    ],
  ])("%s", (_, section, fibres) => {
    const E = FERRY.material.youngsModulus;
    const M = FT * MEAN_RADIUS;
    const free = hoopStrain(fibres, E, M, true);
    const held = hoopStrain(fibres, E, M, false);
    // A section that tilts by φ, its top outward, stretches what lies x above by φ·x/r; the trade counts the other way.
    const angle = -free.tilt * MEAN_RADIUS;
    const found = twistOf(section);
    // The tilt is a small difference, 1e-3 of the bend at least.
    expect(relativeError(found.angle, angle)).toBeLessThan(1e-11);
    expect(relativeError(found.acrossFace, angle * H)).toBeLessThan(1e-11);
    // Stiffness is M over bend.
    expect(Math.abs(found.softening - (1 - held.bend / free.bend))).toBeLessThan(1e-12);
    expect(found.softening).toBeGreaterThan(0);
  });

  test("the softening of a bevel is Jxy²/(Jx·Jy), worked for half a rectangle", () => {
    // Right triangle b × h: Jx = bh³/36, Jy = hb³/36, Jxy = ∓b²h²/72 (K. & R. Gieck, Technical Formulae; from memory): ¼ whatever b and h.
    const outline = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 0, y: 4.4 },
    ];
    const { twist, properties } = describeRing({ shape: "profile", outline });
    expect(Math.abs(twist.softening - 0.25)).toBeLessThan(1e-13);
    // φ = r²·Ft·Jxy/(E·(Jx·Jy − Jxy²)) = −r²·Ft·24/(E·b²·h²), for Jxy/(Jx·Jy·¾) = −(1/72)·36²/¾ = −24.
    const angle = (-24 * MEAN_RADIUS ** 2 * FT) / (205000 * 2 ** 2 * 4.4 ** 2);
    expect(relativeError(twist.angle, angle)).toBeLessThan(1e-12);
    expect(relativeError(properties.inPlane, (2 * 4.4 ** 3) / 36)).toBeLessThan(1e-13);
  });

  test("is no more than 1 of softening, and grows with the cut", () => {
    const softening = [0.2, 0.5, 1, 2, 3].map((depth) => twistOf(cut("step", "top", depth, 1)).softening);
    for (const [k, value] of softening.entries()) {
      expect(value).toBeLessThan(1);
      expect(value).toBeGreaterThan(k === 0 ? 0 : softening[k - 1]);
    }
  });

  test.each(DEMO_NAMES)(
    "is the same for the %s L times as large and c times as stiff at the same K",
    (name) => {
      const { bore, closedGap, section, material } = DEMO_RINGS[name];
      const ring = (L: number, c: number) => {
        const { radialThickness: a, axialHeight: h } = section;
        return describeSection(
          designRing({
            bore: L * bore,
            closedGap: L * closedGap,
            section: {
              radialThickness: L * a,
              axialHeight: L * h,
              inner: { shape: "bevel", side: "top", depth: 0.2 * L * a, height: 0.3 * L * h },
            },
            material: { youngsModulus: c * material.youngsModulus },
            load: { tangentialForce: c * L * L * 5 },
          }),
          [0.001 * L],
        );
      };
      const [one, other] = [ring(1, 1), ring(2.5, 0.7)];
      // Dimensional analysis.
      expect(relativeError(other.twist.angle, one.twist.angle)).toBeLessThan(1e-12);
      expect(relativeError(other.twist.acrossFace, 2.5 * one.twist.acrossFace)).toBeLessThan(1e-12);
      expect(relativeError(other.twist.softening, one.twist.softening)).toBeLessThan(1e-12);
      expect(relativeError(other.face[0].land, 2.5 * one.face[0].land)).toBeLessThan(1e-12);
      expect(relativeError(other.face[0].pressure, 0.7 * one.face[0].pressure)).toBeLessThan(1e-12);
    },
  );

  test("is in proportion to the force", () => {
    const ring = (contactPressure: number) =>
      describeSection(
        designRing({
          ...FERRY,
          section: { ...FERRY.section, ...cut("bevel", "top") },
          load: { contactPressure },
        }),
      ).twist.angle;
    expect(relativeError(ring(0.2), 2 * ring(0.1))).toBeLessThan(1e-14);
  });
});

describe("the land of a worn face", () => {
  const lands = (section: Section, wear: readonly number[]) =>
    describeRing(section, wear).face.map(({ land }) => land);

  test("of a taper is wear/tan(angle), until it reaches the face's height", () => {
    for (const angle of [0.5, 1, 3].map((degrees) => (degrees * Math.PI) / 180)) {
      const full = H * Math.tan(angle);
      const wear = [0.01, 0.3, 0.99, 1.01, 3].map((share) => share * full);
      for (const [k, land] of lands(taper(angle), wear).entries()) {
        const expected = Math.min(H, wear[k] / Math.tan(angle));
        // A rounding of 2.2 mm over the slope.
        expect(Math.abs(land - expected)).toBeLessThan(1e-15 / Math.tan(angle) + 1e-14);
      }
    }
  });

  test("of a taper over an undercut grows as without, and takes the undercut's height in when that is worn away", () => {
    const angle = Math.PI / 180;
    const section = { ...taper(angle), undercut: { depth: 0.05, height: 0.6 } };
    // The face is 1.4 mm high and drops by 0.0244 mm.
    const found = lands(section, [0.01, 0.03, 0.06]);
    expect(found[0]).toBeCloseTo(0.01 / Math.tan(angle), 12);
    expect(found[1]).toBeCloseTo(1.4, 12);
    expect(found[2]).toBeCloseTo(2, 12);
  });

  test("of a barrel is about 2·√(2·R·w), R = width²/(8·drop), while wear is small", () => {
    for (const drop of [0.003, 0.01, 0.05]) {
      const R = H ** 2 / (8 * drop);
      const wear = [0.01, 0.1, 0.5].map((share) => share * drop);
      for (const [k, land] of lands(barrel(drop), wear).entries()) {
        // Exactly 2·√(2·(R + drop/2)·w − w²) (worked): more by the share (drop − w)/(4·R). And a rounding of R over w.
        const more = (drop - wear[k]) / (4 * R);
        const about = 2 * Math.sqrt(2 * R * wear[k]);
        expect(Math.abs(land / about - 1 - more)).toBeLessThan(more ** 2 + (1e-15 * R) / wear[k]);
      }
    }
  });

  test.each([0.001, 0.002, 0.005, 0.01, 0.02])(
    "of a barrel of %d mm is its whole width when just that is worn off",
    (drop) => {
      const [{ land, pressure }] = describeRing(barrel(drop), [drop]).face;
      expect(land).toBeCloseTo(H, 9);
      expect(pressure).toBeCloseTo(0.15, 9);
    },
  );

  test.each(["keystone", "halfKeystone"] as const)(
    "of a barrelled %s is that of the barrel, but for what its sides take off the width",
    (shape) => {
      // The chord at the arc's edges is narrower by 2·0.1·tan 7.5°, or half as much: 1.3 %. The crown stays on the bore, so an arc with that
      // drop has a radius smaller by twice the share.
      const section = { ...barrel(0.1), sides: { shape, angle: Math.PI / (shape === "keystone" ? 12 : 24) } };
      for (const wear of [0.001, 0.002, 0.01]) {
        const [land] = lands(section, [wear]);
        const [plain] = lands(barrel(0.1), [wear]);
        expect(Math.abs(land / plain - 1)).toBeLessThan(0.02);
      }
    },
  );

  test("of a plain face is its height, and inside a keystone's less by both sides", () => {
    expect(lands({}, [0.001, 1])).toEqual([H, H]);
    const angle = Math.PI / 12;
    const [land] = lands({ sides: { shape: "keystone", angle } }, [0.5]);
    expect(land).toBeCloseTo(H - 2 * 0.5 * Math.tan(angle / 2), 13);
  });

  test("carries the whole force: pressure times land is p₀·h1", () => {
    for (const section of [taper(0.02), barrel(0.03), { undercut: { depth: 0.5, height: 0.6 } }]) {
      const { face } = describeRing(section, [0.001, 0.004, 0.017]);
      expect(face.map(({ wear }) => wear)).toEqual([0.001, 0.004, 0.017]);
      for (const { land, pressure } of face)
        expect(relativeError(pressure * land, 0.15 * H)).toBeLessThan(1e-15);
    }
  });

  test("is told for five depths of wear if none is given, each with a land", () => {
    for (const section of [{}, taper(0.02), barrel(0.01), barrel(0.03)]) {
      const { face } = describeRing(section);
      expect(face).toHaveLength(5);
      for (const [k, { wear, land, pressure }] of face.entries()) {
        expect(land).toBeGreaterThan(k === 0 ? 0 : face[k - 1].land - 1e-12);
        expect(land).toBeLessThanOrEqual(H * (1 + 1e-12));
        expect(Number.isFinite(pressure)).toBe(true);
        expect(wear).toBeGreaterThan(0);
      }
    }
  });

  test.each([0, -0.001, 4.4, 5, Number.NaN, Number.POSITIVE_INFINITY])(
    "is refused for a wear of %d, by its place in the list",
    (value) => {
      let error: unknown;
      try {
        describeRing(taper(0.02), [0.001, value]);
      } catch (thrown) {
        error = thrown;
      }
      expect(error).toBeInstanceOf(SpecError);
      expect(error).toMatchObject({ field: "wear.1", value });
      expect((error as SpecError).message).toMatch(
        /^wear\.1 = .*: must be above 0 and less than the wall, 4\.4 mm$/,
      );
    },
  );
});

test("a description is plain data that survives JSON, with the section's corners from the middle of its wall", () => {
  const description = describeRing({ ...taper(0.02), ...cut("bevel", "top") }, [0.001, 0.01]);
  expect(JSON.parse(JSON.stringify(description))).toStrictEqual(description);
  expect(description.profile[0]).toEqual({ x: 0, y: -2.2 });
  expect(description.properties.area).toBeCloseTo(4.4 * 2 - 2 * Math.tan(0.02) - 0.4, 12);
});
