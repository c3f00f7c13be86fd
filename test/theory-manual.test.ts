import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { describe, expect, test } from "vitest";
import { WORKED } from "./worked-numbers.js";

/** The theory manual: its worked numbers, its links to code and checks, its pictures. */

const root = fileURLToPath(new URL("..", import.meta.url));
const folder = join(root, "docs/theory");
const pictureFolder = join(root, "docs/pictures");
const CHAPTERS = readdirSync(folder).filter((name) => name.endsWith(".md"));
const textOf = (name: string) => readFileSync(join(folder, name), "utf8");
const numbered = CHAPTERS.filter((name) => /^\d\d-/.test(name));

interface PrintedBlock {
  readonly file: string;
  readonly block: string;
  readonly lines: readonly { readonly name: string; readonly printed: string }[];
}

function printedBlocks(file: string): PrintedBlock[] {
  return [...textOf(file).matchAll(/```worked (.+)\n([\s\S]*?)```/g)].map(([, block, body]) => ({
    file,
    block,
    lines: body
      .trim()
      .split("\n")
      .map((line) => {
        const [, name, printed] = /^(.+?) = ([−\d.]+(?:e−?\d+)?)(?: {3}\S.*)?$/.exec(line) ?? [];
        if (name === undefined) throw new Error(`${file}: no name and number in "${line}"`);
        return { name, printed: printed.replaceAll("−", "-") };
      }),
  }));
}

/** A value to as many digits as are printed, in the way they are printed. */
function asPrinted(value: number, printed: string): string {
  const [mantissa, power] = printed.split("e");
  const decimals = mantissa.split(".")[1]?.length ?? 0;
  return power === undefined ? value.toFixed(decimals) : value.toExponential(decimals);
}

const printed = CHAPTERS.flatMap(printedBlocks);

describe("the worked numbers of the theory manual", () => {
  test("are those that are computed here, each block once", () => {
    expect(printed.map(({ block }) => block).sort()).toEqual(Object.keys(WORKED).sort());
  });

  test("stand in every chapter", () => {
    expect([...new Set(printed.map(({ file }) => file))]).toEqual(numbered);
  });

  test.each(printed)("$block, in $file", ({ block, lines }) => {
    const values = WORKED[block]();
    expect(lines.map(({ name }) => name).sort()).toEqual(Object.keys(values).sort());
    for (const { name, printed } of lines) {
      expect(values[name].length, name).toBeGreaterThan(0);
      for (const value of values[name]) expect(asPrinted(value, printed), name).toBe(printed);
    }
  });

  test("are compared to the last digit", () => {
    expect(asPrinted(-0.0024337, "-0.002434")).toBe("-0.002434");
    expect(asPrinted(-0.0024337, "-0.0024")).toBe("-0.0024");
    expect(asPrinted(2.3604e-5, "2.360e-5")).toBe("2.360e-5");
    expect(asPrinted(2.3606e-5, "2.360e-5")).not.toBe("2.360e-5");
  });
});

/** Places named in a chapter: [label](path) and the symbols after it. */
function placesIn(part: string): { label: string; path: string; symbols: string[] }[] {
  return [...part.matchAll(/\[([^\]]+)\]\(([^)]+)\)((?:,? `[^`]+`)*)/g)].map(([, label, path, rest]) => ({
    label,
    path: join(folder, path),
    symbols: [...rest.matchAll(/`([^`]+)`/g)].map(([, symbol]) => symbol),
  }));
}

const isExported = (source: string, symbol: string) =>
  new RegExp(`^export (?:function|const|interface|type|class) ${symbol}\\b`, "m").test(source);

describe.each(numbered)("the chapter %s", (name) => {
  const lines = textOf(name)
    .split("\n")
    .filter((line) => line.startsWith("Code: "));

  test("leads to code that is there", () => {
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) {
      const places = placesIn(line.split(" · Check: ")[0]);
      expect(places.length, line).toBeGreaterThan(0);
      for (const { label, path, symbols } of places) {
        expect(join(root, label), line).toBe(path);
        expect(label).toMatch(/^src\//);
        expect(symbols.length, label).toBeGreaterThan(0);
        const source = readFileSync(path, "utf8");
        for (const symbol of symbols) expect(isExported(source, symbol), `${label}: ${symbol}`).toBe(true);
      }
    }
  });

  test("leads to checks that are there, or says that there is none", () => {
    for (const line of lines) {
      const checks = line.split(" · Check: ")[1];
      expect(checks, line).toBeDefined();
      if (/^none; /.test(checks)) continue;
      const places = placesIn(checks);
      expect(places.length, line).toBeGreaterThan(0);
      for (const { label, path } of places) {
        expect(join(root, label), line).toBe(path);
        expect(label).toMatch(/^test\/.*\.test\.ts$/);
        expect(existsSync(path), label).toBe(true);
      }
    }
  });

  test("names code and check below every formula", () => {
    for (const section of textOf(name).split(/^## /m).slice(1)) {
      if (/^ {4}\S/m.test(section)) expect(section, section.split("\n")[0]).toMatch(/^Code: .* · Check: /m);
    }
  });
});

/** What a heading is called in a link. */
const anchorOf = (heading: string) =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} -]/gu, "")
    .replaceAll(" ", "-");

test("every link of the manual leads to a file, and to a heading where it names one", () => {
  for (const name of CHAPTERS) {
    for (const [, link] of textOf(name).matchAll(/\]\(([^)]+)\)/g)) {
      const [path, anchor] = link.split("#");
      expect(existsSync(join(folder, path)), `${name}: ${link}`).toBe(true);
      if (anchor === undefined) continue;
      const headings = readFileSync(join(folder, path), "utf8").matchAll(/^#+ (.+)$/gm);
      expect(
        [...headings].map(([, heading]) => anchorOf(heading)),
        `${name}: ${link}`,
      ).toContain(anchor);
    }
  }
});

test("the manual lists its chapters, and nothing else links to the one file that it was", () => {
  const contents = [...textOf("README.md").matchAll(/\]\((\d\d-[^)#]+)\)/g)].map(([, file]) => file);
  expect([...new Set(contents)].sort()).toEqual(numbered);
  expect(existsSync(join(root, "docs/theory.md"))).toBe(false);
  for (const place of ["README.md", "DEVELOPERS.md", "docs/accuracy.md", "docs/changelog.md"])
    expect(readFileSync(join(root, place), "utf8").includes("theory.md"), place).toBe(false);
});

describe.skipIf(!existsSync(join(root, "dist/svg.js")))("the pictures of the theory manual", () => {
  const committed = readdirSync(pictureFolder).filter((name) => /^theory-.*\.svg$/.test(name));

  test("are what docs/pictures/draw.mjs draws with the library as built, small, and all shown", async () => {
    const { pictures } = (await import(
      /* @vite-ignore */ pathToFileURL(join(pictureFolder, "draw.mjs")).href
    )) as { pictures: () => Record<string, string> };
    const drawn = pictures();
    expect(Object.keys(drawn).sort()).toEqual(committed.sort());
    for (const [name, svg] of Object.entries(drawn)) {
      expect(svg, name).toBe(readFileSync(join(pictureFolder, name), "utf8"));
      expect(svg.length, name).toBeLessThan(40000);
    }
    const shown = CHAPTERS.flatMap((name) => [...textOf(name).matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)]);
    expect(shown.map(([, path]) => basename(path)).sort()).toEqual(committed.sort());
  });
});
