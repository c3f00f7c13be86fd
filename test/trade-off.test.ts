import { describe, expect, test } from "vitest";
import {
  designRing,
  type RingSpecInput,
  SpecError,
  type StressTradeOff,
  spreadRing,
  stressTradeOff,
} from "../src/index.js";
import { renderTradeOff } from "../src/svg.js";
import { elementsOf } from "./elements.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_RINGS } from "./rings.js";

/** Closing against fitting stress as the free gap is chosen, and their picture. */

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 48 };
const MOTORCYCLE: RingSpecInput = { ...DEMO_RINGS["motorcycle 54 mm"], stations: 48 };

const ferry = stressTradeOff(frozen(FERRY), { diameter: 117.4, count: 10, widest: 0.22 });
const motorcycle = stressTradeOff(MOTORCYCLE, { diameter: 53.6, by: "pliers", count: 8 });
const both: [string, RingSpecInput, StressTradeOff][] = [
  ["ferry, by hand", FERRY, ferry],
  ["motorcycle, by pliers", MOTORCYCLE, motorcycle],
];

const at = (spec: RingSpecInput, freeGap: number, { diameter, by }: StressTradeOff) => {
  const design = designRing({ ...spec, load: { freeGap } });
  return { closing: design.stress.closing.max, fitting: spreadRing(design, { diameter, by }).stress.max };
};

describe("stressTradeOff", () => {
  test("looks at even steps of the free gap from the closed one to the widest", () => {
    expect(ferry.freeGap).toHaveLength(10);
    for (const [k, gap] of ferry.freeGap.entries()) {
      expect(Math.abs(gap - (0.45 + (0.22 * 118 * (k + 1)) / 10))).toBeLessThan(1e-12);
    }
    // By default to a quarter of the bore.
    expect(motorcycle.freeGap.at(-1)).toBeCloseTo(0.2 + 54 / 4, 12);
    expect([ferry.by, motorcycle.by]).toEqual(["hand", "pliers"]);
  });

  test.each(both)(
    "tells the stresses of a ring designed for each gap, whatever its load was: %s",
    (_, spec, found) => {
      for (const k of [0, 4, 7]) {
        const { closing, fitting } = at(spec, found.freeGap[k], found);
        expect(found.closing[k]).toBe(closing);
        expect(found.fitting[k]).toBe(fitting);
      }
    },
  );

  test("reads a diameter with its unit", () => {
    const options = { by: "pliers", count: 8 } as const;
    expect(stressTradeOff(MOTORCYCLE, { diameter: "53.6 mm", ...options })).toEqual(motorcycle);
  });

  test("puts the spec's load aside, even one that no such ring can have", () => {
    const load = { freeGap: 500 };
    expect(stressTradeOff({ ...MOTORCYCLE, load }, { diameter: 53.6, by: "pliers", count: 8 })).toEqual(
      motorcycle,
    );
  });

  test("does not look at the spec's own load", () => {
    const load = { tangentialForce: 3 };
    expect(stressTradeOff({ ...MOTORCYCLE, load }, { diameter: 53.6, by: "pliers", count: 8 })).toEqual(
      motorcycle,
    );
  });

  test.each(both)(
    "rises closed and falls spread as the ring is made wider: %s",
    (_, __, { closing, fitting }) => {
      for (let k = 1; k < closing.length; k++) {
        expect(closing[k]).toBeGreaterThan(closing[k - 1]);
        expect(fitting[k]).toBeLessThan(fitting[k - 1]);
      }
    },
  );

  test.each(both)(
    "is balanced where a ring of that gap is stressed alike closed and spread: %s",
    (_, spec, found) => {
      const { freeGap, stress } = found.balanced as NonNullable<StressTradeOff["balanced"]>;
      const { closing, fitting } = at(spec, freeGap, found);
      // Straight lines between gaps looked at, over curves that turn by a per cent or so from one to the next: an eighth of that.
      expect(Math.abs(closing - stress)).toBeLessThan(0.002 * stress);
      expect(Math.abs(fitting - stress)).toBeLessThan(0.002 * stress);
      // The larger of both is least there.
      const largest = found.closing.map((one, k) => Math.max(one, found.fitting[k]));
      expect(Math.min(...largest)).toBeGreaterThan(stress);
    },
  );

  test("is balanced at a free gap of some four walls by hand, as small openings have it", () => {
    // With μ = m/(3π·a), thin walls, small openings and a piston as large as the bore the closing stress is 4·μ·E/(d/a − 1)² and the fitting
    // stress 4·(1 − μ)·E/(d/a − 1)², alike at μ = ½ (worked). This piston is 0.6 mm smaller, and large openings take a fifth off the fitting
    // stress (test/spread-ring.test.ts): 4.7 walls become 3.8.
    const { freeGap } = ferry.balanced as NonNullable<StressTradeOff["balanced"]>;
    expect(freeGap / 4.4).toBeLessThan((3 * Math.PI) / 2);
    expect(freeGap / 4.4).toBeGreaterThan(0.75 * ((3 * Math.PI) / 2));
  });

  test("tends to a balance at half of 3π walls for thin walls and small openings", () => {
    // μ = ½ as worked above. At d/a = 400 the openings count some 4·Δ/r = 2 % by hand.
    const thin: RingSpecInput = {
      bore: 100,
      closedGap: 0,
      section: { radialThickness: 0.25, axialHeight: 2 },
      material: { youngsModulus: 205000 },
      load: { contactPressure: 1e-5 },
      stations: 32,
    };
    const { balanced } = stressTradeOff(thin, { diameter: 100, by: "hand", count: 6, widest: 0.02 });
    expect((balanced?.freeGap as number) / 0.25 / ((3 * Math.PI) / 2)).toBeGreaterThan(0.97);
    expect((balanced?.freeGap as number) / 0.25 / ((3 * Math.PI) / 2)).toBeLessThan(1);
  });

  test("is not balanced where the two do not meet in the range", () => {
    const short = stressTradeOff(FERRY, { diameter: 117.4, by: "pliers", count: 3, widest: 0.02 });
    expect(short.freeGap).toHaveLength(3);
    expect(short).not.toHaveProperty("balanced");
    // A piston through which the ring falls.
    const loose = stressTradeOff(FERRY, { diameter: 60, count: 3 });
    expect(loose.fitting).toEqual([0, 0, 0]);
    expect(loose).not.toHaveProperty("balanced");
  });

  test("ends before the first ring that cannot be", () => {
    // With a few deep slots at its back, that back is straight at a free gap of some 37 mm.
    const slots = { count: 5, depth: 1.7, width: 0.5, from: -0.3, to: 0.3 };
    const weak: RingSpecInput = {
      ...MOTORCYCLE,
      section: { ...MOTORCYCLE.section, slots },
      load: { freeGap: 2 },
    };
    const designed = (freeGap: number) => designRing({ ...weak, load: { freeGap } });
    const { freeGap, closing, fitting } = stressTradeOff(weak, {
      diameter: 50,
      by: "pliers",
      count: 4,
      widest: 1,
    });
    expect(freeGap.map((gap) => Number(gap.toFixed(9)))).toEqual([13.7, 27.2]);
    expect([closing.length, fitting.length]).toEqual([2, 2]);
    expect(() => designed(0.2 + (3 / 4) * 54)).toThrow(/straight when free/);
  });

  const cases: [what: string, options: Loose, field: string, words: RegExp][] = [
    ["no options", undefined, "options", /must be an object/],
    ["no diameter", {}, "diameter", /given|number/],
    ["a diameter without unit", { diameter: "117" }, "diameter", /"118 mm"/],
    ["a range in words", { diameter: 117, widest: "0.2" }, "widest", /above 0 and at most 1/],
    ["a count in words", { diameter: 117, count: "5" }, "count", /whole number from 3 to 1000/],
    ["a field misspelt", { diameter: 117, widst: 0.2 }, "widst", /nearest is "widest"/],
    ["a word for yes", { diameter: 117, proof: "yes" }, "proof", /true or false/],
    ["NaN for a diameter", { diameter: Number.NaN }, "diameter", /above 0/],
    ["a diameter far too wide", { diameter: 300 }, "diameter", /at most 135\.7 mm/],
    ["a way of no name", { diameter: 117, by: "teeth" }, "by", /"hand", "pliers" or "plates"/],
    ["two gaps", { diameter: 117, count: 2 }, "count", /whole number from 3 to 1000/],
    ["half a gap", { diameter: 117, count: 3.5 }, "count", /whole number/],
    ["no range", { diameter: 117, widest: 0 }, "widest", /above 0 and at most 1/],
    ["NaN for a range", { diameter: 117, widest: Number.NaN }, "widest", /above 0/],
    ["a range of bores", { diameter: 117, widest: 1.5 }, "widest", /at most 1/],
  ];
  test.each(cases)("refuses %s", (_, options, field, words) => {
    let error: unknown;
    try {
      stressTradeOff(FERRY, options);
    } catch (thrown) {
      error = thrown;
    }
    expect(error).toBeInstanceOf(SpecError);
    expect((error as SpecError).field).toBe(field);
    expect((error as SpecError).message).toMatch(words);
  });

  test("refuses plates for a ring whose halves differ, and a wrong spec", () => {
    const leaning = { ...FERRY, pressure: { shape: "harmonics" as const, cosine: [], sine: [0.2] } };
    expect(() => stressTradeOff(leaning, { diameter: 117, by: "plates", count: 3 })).toThrow(SpecError);
    expect(() => stressTradeOff({ ...FERRY, bore: -1 }, { diameter: 117 })).toThrow(/bore = -1/);
  });
});

/** Corners of a path of M and L. */
const corners = (d: string) =>
  [...d.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]): [number, number] => [Number(x), Number(y)]);

describe("renderTradeOff", () => {
  test.each(both)("draws both curves and their crossing to the scales at its sides: %s", (_, __, found) => {
    const elements = elementsOf(renderTradeOff(found));
    const ofClass = (name: string) => elements.filter(({ attributes }) => attributes.class === name);
    // The scales, from the numbers written at two ticks of each.
    const words = elements.filter(({ name, attributes }) => name === "text" && attributes["text-anchor"]);
    const value = (text: string) => Number(text.replace(",", ""));
    const marks = words.filter(({ text }) => /^[\d,.]+$/.test(text));
    const scale = (axis: "x" | "y", anchor: string, shift: number) => {
      const ticks = marks.filter(({ attributes }) => attributes["text-anchor"] === anchor);
      const [one, other] = [ticks[0], ticks[ticks.length - 1]];
      const place = ({ attributes }: typeof one) => Number(attributes[axis]) - shift;
      const slope = (value(other.text) - value(one.text)) / (place(other) - place(one));
      return (position: number) => value(one.text) + slope * (position - place(one));
    };
    const [gapAt, stressAt] = [scale("x", "middle", 0), scale("y", "end", 4)];
    for (const [name, values] of [
      ["closing", found.closing],
      ["fitting", found.fitting],
    ] as const) {
      // The first is the curve, the second its sample in the key.
      const drawn = corners(ofClass(name)[0].attributes.d);
      expect(drawn).toHaveLength(values.length);
      for (const [k, [x, y]] of drawn.entries()) {
        // Drawn to a hundredth of a unit: 0.01·25 mm/550 and 0.01·1000 MPa/268, and ticks to a thousandth.
        expect(Math.abs(gapAt(x) - found.freeGap[k])).toBeLessThan(1e-3);
        expect(Math.abs(stressAt(y) - values[k])).toBeLessThan(0.1);
      }
    }
    const [circle] = elements.filter(({ name }) => name === "circle");
    expect(Math.abs(gapAt(Number(circle.attributes.cx)) - (found.balanced?.freeGap as number))).toBeLessThan(
      1e-3,
    );
    expect(
      Math.abs(stressAt(Number(circle.attributes.cy)) - (found.balanced?.stress as number)),
    ).toBeLessThan(0.1);
    // Within the frame.
    const [, , width, height] = elements[0].attributes.viewBox.split(" ").map(Number);
    for (const { attributes } of elements) {
      for (const [x, y] of corners(attributes.d ?? "")) {
        expect(x >= 0 && x <= width && y >= 0 && y <= height).toBe(true);
      }
    }
  });

  test("says in words how the ring is spread and where both stresses are alike", () => {
    const describedBy = (found: StressTradeOff) =>
      elementsOf(renderTradeOff(found)).find(({ name }) => name === "desc")?.text;
    const { freeGap, stress } = ferry.balanced as NonNullable<StressTradeOff["balanced"]>;
    expect(describedBy(ferry)).toBe(
      `Spread by hand over 117.4 mm. Both are ${stress.toFixed(0)} MPa at a free gap of ${freeGap.toFixed(2)} mm.`,
    );
    const { balanced: _, ...apart } = motorcycle;
    expect(describedBy(apart)).toBe("Spread by pliers over 53.6 mm. The two do not meet in this range.");
    expect(renderTradeOff(apart)).not.toContain("<circle");
    expect(describedBy({ ...apart, by: "plates" })).toContain("on plates");
  });

  test("keeps markup in a title and an id inert", () => {
    const title = `A < B & "C" <script>alert(1)</script> \u0007`;
    const elements = elementsOf(renderTradeOff(ferry, { title, id: `x" onload="y` }));
    expect(elements.some(({ name }) => name === "script")).toBe(false);
    expect(elements.find(({ name }) => name === "title")?.text).toBe(title.replace("\u0007", ""));
    expect(elements.every(({ attributes }) => !("onload" in attributes))).toBe(true);
    // A list of ids is parted by blanks, so an id holds none.
    expect(elements[0].attributes["aria-labelledby"]).toBe("x--onload--y-title x--onload--y-desc");
  });

  test("is the same text each time, without scripts or references, and small", () => {
    const svg = renderTradeOff(ferry);
    expect(renderTradeOff({ ...ferry })).toBe(svg);
    expect(svg).not.toMatch(/<script|<image|href|url\(|@import/);
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:/);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    expect(svg.length).toBeLessThan(8000);
  });

  test("draws a ring that needs no spreading", () => {
    const flat: StressTradeOff = {
      diameter: 60,
      by: "hand",
      freeGap: [1, 2, 3],
      closing: [10, 20, 30],
      fitting: [0, 0, 0],
    };
    expect(renderTradeOff(flat)).not.toMatch(/NaN|undefined/);
    elementsOf(renderTradeOff(flat));
  });
});
