import { readFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { START, specOf } from "../../examples/explorer/fields.js";
import { coilingCsv } from "../../src/files.js";
import { coiling, designRing, readSpec, ringOverview } from "../../src/index.js";
import { renderRing, renderSheet } from "../../src/svg.js";
import { hasBrowser } from "./browser.js";
import {
  ADDRESS,
  AXE,
  isStale,
  library,
  libraryOf,
  linkTo,
  nonsense,
  open,
  page,
  settled,
  shown,
  textOf,
  type,
  withPage,
} from "./explorerPage.js";

/** The page to play with: its address, its files, and whether all can read it. */

withPage();

describe.skipIf(!hasBrowser)("The page in a browser", () => {
  test("carries the ring in its address", async () => {
    await open();
    const change = { bore: 96.5, strength: -0.4, larger: 0.05, order: 3, lobes: 0.02, turned: 30 };
    for (const [id, value] of Object.entries(change)) await type(id, String(value));
    // It is written once the fields rest, after 0.3 s.
    await page.waitForFunction(
      `location.hash.includes("96.5") && location.hash.includes("rotation%22%3A0.52")`,
    );
    const [before, address] = [await shown(), page.url()];
    expect(before).toEqual(libraryOf(change));
    await page.reload();
    await settled();
    expect(await shown()).toEqual(before);
    await open(address.slice(ADDRESS.length));
    expect(await shown()).toEqual(before);
    for (const [id, value] of Object.entries(change))
      expect(Number(await page.inputValue(`#${id}`)), id).toBe(value);
  });

  test("takes a link that is put into the address of the open page", async () => {
    await open();
    const spec = { ...specOf(START), bore: 90 };
    await page.goto(ADDRESS + linkTo({ spec, bore: {} }));
    await settled();
    expect(await shown()).toEqual(library(spec, {}));
  });

  const demo = specOf(START);
  test.each([
    ["garbage", "#%E0%A4%A"],
    ["no JSON", "#ring"],
    ["nothing", linkTo(null)],
    ["a list", linkTo([])],
    ["no ring", linkTo({ spec: 3, bore: {} })],
    ["words for a number", linkTo({ spec: { ...demo, bore: "118 mm" }, bore: {} })],
    [
      "pressure by harmonics",
      linkTo({ spec: { ...demo, pressure: { shape: "harmonics", cosine: [0.1] } }, bore: {} }),
    ],
    ["an inherited name", linkTo({ spec: { ...demo, pressure: { shape: "toString" } }, bore: {} })],
    ["a ring that cannot be", linkTo({ spec: { ...demo, load: { contactPressure: 50 } }, bore: {} })],
    ["a bore too large", linkTo({ spec: demo, bore: { diameter: 500 } })],
    ["a theory that is not the page's", linkTo({ spec: { ...demo, theory: "thin" }, bore: {} })],
    [
      "a section that is not the page's",
      linkTo({
        spec: { ...demo, section: { ...demo.section, face: { shape: "taper", angle: 0.02 } } },
        bore: {},
      }),
    ],
    [
      "two waves",
      linkTo({
        spec: demo,
        bore: {
          harmonics: [
            { order: 2, amplitude: 0.01 },
            { order: 3, amplitude: 0.02 },
          ],
        },
      }),
    ],
    [
      "a wave with a phase",
      linkTo({ spec: demo, bore: { harmonics: [{ order: 2, amplitude: 0.01, phase: 1 }] } }),
    ],
  ])("shows the demo ring and says so for a link with %s", async (_, hash) => {
    await open(hash);
    expect(await textOf("link-message")).toMatch(/link does not hold a ring.*demo ring/);
    expect(await shown()).toEqual(libraryOf({}));
    expect(await isStale()).toBe(false);
    expect(await nonsense()).toEqual([]);
  });

  test("puts no impossible ring into its address", async () => {
    await open();
    await type("bore", "117");
    // Within the 0.3 s after which the address is written.
    await type("bore", "");
    await page.waitForTimeout(600);
    await page.reload();
    await settled();
    expect(await textOf("link-message")).toBe("");
    expect([libraryOf({}).force, libraryOf({ bore: 117 }).force]).toContain((await shown()).force);
  });

  const saved = async (id: string) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click(`#${id}`)]);
    return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
  };

  test("saves the library's files", async () => {
    await open();
    await type("bore", "117");
    const spec = specOf({ ...START, bore: 117 });
    const design = designRing(spec);
    expect(await saved("save-ring")).toEqual({ name: "ring.svg", text: renderRing(design) });
    expect(await saved("save-sheet")).toEqual({
      name: "ring-sheet.svg",
      text: renderSheet(ringOverview(design)),
    });
    expect(await saved("save-coiling")).toEqual({
      name: "coiling.csv",
      text: coilingCsv(coiling(design).table),
    });
    const { name, text } = await saved("save-spec");
    expect(name).toBe("ring.json");
    expect(readSpec(JSON.parse(text))).toEqual(readSpec(spec));
  });

  test("saves the ring that is shown where the fields hold none", async () => {
    await open();
    await type("wall", "");
    expect(await isStale()).toBe(true);
    expect(readSpec(JSON.parse((await saved("save-spec")).text))).toEqual(readSpec(demo));
  });

  test.each(["light", "dark"] as const)(
    "has nothing that axe finds fault with, %s, wide and narrow",
    async (colorScheme) => {
      await page.emulateMedia({ colorScheme });
      for (const width of [1280, 400]) {
        await page.setViewportSize({ width, height: 900 });
        await open("#ring");
        for (const state of ["with a message of the link", "stale"]) {
          if (state === "stale") await type("wall", "80");
          await page.addScriptTag({ path: AXE });
          const { violations } = await page.evaluate<{
            violations: { id: string; nodes: { target: string[] }[] }[];
          }>("axe.run()");
          expect(
            violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target)}`),
            `${width}, ${state}`,
          ).toEqual([]);
        }
        // No sideways scrolling.
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
      }
    },
  );
});
