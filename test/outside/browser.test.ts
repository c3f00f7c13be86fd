import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { measureOutline } from "../../src/curves.js";
import { designRing, type Point, type RingSpecInput } from "../../src/index.js";
import { renderGauge, renderOutline, renderTemplate, templatePages } from "../../src/svg.js";
import { reached } from "../reached.js";
import { DEMO_RINGS } from "../rings.js";
import { hasBrowser, launch } from "./browser.js";
import { backwards, exactFaces, farthestFromCurve } from "./exactFaces.js";
import { answers, output } from "./programs.js";
import { POINT, strokesOf } from "./strokes.js";

/** Drawings as a browser shows and prints them; the prints are measured by poppler. */

const hasPoppler = await answers("pdfinfo", ["-v"], "pdfinfo (Debian: poppler-utils)");

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const MOTORCYCLE: RingSpecInput = DEMO_RINGS["motorcycle 54 mm"];
const GAS_ENGINE: RingSpecInput = DEMO_RINGS["gas engine 340 mm"];

let browser: Browser | undefined;
let page: Page;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ring-browser-"));
  if (!hasBrowser) return;
  browser = await launch();
  page = await browser.newPage();
});

afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true });
});

/** What runs in the browser is text here, since these files are checked without its types. */
const WALK = `(() => {
  const path = document.querySelector("#camround-outline");
  const length = path.getTotalLength();
  const points = Array.from({ length: 1500 }, (_, k) => path.getPointAtLength((length * k) / 1500));
  return { length, points: points.map(({ x, y }) => [x, y]) };
})()`;
const BOXES = `(() => {
  const box = (element) => {
    const { x, y, width, height } = element.getBBox();
    return { text: element.textContent, x, y, right: x + width, bottom: y + height };
  };
  const all = (selector) => [...document.querySelectorAll(selector)].map(box);
  const { x, y, width, height } = document.querySelector("svg").viewBox.baseVal;
  return { frame: { text: "", x, y, right: x + width, bottom: y + height }, words: all("text"), bars: all("[data-bar]") };
})()`;

describe.skipIf(!hasBrowser)("renderOutline in a browser", () => {
  test.each([
    ["the ferry ring", FERRY],
    ["the motorcycle ring", MOTORCYCLE],
    ["the gas engine ring", GAS_ENGINE],
    [
      "slots",
      {
        ...FERRY,
        section: { ...FERRY.section, slots: { count: 20, depth: 1.2, width: 0.8, from: -2, to: 2 } },
      },
    ],
  ] satisfies [string, RingSpecInput][])(
    "is as long and lies where the exact outline does, for %s",
    async (name, spec) => {
      const design = designRing(spec);
      const tolerance = 0.001;
      await page.setContent(renderOutline(design, { tolerance }));
      const { length, points } = await page.evaluate<{ length: number; points: Point[] }>(WALK);
      const exact = measureOutline(design).length;
      // The browser measures in single precision, by chords of its own: short by some 1e-5 of the length. Measured 1e-6 to 1.1e-5.
      console.log(`path of ${name}: length off by ${(length / exact - 1).toExponential(1)} of it`);
      reached("path", "length", Math.abs(length / exact - 1), 2e-5);
      // Outer face, right end, inner face, left end, told apart by how far along they are.
      const faces = exactFaces(designRing({ ...spec, stations: 2000 }));
      const drawn = points.map(([x, y]): Point => [x, -y]);
      const { outer, inner } = outerAndInner(
        drawn,
        design.spec.section.radialThickness,
        length,
        measureParts(faces),
      );
      expect(outer.length + inner.length).toBeGreaterThan(1000);
      // Single precision of coordinates of some 100 mm, 1e-5 mm, a few times over.
      expect(farthestFromCurve(outer, faces.outer)).toBeLessThan(tolerance + 1e-4);
      if (!spec.section.slots)
        expect(farthestFromCurve(inner, backwards(faces.inner))).toBeLessThan(tolerance + 1e-4);
    },
  );
});

/** Lengths of the faces by their chords, good to some 1e-7 of them. */
function measureParts({ outer, inner, corners }: ReturnType<typeof exactFaces>) {
  const along = (points: Point[]) =>
    points.slice(1).reduce((sum, [x, y], k) => sum + Math.hypot(x - points[k][0], y - points[k][1]), 0);
  return {
    outer: along([corners[0], ...outer.flat(), corners[1]]),
    end: along([corners[1], corners[2]]),
    inner: along(inner.flat()),
  };
}

/** Points of a walk round the outline at equal steps that are surely on the outer and surely on the inner face. */
function outerAndInner(
  points: Point[],
  wall: number,
  length: number,
  parts: ReturnType<typeof measureParts>,
) {
  const at = (k: number) => (length * k) / points.length;
  return {
    outer: points.filter((_, k) => at(k) < parts.outer - 0.01),
    inner: points.filter((_, k) => at(k) > parts.outer + parts.end + wall / 2 && at(k) < length - 1.5 * wall),
  };
}

/** ISO 216 and 8.5 in × 11 in, mm. From memory. */
const SHEETS = { A4: [210, 297], A3: [297, 420], Letter: [215.9, 279.4] } as const;
type Size = keyof typeof SHEETS;
const PRINTS = [
  { name: "the ferry ring on A4", spec: FERRY, size: "A4" as Size, count: 1 },
  { name: "the ferry ring on A3", spec: FERRY, size: "A3" as Size, count: 1 },
  { name: "the ferry ring on Letter", spec: FERRY, size: "Letter" as Size, count: 1 },
  { name: "the motorcycle ring on Letter", spec: MOTORCYCLE, size: "Letter" as Size, count: 1 },
  { name: "the gas engine ring on A4", spec: GAS_ENGINE, size: "A4" as Size, count: 4 },
  { name: "the gas engine ring on A3", spec: GAS_ENGINE, size: "A3" as Size, count: 2 },
];
describe.skipIf(!hasBrowser || !hasPoppler).each(PRINTS)(
  "templatePages of $name, printed,",
  ({ spec, size, count }) => {
    const design = designRing(spec);
    let [file, info] = ["", ""];

    beforeAll(async () => {
      await page.setContent(templatePages(renderTemplate(design, { page: size })));
      file = join(folder, `${size}-${design.spec.bore}.pdf`);
      await writeFile(file, await page.pdf({ preferCSSPageSize: true, printBackground: true }));
      info = await output("pdfinfo", ["-f", "1", "-l", "9", file]);
    });

    test("has a page a sheet, each of the sheet's size", () => {
      expect(Number(/Pages:\s+(\d+)/.exec(info)?.[1])).toBe(count);
      const pages = [...info.matchAll(/Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts/g)];
      expect(pages).toHaveLength(count);
      const [short, long] = SHEETS[size];
      for (const [, ...points] of pages) {
        const [width, height] = points.map((value) => Number(value) * POINT);
        const [w, h] = width < height ? [short, long] : [long, short];
        // The browser makes pages of whole pixels, 1/96 in = 0.26 mm.
        expect(Math.abs(width - w)).toBeLessThan(0.3);
        expect(Math.abs(height - h)).toBeLessThan(0.3);
      }
    });

    test("has bars of 100 mm and of 4 in on every page", async () => {
      for (let number = 1; number <= count; number++) {
        const picture = join(folder, "page.svg");
        await output("pdftocairo", ["-svg", "-f", `${number}`, "-l", `${number}`, file, picture]);
        const all = strokesOf(await readFile(picture, "utf8"));
        // A bar and its ticks: 11 for ten centimetres, 5 for four inches.
        for (const [ticks, length] of [
          [11, 100],
          [5, 101.6],
        ]) {
          const bars = all.filter(
            ({ strokes }) => strokes.length === ticks + 1 && strokes.every((stroke) => stroke.length === 2),
          );
          expect(bars).toHaveLength(1);
          const [[[x0, y0], [x1, y1]], ...marks] = bars[0].strokes;
          // A tenth of a millimetre is what a steel rule shows. Chromium 156 itself fits an A3 page by 0.07 %, A4 by 0.01 %, Letter by nothing.
          const off = Math.hypot(x1 - x0, y1 - y0) - length;
          console.log(
            `${file.split("/").at(-1)} page ${number}: bar of ${length} mm off by ${off.toFixed(4)} mm`,
          );
          reached("print", `bar of ${length} mm`, Math.abs(off), 0.1, file.split("/").at(-1));
          expect(Math.abs(y1 - y0)).toBeLessThan(0.01);
          const xs = marks.map(([[x]]) => x);
          for (const [k, x] of xs.entries())
            expect(Math.abs(x - x0 - (k * length) / (ticks - 1))).toBeLessThan(0.1);
        }
      }
    });

    test("shows the ring in true size", async () => {
      const picture = join(folder, "ring.svg");
      await output("pdftocairo", ["-svg", "-f", "1", "-l", "1", file, picture]);
      // The line of 0.18 mm is the ring's.
      const rings = strokesOf(await readFile(picture, "utf8")).filter(({ width }) => width === 0.18);
      expect(rings).toHaveLength(1);
      const drawn = rings[0].strokes.flat();
      const exact = [...exactFaces(design).outer.flat(), ...exactFaces(design).corners];
      const extent = (points: Point[], axis: 0 | 1) => {
        const values = points.map((point) => point[axis]);
        return Math.max(...values) - Math.min(...values);
      };
      // As true as the bars, a thousandth; points twenty to a Bézier of 40° miss a tenth of that.
      for (const axis of [0, 1] as const)
        expect(Math.abs(extent(drawn, axis) / extent(exact, axis) - 1)).toBeLessThan(1e-3);
    });
  },
);

interface Box {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
}

/** Boxes round the words of a drawing and round its other marks, in user units, and the drawing's frame. */
async function boxesOf(svg: string): Promise<{ frame: Box; words: Box[]; bars: Box[] }> {
  await page.setContent(svg);
  return page.evaluate(BOXES);
}

function expectInside(words: Box[], frame: Box): void {
  for (const { text, x, y, right, bottom } of words) {
    expect(x, text).toBeGreaterThan(frame.x);
    expect(right, text).toBeLessThan(frame.right);
    expect(y, text).toBeGreaterThan(frame.y);
    expect(bottom, text).toBeLessThan(frame.bottom);
  }
}

const overlap = (one: Box, other: Box) =>
  one.x < other.right && other.x < one.right && one.y < other.bottom && other.y < one.bottom;

function overlapping(boxes: Box[]): string[] {
  return boxes.flatMap((one, k) =>
    boxes.slice(k + 1).flatMap((other) => (overlap(one, other) ? `${one.text} | ${other.text}` : [])),
  );
}

/** As a workshop might head a sheet; invented. */
const LONG_TITLE =
  "Second compression ring for the river ferry's auxiliary engine, order 17 of the spring, made from a blank of centrifugally cast grey iron";

describe.skipIf(!hasBrowser)("the words of renderTemplate", () => {
  const cases = PRINTS.flatMap(({ name, spec, size }) => [
    { name, spec, options: { page: size } },
    { name: `${name}, with a long title,`, spec, options: { page: size, title: LONG_TITLE } },
  ]);
  test.each(cases)(
    "stay on the sheet and clear of each other and of the bars, for $name",
    async ({ spec, options }) => {
      for (const sheet of renderTemplate(designRing(spec), options)) {
        const { frame, words, bars } = await boxesOf(sheet);
        expect(words.length).toBe(5);
        expect(bars).toHaveLength(2);
        expectInside(words, frame);
        expectInside(bars, frame);
        expect(overlapping([...words, ...bars])).toEqual([]);
      }
    },
  );
});

describe.skipIf(!hasBrowser)("the words of renderGauge", () => {
  const cases = [
    { name: "the ferry ring", spec: FERRY, gapTolerance: 0.05 },
    { name: "the motorcycle ring", spec: MOTORCYCLE, gapTolerance: 0.025 },
    { name: "that with a finer gap", spec: { ...MOTORCYCLE, closedGap: 0.225 }, gapTolerance: 0.025 },
    { name: "the gas engine ring", spec: GAS_ENGINE, gapTolerance: 0.125 },
  ];

  test.each(cases)("stay on the sheet and clear of each other, for $name", async ({ spec, gapTolerance }) => {
    const { frame, words } = await boxesOf(renderGauge(designRing(spec), { gapTolerance }));
    expect(words).toHaveLength(4);
    expectInside(words, frame);
    expect(overlapping(words)).toEqual([]);
  });

  test.each(cases)("do not cross the lines to cut along, for $name", async ({ spec, gapTolerance }) => {
    const { words } = await boxesOf(renderGauge(designRing(spec), { gapTolerance }));
    const R = (spec.bore as number) / 2;
    const inBore = words.filter(({ y, bottom }) => y > -R && bottom < R);
    expect(inBore).toHaveLength(2);
    for (const { text, x, y, right, bottom } of inBore)
      for (const corner of [
        [x, y],
        [right, y],
        [x, bottom],
        [right, bottom],
      ])
        expect(Math.hypot(...corner), text).toBeLessThan(R);
  });
});
