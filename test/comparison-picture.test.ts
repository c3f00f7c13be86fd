import { describe, expect, test } from "vitest";
import {
  type Comparison,
  compareRings,
  designRing,
  lightTest,
  type Point,
  type RingSpecInput,
  ringFromScan,
} from "../src/index.js";
import { renderComparison } from "../src/svg.js";
import { type Element, elementsOf } from "./elements.js";
import { DEMO_RINGS } from "./rings.js";

/** The picture of a ring as made beside its drawing. */

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const drawn = designRing(FERRY);

/** Invented: a softer ring with waves, as if measured, with a band that widens to the ends; the same on every machine. */
function measured(load: number): Comparison {
  const pressure: RingSpecInput["pressure"] = { shape: "harmonics", cosine: [0.1, -0.06], sine: [0.05] };
  const made = designRing({ ...FERRY, load: { contactPressure: load }, pressure });
  const band = made.free.theta.map((u) => 1 + (u / Math.PI) ** 8);
  const scan = {
    band: {
      curvature: band.map((v) => 2e-6 * v),
      pressure: band.map((v) => 0.008 * v),
      tangentialForce: 0.01,
      freeGap: 0.001,
    },
    light: lightTest(made),
  };
  return compareRings({ ...made, scan }, drawn);
}
const ferry = measured(0.13);

/** Round when free: it stands on points, with peaks of pressure there, and lifts elsewhere. */
const half = (drawn.installed.theta[360] * 56.8) / 58.8;
const round = ringFromScan(
  Array.from({ length: 361 }, (_, i): Point => {
    const angle = half * (i / 180 - 1);
    return [61 * Math.sin(angle), -61 * Math.cos(angle)];
  }),
  { spec: FERRY },
);
const ALL: [what: string, comparison: Comparison][] = [
  ["a softer ring with waves", ferry],
  ["a ring round when free", compareRings(round, drawn)],
  ["a ring and itself", compareRings(drawn, drawn)],
  [
    "a ring off by next to nothing",
    compareRings(designRing({ ...FERRY, load: { contactPressure: 0.1500001 } }), drawn),
  ],
  ["a ring far too hard", measured(0.25)],
];

/** End points of all pieces of a path of M, L, H and short v. */
function corners(d: string): Point[] {
  let [x, y] = [0, 0];
  return [...d.matchAll(/([A-Za-z])([^A-Za-z]*)/g)].flatMap(([, command, text]): Point[] => {
    const numbers = (text.match(/-?[\d.]+/g) ?? []).map(Number);
    if (command === "H") x = numbers[0];
    else if (command === "v") y += numbers[0];
    else if (command === "Z") return [];
    else if (command === "M" || command === "L") {
      return Array.from({ length: numbers.length / 2 }, (_, k): Point => {
        [x, y] = numbers.slice(2 * k, 2 * k + 2);
        return [x, y];
      });
    } else throw new Error(`a path with ${command}`);
    return [[x, y]];
  });
}

const ofClass = (elements: Element[], name: string) =>
  elements.filter(({ attributes }) => attributes.class === name);

/** Value at a height of one of the three panels, by the numbers at its side; a value that rounds to a tick is drawn at it. */
function scaleOf(elements: Element[], panel: number): (height: number) => number {
  const ticks = elements.filter(({ attributes }) => attributes["text-anchor"] === "end");
  const [top, bottom] = [62 + 232 * panel, 62 + 232 * panel + 158];
  const [first, ...rest] = ticks
    .map(({ attributes, text }) => ({
      height: Number(attributes.y) - 4,
      value: Number(text.replaceAll(",", "").replace("\u2212", "-")),
    }))
    .filter(({ height }) => height > top - 1 && height < bottom + 1);
  const last = rest[rest.length - 1];
  const slope = (last.value - first.value) / (last.height - first.height);
  return (height) => first.value + slope * (height - first.height);
}

describe("renderComparison", () => {
  test("draws the ferry's ring as in the reviewed file", async () => {
    await expect(renderComparison(ferry)).toMatchFileSnapshot("snapshots/comparison-ferry.svg");
  });

  test("draws all three curves from end to end, to the scales at their sides", () => {
    const elements = elementsOf(renderComparison(ferry));
    const { deviation, pressure, correction, theta } = ferry;
    const { before, now } = correction.bendRadius;
    const made = ofClass(elements, "made").map(({ attributes }) => corners(attributes.d));
    const shown = [
      deviation.map((v) => 1000 * v),
      pressure.made,
      now.map((radius, i) => 1000 * (radius - before[i])),
    ];
    expect(made).toHaveLength(3);
    for (const [panel, values] of shown.entries()) {
      const at = scaleOf(elements, panel);
      expect(made[panel]).toHaveLength(theta.length);
      // Drawn to a hundredth of a unit, ticks to a thousandth.
      const unit = Math.abs(at(1) - at(0));
      for (const [i, [x, y]] of made[panel].entries()) {
        expect(Math.abs(at(y) - values[i])).toBeLessThan(0.02 * unit);
        expect(Math.abs(x - (383 + (theta[i] / theta[360]) * 319))).toBeLessThan(0.01);
      }
    }
    // The band goes along one side and back along the other; the drawing's pressure is dashed.
    const band = corners(ofClass(elements, "band")[0].attributes.d);
    const at = scaleOf(elements, 1);
    for (const [i, p] of pressure.made.entries()) {
      const edges = [at(band[i][1]), at(band[band.length - 1 - i][1])].sort((one, other) => one - other);
      expect(Math.abs(edges[0] - (p - pressure.band[i]))).toBeLessThan(1e-4);
      expect(Math.abs(edges[1] - (p + pressure.band[i]))).toBeLessThan(1e-4);
    }
    const plain = corners(ofClass(elements, "drawn")[0].attributes.d);
    for (const [i, [, y]] of plain.entries()) expect(Math.abs(at(y) - pressure.drawn[i])).toBeLessThan(1e-4);
  });

  test.each(ALL)("keeps everything in its frame, readable, and its text finite: %s", (_, comparison) => {
    const svg = renderComparison(comparison);
    const elements = elementsOf(svg);
    const [left, top, width, height] = elements[0].attributes.viewBox.split(" ").map(Number);
    expect([left, top]).toEqual([0, 0]);
    for (const { attributes } of elements) {
      for (const [x, y] of corners(attributes.d ?? "")) {
        expect(x >= 0 && x <= width && y >= 0 && y <= height).toBe(true);
      }
    }
    const words = elements.filter(({ name }) => name === "text");
    for (const { attributes, text } of words) {
      // Letters are half as wide as high, on average, or a little more.
      const size = Number(/font-size:([\d.]+)px/.exec(attributes.style ?? "")?.[1] ?? 13);
      const wide = 0.55 * size * text.length;
      const from =
        Number(attributes.x) -
        wide * ({ start: 0, middle: 0.5, end: 1 }[attributes["text-anchor"]] as number);
      expect(from, text).toBeGreaterThan(-1);
      expect(from + wide, text).toBeLessThan(width + 1);
      expect(Number(attributes.y)).toBeLessThan(height);
    }
    // Each panel has its own scale: no number stands twice at one side.
    for (const panel of [0, 1, 2]) {
      const beside = words.filter(
        ({ attributes }) =>
          attributes["text-anchor"] === "end" && Math.floor((Number(attributes.y) - 58) / 232) === panel,
      );
      expect(new Set(beside.map(({ text }) => text)).size).toBe(beside.length);
      expect(beside.length).toBeGreaterThan(1);
    }
    expect(svg).not.toMatch(/NaN|undefined|Infinity|e-\d/);
    expect(svg.length).toBeLessThan(40_000);
  });

  test("keeps the pressure's scale where a ring stands on points", () => {
    const [, [, comparison]] = ALL;
    const { made } = comparison.pressure;
    const elements = elementsOf(renderComparison(comparison));
    const most = scaleOf(elements, 1)(294);
    const usual = [...made].sort((one, other) => one - other)[Math.floor(0.9 * made.length)];
    expect(Math.max(...made)).toBeGreaterThan(2 * most);
    expect(usual).toBeGreaterThan(0.1 * most);
  });

  test("says in words how far off the ring is, and its force", () => {
    const elements = elementsOf(renderComparison(ferry));
    const textOf = (name: string) => elements.find((element) => element.name === name)?.text;
    const { largestDeviation, tangentialForce } = ferry;
    expect(textOf("title")).toBe("The ring as made and as drawn");
    expect(textOf("desc")).toBe(
      `Outer face off by up to ${(1000 * largestDeviation).toFixed(1)} µm; tangential force ${tangentialForce.made.toFixed(2)} N, as drawn 17.69 N.`,
    );
  });

  test("keeps markup in a title and an id inert, and its ids and styles apart from another's", () => {
    const title = `A < B & "C" <script>alert(1)</script> \u0007`;
    const svg = renderComparison(ferry, { title, id: `x" onload="y` });
    const elements = elementsOf(svg);
    expect(elements.some(({ name }) => name === "script")).toBe(false);
    expect(elements.find(({ name }) => name === "title")?.text).toBe(title.replace("\u0007", ""));
    expect(elements.every(({ attributes }) => !("onload" in attributes))).toBe(true);
    const ids = elements.flatMap(({ attributes }) => attributes.id ?? []);
    expect(ids.length).toBeGreaterThan(1);
    for (const id of ids) expect(id).toMatch(/^x--onload--y/);
    expect(new Set(ids).size).toBe(ids.length);
    const labels = elements[0].attributes["aria-labelledby"].split(" ");
    expect(labels.every((id) => ids.includes(id))).toBe(true);
    const rules = (elements.find(({ name }) => name === "style")?.text ?? "").trim().split("\n");
    for (const rule of rules) expect(rule).toMatch(/^#x--onload--y /);
  });

  test("is the same text each time, without scripts or references", () => {
    const svg = renderComparison(ferry);
    expect(renderComparison({ ...ferry }, {})).toBe(svg);
    expect(svg).not.toMatch(/<script|<image|href|url\(|@import|<foreignObject|on\w+=/);
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:/);
    expect(svg.endsWith("</svg>\n")).toBe(true);
  });
});
