import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { fibresOf, heightAt } from "../src/section/columns.js";
import { type Corner, type Profile, profileOf } from "../src/section/profile.js";
import {
  radialMoments,
  type SectionProperties,
  sectionProperties,
} from "../src/section/sectionProperties.js";
import type { ProfileFeatures } from "../src/spec/ringSpec.js";
import { reached } from "./reached.js";
import { relativeError, runs } from "./rings.js";

/**
 * Sections against handbook formulas, against polygons of short chords with the polygon's own formulas, against a grid of cells, and
 * against the columns of the forward computation; the outline of every feature against hand geometry.
 */

/** Some dozen operations on numbers of one size. */
const ROUNDING = 1e-13;
const { PI, SQRT2 } = Math;
/** Bulge of an arc by its angle. */
const bulgeOf = (angle: number) => Math.tan(angle / 4);

// Tools that share nothing with the library.

/** Arcs as 2ⁿ chords each: the middle of an arc lies half a chord times the bulge beside the chord, to the right of a counter-clockwise one. */
function chorded(profile: Profile, halvings: number): Corner[] {
  const halved = (from: Corner, to: Corner, turns: number): Corner[] => {
    const { x, y, bulge = 0 } = from;
    if (bulge === 0 || turns === 0) return [{ x, y }];
    const half = Math.tan(Math.atan(bulge) / 2);
    const middle = {
      x: (x + to.x + bulge * (to.y - y)) / 2,
      y: (y + to.y - bulge * (to.x - x)) / 2,
      bulge: half,
    };
    return [...halved({ x, y, bulge: half }, middle, turns - 1), ...halved(middle, to, turns - 1)];
  };
  return profile.flatMap((from, i) => halved(from, profile[(i + 1) % profile.length], halvings));
}

/** ∫1, ∫x, ∫y, ∫y², ∫x², ∫xy over a polygon: C. Steger, On the calculation of moments of polygons, 1996 (from memory). */
function polygonIntegrals(corners: readonly Corner[]): number[] {
  const sums = [0, 0, 0, 0, 0, 0];
  for (const [i, { x: x0, y: y0 }] of corners.entries()) {
    const { x: x1, y: y1 } = corners[(i + 1) % corners.length];
    const cross = x0 * y1 - x1 * y0;
    sums[0] += cross / 2;
    sums[1] += (cross * (x0 + x1)) / 6;
    sums[2] += (cross * (y0 + y1)) / 6;
    sums[3] += (cross * (y0 * y0 + y0 * y1 + y1 * y1)) / 12;
    sums[4] += (cross * (x0 * x0 + x0 * x1 + x1 * x1)) / 12;
    sums[5] += (cross * (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0)) / 24;
  }
  return sums;
}

interface Plain {
  area: number;
  x: number;
  y: number;
  inPlane: number;
  lateral: number;
  product: number;
}

function aboutCentroid([area, sx, sy, yy, xx, xy]: number[]): Plain {
  const [x, y] = [sx / area, sy / area];
  const [inPlane, lateral, product] = [yy - area * y * y, xx - area * x * x, xy - area * x * y];
  return { area, x, y, inPlane, lateral, product };
}

/** By chords, whose errors go with even powers of their length: Romberg's table over four halvings leaves some 1e-12. */
function byChords(profile: Profile): Plain {
  const rows = [5, 6, 7, 8].map((halvings) => polygonIntegrals(chorded(profile, halvings)));
  for (let order = 1; order < rows.length; order++) {
    for (let i = rows.length - 1; i >= order; i--)
      rows[i] = rows[i].map((fine, k) => fine + (fine - rows[i - 1][k]) / (4 ** order - 1));
  }
  return aboutCentroid(rows[rows.length - 1]);
}

/** Errors over what the sizes of a section make of them: its area, the root of it, its polar second moment. */
function expectSame(found: SectionProperties, expected: Plain, tolerance: number): void {
  const size = Math.sqrt(expected.area);
  const polar = expected.inPlane + expected.lateral;
  expect(Math.abs(found.area - expected.area)).toBeLessThan(tolerance * expected.area);
  expect(Math.abs(found.centroid.x - expected.x)).toBeLessThan(tolerance * size);
  expect(Math.abs(found.centroid.y - expected.y)).toBeLessThan(tolerance * size);
  for (const key of ["inPlane", "lateral", "product"] as const)
    expect(Math.abs(found[key] - expected[key])).toBeLessThan(tolerance * polar);
}

// Shapes.

const rectangle = (b: number, h: number): Corner[] => [
  { x: 0, y: 0 },
  { x: b, y: 0 },
  { x: b, y: h },
  { x: 0, y: h },
];
const moved = (profile: Profile, dx: number, dy: number): Corner[] =>
  profile.map((corner) => ({ ...corner, x: corner.x + dx, y: corner.y + dy }));
const turned = (profile: Profile, angle: number): Corner[] =>
  profile.map((corner) => ({
    ...corner,
    x: corner.x * Math.cos(angle) - corner.y * Math.sin(angle),
    y: corner.x * Math.sin(angle) + corner.y * Math.cos(angle),
  }));
/** Seen in the mirror of the y axis; run through backwards so that it stays counter-clockwise, a bulge then belongs to the other corner. */
const mirrored = (profile: Profile): Corner[] => {
  const count = profile.length;
  return profile.map((_, i) => {
    const { x, y } = profile[count - 1 - i];
    const { bulge = 0 } = profile[(2 * count - 2 - i) % count];
    return { x: -x, y, bulge };
  });
};
const circle = (radius: number, arcs: number): Corner[] =>
  Array.from({ length: arcs }, (_, k) => ({
    x: radius * Math.cos((2 * PI * k) / arcs),
    y: radius * Math.sin((2 * PI * k) / arcs),
    bulge: bulgeOf((2 * PI) / arcs),
  }));
/** Less than or more than half a circle about the origin, its chord below: half angle α. */
const segment = (radius: number, alpha: number): Corner[] => [
  { x: -radius * Math.sin(alpha), y: radius * Math.cos(alpha) },
  { x: radius * Math.sin(alpha), y: radius * Math.cos(alpha), bulge: bulgeOf(2 * alpha) },
];

describe("area, centroid and second moments are the handbook's", () => {
  test("of a rectangle: b·h, b·h³/12 and h·b³/12", () => {
    // W. C. Young & R. G. Budynas, Roark's Formulas for Stress and Strain, 7th ed., table A.1 (from memory), as below.
    const [b, h] = [2, 4.4];
    const expected = {
      area: b * h,
      x: 1,
      y: 2.2,
      inPlane: (b * h ** 3) / 12,
      lateral: (h * b ** 3) / 12,
      product: 0,
    };
    expectSame(sectionProperties(rectangle(b, h)), expected, ROUNDING);
  });

  test("of a right triangle: b·h/2, b·h³/36, and −b²·h²/72 for the product", () => {
    // K. & R. Gieck, Technical Formulae, second moments of area (from memory); the product worked: ∫xy = b²h²/24, less A·b/3·h/3.
    const [b, h] = [3, 2];
    const found = sectionProperties([
      { x: 0, y: 0 },
      { x: b, y: 0 },
      { x: 0, y: h },
    ]);
    const expected = {
      area: (b * h) / 2,
      x: b / 3,
      y: h / 3,
      inPlane: (b * h ** 3) / 36,
      lateral: (h * b ** 3) / 36,
      product: (-b * b * h * h) / 72,
    };
    expectSame(found, expected, ROUNDING);
  });

  test("of a symmetric trapezium: h³·(B² + 4Bb + b²)/(36·(B + b)) and h·(B⁴ − b⁴)/(48·(B − b))", () => {
    // Roark, table A.1 (from memory); centroid h·(B + 2b)/(3·(B + b)) from the base B.
    const [B, b, h] = [3, 1.2, 2];
    const found = sectionProperties([
      { x: 0, y: 0 },
      { x: B, y: 0 },
      { x: (B + b) / 2, y: h },
      { x: (B - b) / 2, y: h },
    ]);
    const expected = {
      area: ((B + b) * h) / 2,
      x: B / 2,
      y: (h * (B + 2 * b)) / (3 * (B + b)),
      inPlane: (h ** 3 * (B * B + 4 * B * b + b * b)) / (36 * (B + b)),
      lateral: (h * (B ** 4 - b ** 4)) / (48 * (B - b)),
      product: 0,
    };
    expectSame(found, expected, ROUNDING);
  });

  test("of an equal angle 100 × 10 without fillets, by its two rectangles; main axes at 45°", () => {
    // Worked: 100 × 10 lying at (50, 5), 10 × 90 standing at (5, 55), parallel-axis theorem.
    const found = sectionProperties([
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 10 },
      { x: 10, y: 10 },
      { x: 10, y: 100 },
      { x: 0, y: 100 },
    ]);
    const c = (1000 * 50 + 900 * 5) / 1900;
    const second = (100 * 10 ** 3 + 10 * 90 ** 3) / 12 + 1000 * (5 - c) ** 2 + 900 * (55 - c) ** 2;
    const product = 1000 * (50 - c) * (5 - c) + 900 * (5 - c) * (55 - c);
    expectSame(found, { area: 1900, x: c, y: c, inPlane: second, lateral: second, product }, ROUNDING);
    // The product is negative, so the section is stiffest about the axis that rises at 45°, across the line from heel to
    // toes' middle.
    expect(relativeError(found.principal.moments[0], second - product)).toBeLessThan(ROUNDING);
    expect(relativeError(found.principal.moments[1], second + product)).toBeLessThan(ROUNDING);
    expect(Math.abs(found.principal.angle - PI / 4)).toBeLessThan(ROUNDING);
    // EN 10056-1, L 100 × 100 × 10, with fillets (from memory): 19.2 cm², 177, 280 and 73 cm⁴; fillets count some 2 %.
    reached("angle", "area", relativeError(found.area, 1920), 0.02);
    reached("angle", "second moment", relativeError(found.inPlane, 177e4), 0.025);
    reached("angle", "larger principal moment", relativeError(found.principal.moments[0], 280e4), 0.03);
    reached("angle", "smaller principal moment", relativeError(found.principal.moments[1], 73e4), 0.03);
  });

  test("of a regular hexagon: 3√3/2·s², 5√3/16·s⁴ about every axis", () => {
    // Gieck (from memory).
    const s = 1.7;
    const hexagon = Array.from({ length: 6 }, (_, k) => ({
      x: s * Math.cos((k * PI) / 3 + 0.2),
      y: s * Math.sin((k * PI) / 3 + 0.2),
    }));
    const second = ((5 * Math.sqrt(3)) / 16) * s ** 4;
    const expected = { area: 1.5 * Math.sqrt(3) * s * s, x: 0, y: 0, inPlane: second, lateral: second };
    expectSame(sectionProperties(hexagon), { ...expected, product: 0 }, ROUNDING);
  });

  test.each([2, 3, 4, 7])("of a circle of %d arcs: π·r² and π·r⁴/4", (arcs) => {
    const r = 1.3;
    const second = (PI * r ** 4) / 4;
    const expected = { area: PI * r * r, x: 0, y: 0, inPlane: second, lateral: second, product: 0 };
    // Five-point panels a twelfth of an arc long miss below 1e-14 of a half circle.
    expectSame(sectionProperties(circle(r, arcs)), expected, ROUNDING);
  });

  test.each([0.2, 0.7, PI / 2])("of a segment of half angle %d", (alpha) => {
    // Roark, table A.1, segments of a solid circle (from memory): about the centre, along the chord and across it.
    const R = 2.5;
    const [s, c] = [Math.sin(alpha), Math.cos(alpha)];
    const area = R * R * (alpha - s * c);
    const y = (2 * R * s ** 3) / (3 * (alpha - s * c));
    const aboutCentre = (R ** 4 / 4) * (alpha - s * c + 2 * s ** 3 * c);
    const lateral = (R ** 4 / 12) * (3 * alpha - 3 * s * c - 2 * s ** 3 * c);
    // The formula takes the difference of two numbers, at half angle 0.2 some 500 times its own size.
    const lost = aboutCentre / (aboutCentre - area * y * y);
    const expected = { area, x: 0, y, inPlane: aboutCentre - area * y * y, lateral, product: 0 };
    expectSame(sectionProperties(segment(R, alpha)), expected, ROUNDING * (1 + lost / 10));
  });

  test("of a half circle: 4r/(3π) and 0.1098·r⁴", () => {
    // Roark, table A.1, prints 0.1098 (from memory): π/8 − 8/(9π).
    const { centroid, inPlane } = sectionProperties(segment(1, PI / 2));
    expect(Math.abs(centroid.y - 4 / (3 * PI))).toBeLessThan(ROUNDING);
    expect(relativeError(inPlane, PI / 8 - 8 / (9 * PI))).toBeLessThan(ROUNDING);
    expect(inPlane.toFixed(4)).toBe("0.1098");
  });

  test("of a square with a round hole's quarter cut out of a corner, by subtraction", () => {
    // Worked: square 2 × 2 less a quarter circle of radius 1 about its upper right corner; quarter: A = π/4, centroid 4/(3π) from either
    // edge, ∫ about its own edges π/16.
    const notched = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 2, y: 1, bulge: -bulgeOf(PI / 2) },
      { x: 1, y: 2 },
      { x: 0, y: 2 },
    ];
    const [quarter, from] = [PI / 4, 2 - 4 / (3 * PI)];
    const own = PI / 16 - quarter * (4 / (3 * PI)) ** 2;
    const area = 4 - quarter;
    const c = (4 - quarter * from) / area;
    const second = 4 / 3 + 4 * (1 - c) ** 2 - own - quarter * (from - c) ** 2;
    // Of the quarter about its corner ∫xy = 1/8, about its centroid less A·(4/(3π))².
    const ownProduct = 1 / 8 - quarter * (4 / (3 * PI)) ** 2;
    const product = 4 * (1 - c) ** 2 - ownProduct - quarter * (from - c) ** 2;
    expectSame(
      sectionProperties(notched),
      { area, x: c, y: c, inPlane: second, lateral: second, product },
      ROUNDING,
    );
  });
});

// Polygons round a middle point, so that they never cross themselves: neighbours are less than half a turn apart.
const share = fc.integer({ min: 0, max: 1000 }).map((value) => value / 1000);
const starPolygon: fc.Arbitrary<Corner[]> = fc
  .array(fc.tuple(share, share), { minLength: 4, maxLength: 10 })
  .map((corners) =>
    corners.map(([late, far], i) => {
      const angle = (2 * PI * (i + 0.8 * late)) / corners.length;
      const radius = 0.3 + 2.7 * far;
      return { x: 4 + radius * Math.cos(angle), y: radius * Math.sin(angle) - 1 };
    }),
  );
/** Corners on a circle; arcs that bend outward at most as the circle does, or as far inward: they never touch. */
const arcPolygon: fc.Arbitrary<Corner[]> = fc
  .array(fc.tuple(share, share), { minLength: 6, maxLength: 9 })
  .map((corners) => {
    const angles = corners.map(([late], i) => (2 * PI * (i + 0.5 * late)) / corners.length);
    return corners.map(([, out], i) => ({
      x: 1 + 2 * Math.cos(angles[i]),
      y: 2 * Math.sin(angles[i]) - 0.5,
      bulge: (2 * out - 1) * bulgeOf((angles[i + 1] ?? angles[0] + 2 * PI) - angles[i]),
    }));
  });

describe("any section", () => {
  property.prop([starPolygon], runs(200))(
    "of straight edges is the polygon by its own formulas",
    (corners) => {
      // The formulas take moments about an origin 4 mm off, of sections down to 0.5 mm: a hundred times the polar second moment.
      expectSame(sectionProperties(corners), aboutCentroid(polygonIntegrals(corners)), 1e-11);
    },
  );

  property.prop([arcPolygon], runs(100))(
    "with arcs is the limit of polygons of ever shorter chords",
    (corners) => {
      expectSame(sectionProperties(corners), byChords(corners), 1e-12);
    },
  );

  test.each<[string, Profile]>([
    ["a circle", circle(1, 3)],
    [
      "a shape with a hollow arc",
      [
        { x: 0, y: 0, bulge: -0.3 },
        { x: 2, y: 0 },
        { x: 2, y: 3 },
        { x: 0, y: 3, bulge: 0.4 },
      ],
    ],
    [
      "a hook",
      [
        { x: 0, y: 0 },
        { x: 3, y: 0 },
        { x: 3, y: 2 },
        { x: 2, y: 2 },
        { x: 2, y: 1 },
        { x: 0, y: 1 },
      ],
    ],
  ])("such as %s is what a grid of cells adds up to", (_, profile) => {
    const corners = chorded(profile, 6);
    const inside = (x: number, y: number) =>
      corners.reduce((odd, { x: x0, y: y0 }, i) => {
        const { x: x1, y: y1 } = corners[(i + 1) % corners.length];
        return y0 <= y !== y1 <= y && x < x0 + ((x1 - x0) * (y - y0)) / (y1 - y0) ? !odd : odd;
      }, false);
    const cells = 250;
    const [left, low, size] = [-1.3, -1.3, 4.9];
    const sums = [0, 0, 0, 0, 0, 0];
    const cell = (size / cells) ** 2;
    for (let i = 0; i < cells; i++) {
      for (let j = 0; j < cells; j++) {
        const [x, y] = [left + ((i + 0.5) * size) / cells, low + ((j + 0.5) * size) / cells];
        if (!inside(x, y)) continue;
        for (const [k, value] of [1, x, y, y * y, x * x, x * y].entries()) sums[k] += cell * value;
      }
    }
    // A straight edge along the grid may be off by half a cell, 0.01 mm, of some 2 mm; measured 0.6 % at most.
    expectSame(sectionProperties(profile), aboutCentroid(sums), 0.015);
  });

  property.prop([fc.oneof(starPolygon, arcPolygon), share, share], runs(100))(
    "keeps its moments wherever it is moved, and its centroid goes with it",
    (corners, dx, dy) => {
      const [one, other] = [sectionProperties(corners), sectionProperties(moved(corners, 9 * dx, -9 * dy))];
      const { x, y } = one.centroid;
      const { area, inPlane, lateral, product } = one;
      const expected = { area, x: x + 9 * dx, y: y - 9 * dy, inPlane, lateral, product };
      // Coordinates of up to 14 mm round by 1e-15, and sections are down to half a millimetre.
      expectSame(other, expected, 1e-12);
    },
  );

  property.prop([fc.oneof(starPolygon, arcPolygon), share], runs(100))(
    "turns as a tensor turns, and its principal axes with it",
    (corners, part) => {
      const angle = (part - 0.5) * 2 * PI;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const one = sectionProperties(corners);
      const other = sectionProperties(turned(corners, angle));
      const { area, inPlane, lateral, product, centroid } = one;
      expectSame(
        other,
        {
          area,
          x: centroid.x * c - centroid.y * s,
          y: centroid.x * s + centroid.y * c,
          inPlane: inPlane * c * c + lateral * s * s + 2 * product * s * c,
          lateral: inPlane * s * s + lateral * c * c - 2 * product * s * c,
          product: (lateral - inPlane) * s * c + product * (c * c - s * s),
        },
        1e-12,
      );
      const [large, small] = one.principal.moments;
      expect(relativeError(other.principal.moments[0], large)).toBeLessThan(1e-12);
      expect(relativeError(other.principal.moments[1], small)).toBeLessThan(1e-11);
      // Where both moments are alike the axes have no direction.
      const apart = Math.sin(other.principal.angle - one.principal.angle - angle);
      expect(Math.abs(apart)).toBeLessThan((1e-12 * (large + small)) / (large - small));
    },
  );

  property.prop([fc.oneof(starPolygon, arcPolygon)], runs(100))(
    "has principal moments that are its largest and smallest, and no product about those axes",
    (corners) => {
      const { inPlane, lateral, product, principal } = sectionProperties(corners);
      const about = (angle: number) =>
        inPlane * Math.cos(angle) ** 2 + lateral * Math.sin(angle) ** 2 - product * Math.sin(2 * angle);
      const [large, small] = principal.moments;
      const tolerance = 1e-14 * (inPlane + lateral);
      expect(Math.abs(about(principal.angle) - large)).toBeLessThan(tolerance);
      expect(Math.abs(about(principal.angle + PI / 2) - small)).toBeLessThan(tolerance);
      const turn = ((lateral - inPlane) / 2) * Math.sin(-2 * principal.angle);
      expect(Math.abs(turn + product * Math.cos(2 * principal.angle))).toBeLessThan(tolerance);
      for (let k = 0; k < 12; k++) {
        expect(about(k / 4)).toBeLessThan(large + tolerance);
        expect(about(k / 4)).toBeGreaterThan(small - tolerance);
      }
      expect(small).toBeGreaterThan(0);
    },
  );

  property.prop([fc.oneof(starPolygon, arcPolygon)], runs(100))(
    "has the opposite product in the mirror, all else alike",
    (corners) => {
      const { area, centroid, inPlane, lateral, product } = sectionProperties(corners);
      expectSame(
        sectionProperties(mirrored(corners)),
        { area, x: -centroid.x, y: centroid.y, inPlane, lateral, product: -product },
        1e-12,
      );
    },
  );

  test("that is a rectangle stands with its stiff axis along the ring's, or across it where it lies", () => {
    const axis = (b: number, h: number, angle: number) =>
      sectionProperties(turned(rectangle(b, h), angle)).principal.angle;
    expect(Math.abs(Math.sin(axis(2, 4.4, 0)))).toBeLessThan(ROUNDING);
    expect(Math.abs(Math.sin(axis(2, 4.4, 0.3) - 0.3))).toBeLessThan(ROUNDING);
    expect(Math.abs(Math.cos(axis(4.4, 2, 0)))).toBeLessThan(ROUNDING);
  });
});

describe("columns cut the same section: fibres give its area, centroid, second moment and curved-bar integral", () => {
  const byFibres = (profile: Profile) => {
    const fibres = fibresOf(profile);
    const sum = (f: (y: number) => number) => fibres.reduce((total, { y, area }) => total + area * f(y), 0);
    const area = sum(() => 1);
    const y = sum((at) => at) / area;
    return { area, y, inPlane: sum((at) => (at - y) ** 2), sum };
  };
  const expectAlike = (profile: Profile, tolerance: number) => {
    const found = byFibres(profile);
    const { area, centroid, inPlane } = sectionProperties(profile);
    expect(relativeError(found.area, area)).toBeLessThan(tolerance);
    expect(Math.abs(found.y - centroid.y)).toBeLessThan(tolerance * Math.sqrt(area));
    expect(relativeError(found.inPlane, inPlane)).toBeLessThan(tolerance);
    // Moments of odd and high powers, each over what its absolute value would be.
    for (const [n, moment] of radialMoments(profile, 9).entries()) {
      const size = found.sum((y) => Math.abs(y) ** n);
      expect(Math.abs(found.sum((y) => y ** n) - moment)).toBeLessThan((n + 1) * tolerance * size);
    }
  };

  property.prop([starPolygon], runs(100))("for straight edges to rounding", (corners) => {
    // Ten points are exact up to the power 19. Columns between two corners that all but share an x have lost digits of their width.
    expectAlike(corners, 1e-12);
  });

  test.each<[string, Profile]>([
    ["a circle of two arcs", circle(2, 2)],
    ["a circle of four arcs", turned(circle(2, 4), 0.3)],
    ["a half circle", segment(2, PI / 2)],
    ["a rounded corner", profileWithFillet(4.4, 2)],
    ["a barrel as high as may be", profileOf(4.4, 2, { face: { shape: "barrel", drop: 0.5 } })],
    ["a usual barrel", profileOf(4.4, 2, { face: { shape: "barrel", drop: 0.01 } })],
  ])("for %s closely enough to prove a ring to 1e-11", (_, profile) => {
    // The proof states 1e-11 of the bore; the opening is up to a tenth of it, and goes with the section's stiffness.
    expectAlike(profile, 1e-10);
  });

  property.prop([arcPolygon], runs(60))("for any arcs to a hundred-thousandth", (corners) => {
    // An arc that ends just short of where it would run across the axis: columns near it miss most (measured 3.4e-6).
    expectAlike(corners, 1e-5);
  });
});

function profileWithFillet(a: number, h: number): Corner[] {
  return [
    { x: 0, y: 0 },
    { x: h, y: 0 },
    { x: h, y: a - 1, bulge: bulgeOf(PI / 2) },
    { x: h - 1, y: a },
    { x: 0, y: a },
  ];
}

describe("radial moments ∫yⁿ dA are closed forms, up to the 71st that the series of the curved bar takes:", () => {
  // What an error of the nth counts for in the series where |κ·y| reaches 1/3, the thickest wall allowed.
  const expectMoments = (profile: Profile, exact: (n: number) => number, first: number) => {
    for (const [n, moment] of radialMoments(profile, 72).entries())
      expect(Math.abs(moment - exact(n)) / 3 ** n).toBeLessThan(ROUNDING * first);
  };

  test("a rectangle's, h·2·(a/2)ⁿ⁺¹/(n + 1) for even n", () => {
    const profile = moved(rectangle(2, 2), 0, -1);
    expectMoments(profile, (n) => (n % 2 ? 0 : (2 * 2) / (n + 1)), 4);
    // Straight edges are closed forms to any power, not just where they count.
    for (const [n, moment] of radialMoments(profile, 72).entries())
      if (n % 2 === 0) expect(relativeError(moment, 4 / (n + 1))).toBeLessThan(ROUNDING);
  });

  test("a triangle's on its base, b·hⁿ⁺¹/((n + 1)·(n + 2))", () => {
    const triangle = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 1, y: 1 },
    ];
    // ∫yⁿ·b·(1 − y/h) dy (worked).
    for (const [n, moment] of radialMoments(triangle, 72).entries())
      expect(relativeError(moment, 3 / ((n + 1) * (n + 2)))).toBeLessThan(ROUNDING);
  });

  test("a circle's, 2π·rⁿ⁺²·(n − 1)!!/((n + 2)·n!!) for even n", () => {
    // In polar coordinates rⁿ⁺²/(n + 2)·∫sinⁿ, Wallis' integral (worked).
    const wallis = (n: number): number => (n === 0 ? 2 * PI : (wallis(n - 2) * (n - 1)) / n);
    expectMoments(circle(1, 4), (n) => (n % 2 ? 0 : wallis(n) / (n + 2)), PI);
    expectMoments(circle(1, 2), (n) => (n % 2 ? 0 : wallis(n) / (n + 2)), PI);
  });
});

describe("the height at a distance is what the section's width there is:", () => {
  const barrel = (drop: number) => profileOf(4.4, 2, { face: { shape: "barrel", drop } });

  test("of a rectangle, a triangle and a circle", () => {
    for (const y of [0.1, 1, 4.3]) expect(heightAt(rectangle(2, 4.4), y)).toBeCloseTo(2, 14);
    const triangle = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 0, y: 2 },
    ];
    for (const y of [0.1, 1, 1.9]) expect(heightAt(triangle, y)).toBeCloseTo(3 * (1 - y / 2), 14);
    // The chord 2·√(r² − y²); a rounding of y near the rim counts by the slope of the root, tenfold at 0.995.
    for (const arcs of [2, 3, 5])
      for (const y of [-0.97, -0.3, 0.2, 0.995])
        expect(heightAt(circle(1, arcs), y)).toBeCloseTo(2 * Math.sqrt(1 - y * y), 13);
  });

  test("of two legs their sum, and nothing beyond", () => {
    const forked = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 3, y: 2 },
      { x: 2.2, y: 2 },
      { x: 2.2, y: 1 },
      { x: 0.5, y: 1 },
      { x: 0.5, y: 2 },
      { x: 0, y: 2 },
    ];
    expect(heightAt(forked, 0.5)).toBeCloseTo(3, 14);
    expect(heightAt(forked, 1.5)).toBeCloseTo(1.3, 14);
    expect(heightAt(forked, 2.5)).toBe(0);
    expect(heightAt(forked, -0.5)).toBe(0);
  });

  test("just inside a barrel's crown the chord of its arc, 2·√(2·R·w − w²)", () => {
    // Worked: three points of a circle, R = width²/(8·drop) + drop/2.
    for (const drop of [0.003, 0.01, 0.1, 0.5]) {
      const R = 2 ** 2 / (8 * drop) + drop / 2;
      for (const part of [0.01, 0.3, 0.9, 0.999]) {
        const w = part * drop;
        const land = 2 * Math.sqrt(2 * R * w - w * w);
        // A rounding or two of R against w.
        expect(relativeError(heightAt(barrel(drop), 2.2 - w), land)).toBeLessThan(1e-12 + (4e-16 * R) / w);
      }
    }
  });

  test.each([0.001, 0.002, 0.005, 0.01, 0.02, 0.1])(
    "the whole width at the corners themselves where a barrel of %d mm ends",
    (drop) => {
      // From above and from below the height tends to 2 mm.
      expect(heightAt(barrel(drop), 2.2 - drop)).toBeCloseTo(2, 9);
    },
  );

  property.prop([fc.oneof(starPolygon, arcPolygon)], runs(30))("its integral is the area", (corners) => {
    const [low, high] = [-4.1, 2.1];
    const strips = 1000;
    let sum = 0;
    for (let k = 0; k < strips; k++)
      sum += (heightAt(corners, low + ((k + 0.5) * (high - low)) / strips) * (high - low)) / strips;
    // Midpoints miss a half strip at each edge along the axis, 0.003 by some 4 mm at most.
    expect(Math.abs(sum - sectionProperties(corners).area)).toBeLessThan(0.03);
  });
});

describe("a ring's section has the corners and the area that its features give it by hand:", () => {
  /** The ferry ring's wall and height; from its middle the faces lie at ±2.2. */
  const [a, h] = [4.4, 2];
  const close = (found: Profile, expected: readonly (readonly [x: number, y: number, bulge?: number])[]) => {
    expect(found.map(({ bulge }) => bulge ?? 0).map((bulge) => bulge.toFixed(12))).toEqual(
      expected.map(([, , bulge = 0]) => bulge.toFixed(12)),
    );
    for (const [i, [x, y]] of expected.entries()) {
      // A rounding or two of some millimetres.
      expect(Math.abs(found[i].x - x)).toBeLessThan(4e-15);
      expect(Math.abs(found[i].y - y)).toBeLessThan(4e-15);
    }
  };
  const inner = [
    [0, -2.2],
    [2, -2.2],
  ] as const;
  const outer = [
    [2, 2.2],
    [0, 2.2],
  ] as const;
  const tan1 = Math.tan(PI / 180);
  const tan75 = Math.tan((7.5 * PI) / 180);
  /** A full keystone of 15° brings each side nearer by tan 7.5° for each millimetre inside the face. */
  const narrowed = (x: number, y: number) => {
    const inward = 2.2 - y;
    return [inward * tan75 + x * (1 - inward * tan75), y] as const;
  };

  test.each<
    [string, ProfileFeatures, readonly (readonly [x: number, y: number, bulge?: number])[], area: number]
  >([
    ["a plain rectangle", {}, [...inner, ...outer], 8.8],
    [
      // The lower edge is on the bore.
      "a taper of 1°",
      { face: { shape: "taper", angle: PI / 180 } },
      [...inner, [2, 2.2 - 2 * tan1], [0, 2.2]],
      8.8 - (2 * 2 * tan1) / 2,
    ],
    [
      // Tangent of a quarter of its angle: drop over half the width.
      "a barrel of 0.02 mm",
      { face: { shape: "barrel", drop: 0.02 } },
      [...inner, [2, 2.18, 0.02], [0, 2.18]],
      8.8 - 0.04 + segmentArea(2, 0.02),
    ],
    [
      "an undercut of 0.5 × 0.6 mm",
      { undercut: { depth: 0.5, height: 0.6 } },
      [...inner, [2, 2.2], [0.6, 2.2], [0.6, 1.7], [0, 1.7]],
      8.8 - 0.3,
    ],
    [
      // The taper starts at the edge that is left.
      "a taper of 1° over that undercut",
      { face: { shape: "taper", angle: PI / 180 }, undercut: { depth: 0.5, height: 0.6 } },
      [...inner, [2, 2.2 - 1.4 * tan1], [0.6, 2.2], [0.6, 1.7], [0, 1.7]],
      8.8 - 0.3 - (1.4 * 1.4 * tan1) / 2,
    ],
    [
      "a barrel over that undercut",
      { face: { shape: "barrel", drop: 0.014 }, undercut: { depth: 0.5, height: 0.6 } },
      [...inner, [2, 2.186, 0.02], [0.6, 2.186], [0.6, 1.7], [0, 1.7]],
      8.8 - 0.3 - 1.4 * 0.014 + segmentArea(1.4, 0.014),
    ],
    [
      "a bevel at the upper inner edge",
      { inner: { shape: "bevel", side: "top", depth: 0.7, height: 0.4 } },
      [[0, -2.2], [1.6, -2.2], [2, -1.5], ...outer],
      8.8 - 0.14,
    ],
    [
      "a bevel at the lower inner edge",
      { inner: { shape: "bevel", side: "bottom", depth: 0.7, height: 0.4 } },
      [[0, -1.5], [0.4, -2.2], [2, -2.2], ...outer],
      8.8 - 0.14,
    ],
    [
      "a step at the upper inner edge",
      { inner: { shape: "step", side: "top", depth: 0.7, height: 0.4 } },
      [[0, -2.2], [1.6, -2.2], [1.6, -1.5], [2, -1.5], ...outer],
      8.8 - 0.28,
    ],
    [
      "a step at the lower inner edge",
      { inner: { shape: "step", side: "bottom", depth: 0.7, height: 0.4 } },
      [[0, -1.5], [0.4, -1.5], [0.4, -2.2], [2, -2.2], ...outer],
      8.8 - 0.28,
    ],
    [
      // A trapezium: 2 mm outside, less 2 × 4.4·tan 7.5° inside.
      "a keystone of 15°",
      { sides: { shape: "keystone", angle: PI / 12 } },
      [[4.4 * tan75, -2.2], [2 - 4.4 * tan75, -2.2], ...outer],
      (4.4 * (4 - 2 * 4.4 * tan75)) / 2,
    ],
    [
      // The lower side stays square.
      "a half keystone of 7.5°",
      { sides: { shape: "halfKeystone", angle: PI / 24 } },
      [[0, -2.2], [2 - 4.4 * tan75, -2.2], ...outer],
      (4.4 * (4 - 4.4 * tan75)) / 2,
    ],
    [
      "a tapered, undercut and stepped keystone",
      {
        face: { shape: "taper", angle: PI / 180 },
        undercut: { depth: 0.5, height: 0.6 },
        inner: { shape: "step", side: "top", depth: 0.7, height: 0.4 },
        sides: { shape: "keystone", angle: PI / 12 },
      },
      [
        narrowed(0, -2.2),
        narrowed(1.6, -2.2),
        narrowed(1.6, -1.5),
        narrowed(2, -1.5),
        narrowed(2, 2.2 - 1.4 * tan1),
        narrowed(0.6, 2.2),
        narrowed(0.6, 1.7),
        narrowed(0, 1.7),
      ],
      // The trapezium less: a strip 0.4 : 2 as wide as it over the inner 0.7 mm, one 0.6 : 2 over the outer 0.5 mm, and the taper,
      // between the face, the slanted side and the line from corner to corner.
      (4.4 * (4 - 8.8 * tan75)) / 2 -
        0.2 * 0.7 * (2 - 2 * tan75 * 4.05) -
        0.3 * 0.5 * (2 - 2 * tan75 * 0.25) -
        (1.4 * 1.4 * tan1) / 2,
    ],
    [
      // Given from the inner face, kept from the middle; bulges stay.
      "an outline of its own",
      {
        outline: [
          { x: 0, y: 0, bulge: -0.1 },
          { x: 2, y: 0 },
          { x: 2, y: 4.2, bulge: 0.1 },
          { x: 1, y: 4.4 },
          { x: 0, y: 4.2 },
        ],
      },
      [
        [0, -2.2, -0.1],
        [2, -2.2],
        [2, 2, 0.1],
        [1, 2.2],
        [0, 2],
      ],
      8.4 + 0.2 - segmentArea(2, 0.1) + segmentArea(Math.hypot(1, 0.2), 0.05 * Math.hypot(1, 0.2)),
    ],
  ])("%s", (_, features, corners, area) => {
    const profile = profileOf(a, h, features);
    close(profile, corners);
    expect(relativeError(sectionProperties(profile).area, area)).toBeLessThan(ROUNDING);
  });

  test.each<[string, ProfileFeatures]>([
    ["a taper", { face: { shape: "taper", angle: 0.1 } }],
    ["a barrel", { face: { shape: "barrel", drop: 0.2 } }],
    ["an undercut", { undercut: { depth: 1, height: 1 } }],
    [
      "a barrel over an undercut",
      { face: { shape: "barrel", drop: 0.2 }, undercut: { depth: 1, height: 1 } },
    ],
    [
      "a tapered keystone",
      { face: { shape: "taper", angle: 0.1 }, sides: { shape: "keystone", angle: 0.2 } },
    ],
    [
      "a barrelled keystone",
      { face: { shape: "barrel", drop: 0.1 }, sides: { shape: "keystone", angle: 0.26 } },
    ],
    [
      "a barrelled half keystone",
      { face: { shape: "barrel", drop: 0.1 }, sides: { shape: "halfKeystone", angle: 0.12 } },
    ],
  ])("the contact edge of %s lies on the bore, and its inner face where it was", (_, features) => {
    // Middles of arcs are corners of the chorded outline.
    const heights = chorded(profileOf(a, h, features), 4).map(({ y }) => y);
    expect(Math.abs(Math.max(...heights) - a / 2)).toBeLessThan(1e-12);
    expect(Math.min(...heights)).toBe(-a / 2);
  });

  test("top and bottom cuts are mirror images", () => {
    for (const shape of ["bevel", "step"] as const) {
      const cut = (side: "top" | "bottom") =>
        sectionProperties(profileOf(a, h, { inner: { shape, side, depth: 1.1, height: 0.6 } }));
      const [top, bottom] = [cut("top"), cut("bottom")];
      expect(Math.abs(top.centroid.x - (h - bottom.centroid.x))).toBeLessThan(ROUNDING);
      expect(relativeError(top.product, -bottom.product)).toBeLessThan(ROUNDING);
      expect(relativeError(top.inPlane, bottom.inPlane)).toBeLessThan(ROUNDING);
    }
  });
});

/** Of a circle between arc and chord, by its chord and rise: R²·(α − sin α·cos α), R = c²/(8·s) + s/2 (Gieck; from memory). */
function segmentArea(chord: number, rise: number): number {
  const R = chord ** 2 / (8 * rise) + rise / 2;
  const alpha = 2 * Math.atan((2 * rise) / chord);
  // Of flat arcs the difference is a series: α − sin α·cos α = (2α − sin 2α)/2.
  const twice = 2 * alpha;
  let [term, sum] = [twice ** 3 / 6, 0];
  for (let k = 4; Math.abs(term) > 1e-18 * twice ** 3; k += 2) {
    sum += term;
    term *= -(twice ** 2) / (k * (k + 1));
  }
  return (R * R * sum) / 2;
}

test("the tools of this file know a square and a circle", () => {
  expect(aboutCentroid(polygonIntegrals(rectangle(SQRT2, SQRT2))).area).toBeCloseTo(2, 14);
  expect(byChords(circle(1, 2)).inPlane).toBeCloseTo(PI / 4, 12);
  expect(segmentArea(2, 1)).toBeCloseTo(PI / 2, 12);
});
