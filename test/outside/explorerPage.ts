import { createRequire } from "node:module";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect } from "vitest";
import { boreOf, START, specOf, type Values } from "../../examples/explorer/fields.js";
import {
  type BoreInput,
  closeInBore,
  describePressure,
  designRing,
  type RingSpecInput,
} from "../../src/index.js";
import { hasBrowser, launch } from "./browser.js";
import { output } from "./programs.js";

/** The explorer's page as a file in a browser without any network, and what the library says to compare with. */

const here = (name: string) => fileURLToPath(new URL(`../../examples/explorer/${name}`, import.meta.url));
export const FILE: string = here("explorer.html");
export const ADDRESS: string = pathToFileURL(FILE).href;
/** A checker of pages for people who read otherwise. */
export const AXE: string = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

let browser: Browser | undefined;
let context: BrowserContext;
export let page: Page;
let errors: string[] = [];

/** Builds the page before all tests of a file; a new page for each of them, which must ask for nothing and throw nothing. */
export function withPage(): void {
  beforeAll(async () => {
    await output(process.execPath, [here("build.mjs")]);
    if (!hasBrowser) return;
    browser = await launch();
  });
  afterAll(() => browser?.close());
  beforeEach(async () => {
    if (!browser) return;
    context = await browser.newContext({ offline: true, acceptDownloads: true });
    page = await context.newPage();
    errors = [];
    page.on("pageerror", ({ message }) => errors.push(message));
    page.on("console", (said) => {
      if (said.type() === "error") errors.push(said.text());
    });
    await page.route(/^https?:/, (route) => {
      errors.push(`asked for ${route.request().url()}`);
      return route.abort();
    });
  });
  afterEach(async () => {
    if (!browser) return;
    await context.close();
    expect(errors).toEqual([]);
  });
}

/** Lets the page compute, which it does before the next frame. */
export async function settled(): Promise<void> {
  await page.evaluate(
    "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))",
  );
}

/** Opens the page anew: an address that differs after the # alone would not load it again. */
export async function open(hash = ""): Promise<void> {
  await page.goto("about:blank");
  await page.goto(ADDRESS + hash);
  await settled();
}

export const linkTo = (shared: unknown): string => `#${encodeURIComponent(JSON.stringify(shared))}`;

const NUMBERS = ["force", "tape", "free-gap", "stiffness", "stress", "gap-there", "tight", "lowest"] as const;
export type Shown = Record<(typeof NUMBERS)[number], string>;

export const shown = (): Promise<Shown> =>
  page.evaluate<Shown>(
    `Object.fromEntries(${JSON.stringify(NUMBERS)}.map((id) => [id, document.getElementById(id).textContent]))`,
  );

/** The same lines from the library. */
export function library(spec: RingSpecInput, bore: BoreInput, inches = false): Shown {
  const design = designRing(spec);
  const closure = closeInBore(design, bore);
  const length = (value: number) => (inches ? `${(value / 25.4).toFixed(4)} in` : `${value.toFixed(3)} mm`);
  return {
    force: `${design.load.tangentialForce.toFixed(2)} N`,
    tape: `${describePressure(design).tape.tangentialForce.toFixed(2)} N`,
    "free-gap": length(design.free.gap),
    stiffness: design.stiffnessParameter.toFixed(5),
    stress: `${design.stress.closing.max.toFixed(0)} MPa`,
    "gap-there": length(closure.closedGap),
    tight: `${(100 * closure.contactShare).toFixed(2)} %`,
    lowest: `${Math.min(...closure.pressure).toFixed(4)} MPa`,
  };
}

/** The library's lines for the demo ring with some fields changed. */
export function libraryOf(change: Readonly<Record<string, number>>, inches = false): Shown {
  const values: Values = { ...START, ...change };
  return library(specOf(values), boreOf(values), inches);
}

/** Types into a number field by the keyboard alone. */
export async function type(id: string, text: string): Promise<void> {
  await page.focus(`#${id}`);
  await page.keyboard.press("Control+A");
  if (text === "") await page.keyboard.press("Delete");
  else await page.keyboard.type(text);
  await settled();
}

export const textOf = async (id: string): Promise<string> => (await page.textContent(`#${id}`)) ?? "";
export const isStale = (): Promise<boolean> =>
  page.evaluate<boolean>(`document.getElementById("results").classList.contains("stale")`);
/** Words that no reader should see, wherever they stand on the page: in text, drawings, attributes or fields. */
export async function nonsense(): Promise<string[]> {
  const all = await page.evaluate<string>(
    `document.querySelector("main").outerHTML + [...document.querySelectorAll("input")].map(({ value }) => value)`,
  );
  return all.match(/.{0,40}\b(?:NaN|undefined|Infinity|TypeError|Cannot read)\b.{0,40}/g) ?? [];
}
