import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { addCubicTrig, eachPanel, WIDEST_PANEL } from "../src/numeric/cubicTrig.js";
import { derivative, differenceWeights } from "../src/numeric/finiteDifference.js";
import { shapePreserving } from "../src/numeric/shapePreserving.js";
import reference from "./reference/pchip.json" with { type: "json" };
import { runs } from "./rings.js";
import { integral } from "./statics.js";

/**
 * Curves through tables, and the derivatives and integrals that go with them.
 *
 * `reference/pchip.json`: scipy's PchipInterpolator, recipe and version inside; it has the same slopes within and at
 * the ends. Among its tables is one for each branch: rises of unlike sign, a level piece, both cuts of an end slope,
 * two and three points. Two of its questions lie outside the table.
 */

/** Rounding of a cubic of numbers of this size: some ten operations. */
const rounding = (values: readonly number[]) => 1e-14 * Math.max(...values.map(Math.abs));

describe("shapePreserving", () => {
  test.each(reference.cases)("gives the values of scipy for $name", ({ x, y, at, value }) => {
    const curve = shapePreserving(x, y);
    expect(curve.knots).toEqual(x);
    for (const [k, t] of at.entries()) {
      expect(Math.abs(curve.at(t) - value[k])).toBeLessThan(rounding([...y, ...value]));
    }
  });

  test("of a parabola is not the parabola, so its shape costs something", () => {
    // Hand result for y = x² at −1, 0, 1, 2: level at 0; at 1 the harmonic mean of the rises 1 and 3, 3/2. Half-way
    // between, with 0, 1 and the slopes 0, 3/2: ½·(0 + 1) + (0 − 3/2)/8 = 5/16 instead of 1/4.
    expect(shapePreserving([-1, 0, 1, 2], [1, 0, 1, 4]).at(0.5)).toBeCloseTo(5 / 16, 14);
  });

  const table = fc
    .array(
      fc.tuple(
        fc.integer({ min: 1, max: 1000 }),
        fc.oneof(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -1000, max: 1000 })),
      ),
      { minLength: 2, maxLength: 20 },
    )
    .map((pairs) => {
      const x: number[] = [];
      for (const [width] of pairs) x.push((x.at(-1) ?? -3) + width / 250);
      return { x, y: pairs.map(([, value]) => value / 100) };
    });
  const share = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);

  property.prop([table, fc.array(share, { minLength: 2, maxLength: 8 })], runs(300))(
    "meets the points, and between two of them rises or falls from one to the other only",
    ({ x, y }, shares) => {
      const curve = shapePreserving(x, y);
      const slack = rounding([...y, 1]);
      shares.sort((one, other) => one - other);
      for (let k = 0; k + 1 < x.length; k++) {
        const between = shares.map((part) => curve.at(x[k] + part * (x[k + 1] - x[k])));
        const direction = Math.sign(y[k + 1] - y[k]);
        const values = [y[k], ...between, y[k + 1]];
        for (let i = 1; i < values.length; i++) {
          const step = values[i] - values[i - 1];
          if (direction === 0) expect(Math.abs(step)).toBeLessThan(slack);
          else expect(direction * step).toBeGreaterThan(-slack);
        }
        for (const end of [k, k + 1]) expect(Math.abs(curve.at(x[end]) - y[end])).toBeLessThan(slack);
      }
    },
  );

  property.prop([table, fc.array(share, { minLength: 1, maxLength: 30 })], runs(100))(
    "answers alike in whatever order it is asked",
    ({ x, y }, shares) => {
      const curve = shapePreserving(x, y);
      const places = shares.map((part) => x[0] + part * (x[x.length - 1] - x[0]));
      // At a point both cubics beside it may answer.
      for (const t of places) {
        expect(Math.abs(curve.at(t) - shapePreserving(x, y).at(t))).toBeLessThan(rounding([...y, 1]));
      }
    },
  );

  property.prop([table, share], runs(100))("tells the cubic around any place", ({ x, y }, part) => {
    const curve = shapePreserving(x, y);
    const last = x.length - 1;
    const t = x[0] + part * (x[last] - x[0]);
    const [c0, c1, c2, c3] = curve.around(t);
    const k = Math.max(0, Math.min(last - 1, x.findIndex((at) => at >= t) - 1));
    for (const to of [x[k], (x[k] + x[k + 1]) / 2, x[k + 1]]) {
      const u = to - t;
      expect(Math.abs(c0 + u * (c1 + u * (c2 + u * c3)) - curve.at(to))).toBeLessThan(
        10 * rounding([...y, 1]),
      );
    }
  });

  property.prop([table], runs(100))("has one slope at a point, seen from either side", ({ x, y }) => {
    const curve = shapePreserving(x, y);
    for (let k = 1; k + 1 < x.length; k++) {
      const step = 1e-4 * Math.min(x[k] - x[k - 1], x[k + 1] - x[k]);
      const before = (y[k] - curve.at(x[k] - step)) / step;
      const after = (curve.at(x[k] + step) - y[k]) / step;
      // Each is off by step·|curve″|/2; as no slope passes three rises, |curve″| is at most 12·rise/width.
      const rises = [k - 1, k].map((i) => Math.abs((y[i + 1] - y[i]) / (x[i + 1] - x[i])));
      expect(Math.abs(after - before)).toBeLessThan(1.2e-3 * Math.max(...rises) + 1e-9);
    }
  });
});

describe("differenceWeights", () => {
  test("are the textbook ones on equal steps", () => {
    // B. Fornberg, Math. Comput. 51 (1988), table 1 (from memory): central, orders two and four.
    const expectWeights = (nodes: number[], first: number[], second: number[]) => {
      const [value, one, two] = differenceWeights(0, nodes);
      const middle = nodes.indexOf(0);
      for (const [k] of nodes.entries()) {
        expect(value[k]).toBeCloseTo(k === middle ? 1 : 0, 14);
        expect(one[k]).toBeCloseTo(first[k], 14);
        expect(two[k]).toBeCloseTo(second[k], 14);
      }
    };
    expectWeights([-1, 0, 1], [-1 / 2, 0, 1 / 2], [1, -2, 1]);
    expectWeights(
      [-2, -1, 0, 1, 2],
      [1 / 12, -2 / 3, 0, 2 / 3, -1 / 12],
      [-1 / 12, 4 / 3, -5 / 2, 4 / 3, -1 / 12],
    );
    // One-sided, order three and two.
    expectWeights([0, 1, 2, 3], [-11 / 6, 3, -3 / 2, 1 / 3], [2, -5, 4, -1]);
  });
});

describe("differenceWeights on uneven points", () => {
  const nodes = [-0.5, -0.2, 0, 0.31, 0.42, 0.5];

  test.each([0, 1, 2, 3, 5])("are exact for a polynomial of degree %i", (n) => {
    for (const at of [-0.5, 0.1, 0.42, 0.7]) {
      const found = differenceWeights(at, nodes).map((weights) =>
        weights.reduce((sum, weight, k) => sum + weight * nodes[k] ** n, 0),
      );
      const exact = [at ** n, n === 0 ? 0 : n * at ** (n - 1), n < 2 ? 0 : n * (n - 1) * at ** (n - 2)];
      // Weights of the second derivative reach 2400 beyond the points, each with its rounding.
      for (const [d, value] of exact.entries()) expect(Math.abs(found[d] - value)).toBeLessThan(1e-12);
    }
  });
});

describe("derivative", () => {
  const step = 0.1;
  const slopes = (f: (t: number) => number, count = 12) =>
    derivative(
      Array.from({ length: count }, (_, k) => f(k * step)),
      step,
    );
  const largestError = (n: number) =>
    Math.max(...slopes((t) => t ** n).map((slope, k) => Math.abs(slope - n * (k * step) ** (n - 1))));

  test.each([1, 2, 5, 8])("is exact for a polynomial of degree %i, ends included", (degree) => {
    // Weights up to 187 at the ends, each with its rounding.
    expect(largestError(degree)).toBeLessThan(1e-12);
  });

  test("misses degree nine by the next term of its formulas", () => {
    // Worked: at a node, the product of its distances to the other eight; at the ends 8!·step⁸, relative to f⁽⁹⁾/9! = 1.
    expect(largestError(9)).toBeCloseTo(40320 * step ** 8, 9);
  });

  test("of fewer than nine points uses them all", () => {
    for (const [k, slope] of slopes((t) => t ** 3 - t, 4).entries()) {
      expect(slope).toBeCloseTo(3 * (k * step) ** 2 - 1, 13);
    }
  });
});

describe("addCubicTrig", () => {
  const small = fc.integer({ min: -100, max: 100 }).map((n) => n / 100);

  property.prop([fc.tuple(small, small, small, small), small, fc.integer({ min: 1, max: 100 })], runs(200))(
    "adds the integrals of a cubic, plain and times cosine and sine",
    (cubic, place, share) => {
      const [c0, c1, c2, c3] = cubic;
      const [middle, width] = [4 * place, (WIDEST_PANEL * share) / 100];
      const sum = { plain: 1, cosine: 2, sine: 3 };
      addCubicTrig(cubic, middle, width, sum);
      const over = (wave: (x: number) => number) =>
        integral((u) => (c0 + u * (c1 + u * (c2 + u * c3))) * wave(middle + u), -width / 2, width / 2);
      // Ten-point Gauss is exact here but for rounding of sums up to 3.
      expect(Math.abs(sum.plain - 1 - over(() => 1))).toBeLessThan(1e-15);
      expect(Math.abs(sum.cosine - 2 - over(Math.cos))).toBeLessThan(1e-15);
      expect(Math.abs(sum.sine - 3 - over(Math.sin))).toBeLessThan(1e-15);
    },
  );

  test("of a constant over the widest panel gives the hand result 2·sin ½w", () => {
    const sum = { plain: 0, cosine: 0, sine: 0 };
    addCubicTrig([1, 0, 0, 0], 0, WIDEST_PANEL, sum);
    expect(sum.cosine).toBeCloseTo(2 * Math.sin(WIDEST_PANEL / 2), 16);
    expect(sum).toMatchObject({ plain: WIDEST_PANEL, sine: 0 });
  });
});

test("eachPanel ends a panel at every break, leaves nothing out and makes none too wide", () => {
  const visited: [number, number][] = [];
  eachPanel(-1, 2, [-1.5, -1, -0.2, 0.05, 1.9, 2, 3], (from, to) => visited.push([from, to]));
  const ends = visited.map(([, to]) => to);
  for (const at of [-0.2, 0.05, 1.9, 2]) expect(ends).toContain(at);
  expect(visited.map(([from]) => from)).toEqual([-1, ...ends.slice(0, -1)]);
  const widths = visited.map(([from, to]) => to - from);
  expect(Math.min(...widths)).toBeGreaterThan(0);
  expect(Math.max(...widths)).toBeLessThanOrEqual(WIDEST_PANEL + 1e-15);
});
