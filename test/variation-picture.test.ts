import { describe, expect, test } from "vitest";
import { type RingSpecInput, type TolerancesInput, type Variation, variation } from "../src/index.js";
import { renderVariation } from "../src/svg.js";
import { type Element, elementsOf } from "./elements.js";
import { DEMO_RINGS } from "./rings.js";

/** The picture of a batch. */

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 48 };
/** Invented. */
const TOLERANCES: TolerancesInput = {
  radialThickness: 0.03,
  axialHeight: { lower: -0.022, upper: -0.01, distribution: "uniform" },
  youngsModulus: "5 GPa",
  freeGap: 0.4,
  closedGap: { lower: 0, upper: 0.1 },
  bore: "20 um",
  bendRadius: [{ order: 3, tolerance: 0.05 }],
  lobes: [{ order: 4, tolerance: "4 um" }],
};
const limits = {
  tangentialForce: { min: 16.5, max: 18 },
  closingStress: { max: 330 },
  contactShare: { min: 0 },
};
const ferry = variation(FERRY, TOLERANCES, { samples: 64, limits });
const motorcycle = variation(
  { ...DEMO_RINGS["motorcycle 54 mm"], stations: 24 },
  { bore: { lower: -0.1, upper: 0 }, freeGap: { lower: -8, upper: 0 } },
  { samples: 16 },
);
const engine = variation(
  { ...DEMO_RINGS["gas engine 340 mm"], stations: 24 },
  { bore: 0.05 },
  { samples: 16 },
);
const batches: [string, Variation][] = [
  ["ferry, eight factors", ferry],
  ["motorcycle, some butting and some loose", motorcycle],
  ["gas engine, one factor, of which most do not vary", engine],
];

/** A little more than a letter of this size is wide on average, in units of the drawing: 13 px of a serif face, half an em. */
const LETTER = 7;
/** Above and below the line that letters stand on. */
const [RISE, FALL] = [10, 4];

/** The box of a text, as far as it can be told without the face. */
function boxOf({ attributes, text }: Element) {
  const [x, y, width] = [Number(attributes.x), Number(attributes.y), LETTER * text.length];
  const shift = { start: 0, middle: width / 2, end: width }[attributes["text-anchor"]] as number;
  return { left: x - shift, right: x - shift + width, top: y - RISE, bottom: y + FALL, text };
}

describe("renderVariation", () => {
  test("draws the ferry's batch as in the reviewed file", async () => {
    await expect(renderVariation(ferry)).toMatchFileSnapshot("snapshots/variation-ferry.svg");
  });

  test("is the same text each time, without scripts or references, and small", () => {
    const svg = renderVariation(ferry);
    expect(renderVariation(JSON.parse(JSON.stringify(ferry)))).toBe(svg);
    expect(svg).not.toMatch(/<script|<image|href|url\(|@import/);
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:/);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|-0[",]/);
    expect(svg.length).toBeLessThan(50000);
  });

  test.each(batches)("stays within its frame: %s", (_, batch) => {
    const elements = elementsOf(renderVariation(batch));
    const [, , width, height] = elements[0].attributes.viewBox.split(" ").map(Number);
    const inside = (x: number, y: number) => x >= 0 && x <= width && y >= 0 && y <= height;
    for (const { name, attributes } of elements) {
      const [x, y, w, h] = ["x", "y", "width", "height"].map((key) => Number(attributes[key] ?? 0));
      if (name === "rect") expect(inside(x, y) && inside(x + w, y + h) && w >= 0 && h >= 0).toBe(true);
      for (const [, px, py] of attributes.d?.matchAll(/M(-?[\d.]+),(-?[\d.]+)/g) ?? [])
        expect(inside(Number(px), Number(py))).toBe(true);
      for (const [, across] of attributes.d?.matchAll(/H(-?[\d.]+)/g) ?? [])
        expect(inside(Number(across), 0)).toBe(true);
      for (const [, down] of attributes.d?.matchAll(/V(-?[\d.]+)/g) ?? [])
        expect(inside(0, Number(down))).toBe(true);
    }
    for (const element of elements.filter(({ name }) => name === "text")) {
      const { left, right, top, bottom, text } = boxOf(element);
      expect(inside(left, top) && inside(right, bottom), text).toBe(true);
    }
  });

  test.each(batches)("keeps its words apart, and off its bars: %s", (_, batch) => {
    const elements = elementsOf(renderVariation(batch));
    const words = elements.filter(({ name }) => name === "text").map(boxOf);
    for (const [i, one] of words.entries()) {
      for (const other of words.slice(i + 1)) {
        const apart =
          one.right <= other.left ||
          other.right <= one.left ||
          one.bottom <= other.top ||
          other.bottom <= one.top;
        expect(apart, `${one.text} | ${other.text}`).toBe(true);
      }
    }
    const bars = elements.filter(({ attributes }) => /count|own|total/.test(attributes.class ?? ""));
    for (const { attributes } of bars) {
      const [x, y, w, h] = ["x", "y", "width", "height"].map((key) => Number(attributes[key]));
      for (const { left, right, top, bottom, text } of words) {
        const apart = right <= x || x + w <= left || bottom - FALL <= y || y + h <= top;
        expect(apart, text).toBe(true);
      }
    }
  });

  /** Elements between one outcome's heading and the next. */
  function rowOf(batch: Variation, heading: string): Element[] {
    const elements = elementsOf(renderVariation(batch));
    const headings = elements.flatMap(({ attributes }, i) =>
      attributes["text-anchor"] === "start" ? [i] : [],
    );
    const from = headings.findIndex((i) => elements[i].text === heading);
    return elements.slice(headings[from], headings[from + 1]);
  }
  const ofClass = (elements: Element[], kind: string) =>
    elements.filter(({ attributes }) => attributes.class === kind);
  const number = ({ attributes }: Element, key: string) => Number(attributes[key]);

  test("draws bars in proportion to the counts, and limits where the scale has them", () => {
    const row = rowOf(ferry, "tangential force, N");
    const { histogram, least, most } = ferry.outcomes.tangentialForce;
    const counts = histogram.filter((count) => count > 0);
    const tallest = Math.max(...histogram);
    const bars = ofClass(row, "count");
    expect(bars).toHaveLength(counts.length);
    const full = Math.max(...bars.map((bar) => number(bar, "height")));
    // Drawn to a thousandth of a unit.
    for (const [k, bar] of bars.entries())
      expect(Math.abs(number(bar, "height") - (full * counts[k]) / tallest)).toBeLessThan(0.002);
    // The scale, from its outermost marks.
    const marks = row.filter(
      ({ name, attributes }) => name === "text" && attributes["text-anchor"] === "middle",
    );
    const value = ({ text }: Element) => Number(text.replace("−", "-"));
    const [first, last] = [marks[0], marks[marks.length - 1]];
    const slope = (value(last) - value(first)) / (number(last, "x") - number(first, "x"));
    const at = (x: number) => value(first) + slope * (x - number(first, "x"));
    const left = Math.min(...bars.map((bar) => number(bar, "x")));
    const right = Math.max(...bars.map((bar) => number(bar, "x") + number(bar, "width")));
    expect(Math.abs(at(left) - least)).toBeLessThan(1e-3 * (most - least));
    expect(Math.abs(at(right) - most)).toBeLessThan(1e-3 * (most - least));
    const drawn = ofClass(row, "limit").map(({ attributes }) =>
      at(Number(/M([\d.]+)/.exec(attributes.d)?.[1])),
    );
    const within = [16.5, 18].filter((limit) => limit >= least && limit <= most);
    expect(within.length).toBeGreaterThan(0);
    expect(drawn).toHaveLength(within.length);
    for (const [k, limit] of drawn.entries())
      expect(Math.abs(limit - within[k])).toBeLessThan(1e-3 * (most - least));
  });

  test("draws what is owed to each, the largest first, five at most", () => {
    const row = rowOf(ferry, "closing stress, MPa");
    const owed = Object.entries(ferry.outcomes.closingStress.sensitivity)
      .filter(([, { total }]) => total > 0.01)
      .sort(([, one], [, other]) => other.total - one.total)
      .slice(0, 5);
    expect(owed.length).toBeGreaterThan(3);
    const names = row.filter(({ attributes }) => attributes["text-anchor"] === "end");
    expect(names.map(({ text }) => text)).toEqual(owed.map(([name]) => name));
    const [totals, owns] = ["total", "own"].map((kind) => ofClass(row, kind));
    // Of a scale from 0 to 1, 216 units long; drawn to a thousandth.
    for (const [k, [, { first, total }]] of owed.entries()) {
      expect(Math.abs(number(totals[k], "width") - 216 * Math.min(1, total))).toBeLessThan(0.001);
      const own = Math.max(0, Math.min(first, total, 1));
      expect(Math.abs(number(owns[k], "width") - 216 * own)).toBeLessThan(0.001);
    }
  });

  test("draws nothing owed where a share is in doubt, as the report tells nothing", () => {
    const { tangentialForce } = ferry.outcomes;
    const doubtful = (totalError: number): Variation => {
      const wall = { ...tangentialForce.sensitivity.radialThickness, totalError };
      const sensitivity = { ...tangentialForce.sensitivity, radialThickness: wall };
      return {
        ...ferry,
        outcomes: { ...ferry.outcomes, tangentialForce: { ...tangentialForce, sensitivity } },
      };
    };
    const drawn = (batch: Variation, kind: string) =>
      ofClass(rowOf(batch, "tangential force, N"), kind).length;
    expect(tangentialForce.sensitivity.radialThickness.total).toBeGreaterThan(0.01);
    expect(drawn(ferry, "total")).toBeGreaterThan(2);
    expect(drawn(doubtful(0.3), "total")).toBe(drawn(ferry, "total"));
    for (const kind of ["total", "own"]) expect(drawn(doubtful(0.31), kind)).toBe(0);
    expect(drawn(doubtful(0.31), "count")).toBe(drawn(ferry, "count"));
  });

  test("says in words how many there are and how many are good", () => {
    const described = (batch: Variation) =>
      elementsOf(renderVariation(batch)).find(({ name }) => name === "desc")?.text;
    const { all, butts, loose } = motorcycle.variants;
    expect(Math.min(butts, loose)).toBeGreaterThan(0);
    expect(described(motorcycle)).toBe(
      `${all} variants, ${butts} butt, ${loose} are loose; ${(100 * motorcycle.inside).toFixed(1)} % are within all limits.`,
    );
    expect(described(engine)).toBe("32 variants, 0 butt, 0 are loose; 100.0 % are within all limits.");
  });

  test("keeps markup in a title and an id inert", () => {
    const title = `A < B & "C" <script>alert(1)</script> \u0007`;
    const elements = elementsOf(renderVariation(ferry, { title, id: `x" onload="y` }));
    expect(elements.some(({ name }) => name === "script")).toBe(false);
    expect(elements.find(({ name }) => name === "title")?.text).toBe(title.replace("\u0007", ""));
    expect(elements.every(({ attributes }) => !("onload" in attributes))).toBe(true);
    // A list of ids is parted by blanks, so an id holds none.
    expect(elements[0].attributes["aria-labelledby"]).toBe("x--onload--y-title x--onload--y-desc");
  });
});
