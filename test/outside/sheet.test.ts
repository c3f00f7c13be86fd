import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { designRing, type RingSpecInput, ringOverview } from "../../src/index.js";
import { renderPanel, renderSheet } from "../../src/svg.js";
import { DEMO_RINGS, EXTREME_RINGS, sensibleRing } from "../rings.js";
import { hasBrowser, launch } from "./browser.js";
import { answers, output } from "./programs.js";
import { strokesOf } from "./strokes.js";

/** The ring sheet as a browser lays it out and prints it. */

const hasPoppler = await answers("pdfinfo", ["-v"], "pdfinfo (Debian: poppler-utils)");

let browser: Browser | undefined;
let page: Page;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ring-sheet-"));
  if (!hasBrowser) return;
  browser = await launch();
  page = await browser.newPage();
});

afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true });
});

/**
 * Pairs of words that lie over each other, and words outside the page, in mm. Boxes reach from ascender to descender; letters themselves leave a
 * fifth of that free above and below.
 */
const FAULTS = `(() => {
  const svg = document.querySelector("svg");
  const { x, y, width, height } = svg.viewBox.baseVal;
  const boxes = [...svg.querySelectorAll("text")].map((element) => {
    const box = element.getBBox();
    const room = 0.2 * box.height;
    return { text: element.textContent, left: box.x, right: box.x + box.width, top: box.y + room, bottom: box.y + box.height - room };
  });
  const faults = boxes.filter((b) => b.left < x || b.right > x + width || b.top < y || b.bottom > y + height).map((b) => "outside: " + b.text);
  for (const [i, one] of boxes.entries()) for (const other of boxes.slice(i + 1)) {
    if (one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom) faults.push(one.text + " | " + other.text);
  }
  const shapes = [...svg.querySelectorAll("path,circle")].filter((element) => {
    const [b, m] = [element.getBBox(), element.getCTM()];
    const scale = svg.getCTM();
    const [left, right] = [b.x, b.x + b.width].map((at) => (m.a * at + m.e - scale.e) / scale.a);
    const [top, bottom] = [b.y, b.y + b.height].map((at) => (m.d * at + m.f - scale.f) / scale.d);
    return left < x - 0.01 || right > x + width + 0.01 || top < y - 0.01 || bottom > y + height + 0.01;
  });
  return [...faults, ...shapes.map((element) => "outside: " + element.getAttribute("class"))];
})()`;

const faultsOf = async (svg: string): Promise<string[]> => {
  await page.setContent(`<!doctype html><body style="margin:0">${svg}</body>`);
  return page.evaluate<string[]>(FAULTS);
};

const SOME_PRESSURES: NonNullable<RingSpecInput["pressure"]>[] = [
  { shape: "uniform" },
  { shape: "moreAtGap", strength: 1.5 },
  { shape: "lessAtGap", strength: 0.9 },
  { shape: "harmonics", cosine: [0.3, -0.2, 0.1], sine: [0.2] },
];

describe.skipIf(!hasBrowser)("The ring sheet in a browser", () => {
  const random = fc.sample(sensibleRing, { numRuns: 40, seed: 20250118 });
  const rings: readonly (readonly [string, RingSpecInput])[] = [
    ...Object.entries(DEMO_RINGS),
    ...EXTREME_RINGS,
    ...random.map((spec, k) => [`random ring ${k}`, spec] as const),
  ];

  test("has no words over each other and nothing outside the page, for any ring", async () => {
    for (const [k, [name, spec]] of rings.entries()) {
      const pressure = SOME_PRESSURES[k % SOME_PRESSURES.length];
      const design = designRing({ ...spec, pressure }, { allowNegativePressure: true });
      expect(await faultsOf(renderSheet(ringOverview(design))), name).toEqual([]);
    }
  }, 120000);

  test("keeps long, right-to-left and marked-up titles within the page", async () => {
    const overview = ringOverview(designRing(DEMO_RINGS["ferry 118 mm"]));
    for (const title of ["W".repeat(2000), "טבעת בוכנה ".repeat(12), `</title><script>x</script>"'&`, ""]) {
      expect(await faultsOf(renderSheet(overview, { title })), title).toEqual([]);
    }
  });

  test.each(["ring", "pressure", "gap", "closing", "moment", "stress"] as const)(
    "shows its %s by itself without words over each other",
    async (name) => {
      for (const [ring, spec] of rings.slice(0, 12)) {
        expect(await faultsOf(renderPanel(name, ringOverview(designRing(spec)))), ring).toEqual([]);
      }
    },
  );

  test("keeps the styles of two drawings in one page apart", async () => {
    const overview = ringOverview(designRing(DEMO_RINGS["ferry 118 mm"]));
    const [one, other] = ["one", "2.two"].map((id) => renderPanel("moment", overview, { id }));
    await page.setContent(`<!doctype html><body><p class="curve">words</p>${one}${other}</body>`);
    const strokes = await page.evaluate<string[]>(
      `[...document.querySelectorAll(".curve")].map((element) => getComputedStyle(element).strokeWidth)`,
    );
    expect(strokes).toEqual(["1px", "0.5px", "0.5px"]);
    expect(
      await page.evaluate(`new Set([...document.querySelectorAll("[id]")].map(({ id }) => id)).size`),
    ).toBe(4);
  });

  test.skipIf(!hasPoppler)("prints on one A4 page with its bar 50 mm long", async () => {
    await page.setContent(
      `<!doctype html><style>@page{size:A4;margin:0}body{margin:0}svg{display:block}</style>${renderSheet(ringOverview(designRing(DEMO_RINGS["ferry 118 mm"])))}`,
    );
    const pdf = join(folder, "sheet.pdf");
    await page.pdf({ path: pdf, preferCSSPageSize: true });
    expect(await output("pdfinfo", [pdf])).toMatch(/Pages:\s+1\n/);
    await output("pdftocairo", ["-svg", pdf, join(folder, "sheet.svg")]);
    const printed = strokesOf(await readFile(join(folder, "sheet.svg"), "utf8"));
    // The bar, among lines of three strokes the one whose others are its ticks of 2.4 mm.
    const lengths = printed
      .filter(({ strokes }) => strokes.length === 3 && strokes.every((stroke) => stroke.length === 2))
      .map(({ strokes }) => strokes.map(([[x0, y0], [x1, y1]]) => Math.hypot(x1 - x0, y1 - y0)));
    const bars = lengths.filter((ones) => ones.filter((one) => Math.abs(one - 2.4) < 0.02).length === 2);
    expect(bars).toHaveLength(1);
    const bar = Math.max(...bars[0]);
    console.log(`bar of the sheet, printed: ${((bar - 50) * 1000).toFixed(0)} µm off`);
    expect(Math.abs(bar - 50)).toBeLessThan(0.05);
  });
});
