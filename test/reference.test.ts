import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Application } from "typedoc";
import type ts from "typescript";
import { afterAll, describe, expect, test } from "vitest";
import * as curves from "../src/curves.js";
import * as files from "../src/files.js";
import * as index from "../src/index.js";
import * as svg from "../src/svg.js";
import {
  asPromised,
  bareParameters,
  bareProperties,
  compiled,
  ENTRIES,
  errorsOf,
  examples,
  examplesWrong,
  functionOf,
  program,
  publicNames,
  root,
  summaryOf,
  tagsOf,
} from "./docstrings.js";

/** Every public name is documented in the source, its examples run, and the committed reference is what the source says. */

/** Errors of what a function calls that it gives no cause for. */
const NEVER: Readonly<Record<string, readonly string[]>> = {
  planVariation: ["NotFound"],
  ringOverview: ["SpecError"],
  renderPanel: ["SpecError"],
  renderSheet: ["SpecError"],
};

const functions = publicNames.flatMap(({ entry, name, declaration }) => {
  const called = functionOf(declaration);
  return called ? [{ entry, name, declaration, called }] : [];
});

describe("Each public name", () => {
  test("has a docstring, and so has each of its properties", () => {
    const bare = publicNames.flatMap(({ entry, name, declaration }) => [
      ...(summaryOf(declaration) === "" ? [`${entry}.${name}`] : []),
      ...bareProperties(declaration).map((property) => `${entry}.${name}: ${property}`),
    ]);
    expect(bare).toEqual([]);
  });
});

describe("Each public function", () => {
  test("tells of each parameter, and has an example", () => {
    expect(functions.length).toBeGreaterThan(70);
    const bare = functions.flatMap(({ entry, name, declaration, called }) => [
      ...bareParameters(declaration, called).map((parameter) => `${entry}.${name}: @param ${parameter}`),
      ...(tagsOf(declaration, "example").length === 0 ? [`${entry}.${name}: @example`] : []),
    ]);
    expect(bare).toEqual([]);
  });

  test("tells which of the library's errors it throws, and of none that it does not", () => {
    const wrong = functions.flatMap(({ entry, name, declaration, called }) => {
      const errors = errorsOf(called);
      const told = tagsOf(declaration, "throws").join("\n");
      for (const error of NEVER[name] ?? []) errors.delete(error);
      return ["SpecError", "NotFound"].flatMap((error) =>
        errors.has(error) === told.includes(error)
          ? []
          : [`${entry}.${name}: ${errors.has(error) ? "throws" : "does not throw"} ${error}`],
      );
    });
    expect(wrong).toEqual([]);
  });
});

describe("Each example", () => {
  test("is good TypeScript", () => {
    expect(examplesWrong()).toEqual([]);
  });

  // Threads run the built package alone.
  const built = existsSync(join(root, "dist/parallel.js"));
  const run = examples.filter(({ entry }) => built || entry !== "parallel");

  test.each(run)("of $name in $entry gives what it promises", async (example) => {
    const parallel = example.entry === "parallel" ? await import(join(root, "dist/parallel.js")) : {};
    const library: Record<string, unknown> = { ...index, ...svg, ...files, ...curves, ...parallel };
    const given: string[] = [];
    const promises: string[] = [];
    const told = (value: unknown, promised: string) => {
      promises.push(promised);
      given.push(asPromised(value, promised));
    };
    const AsyncFunction = (async () => {}).constructor as new (
      ...text: string[]
    ) => (...args: unknown[]) => Promise<void>;
    const names = Object.keys(library);
    await new AsyncFunction(...names, "told", compiled(example))(...Object.values(library), told);
    expect(given).toEqual(promises);
  });
});

describe("docs/reference", () => {
  const committed = join(root, "docs/reference");
  const made = mkdtempSync(join(tmpdir(), "camround-reference-"));
  afterAll(() => rmSync(made, { recursive: true, force: true }));

  test("is what the source says, without a warning: npm run docs:reference", async () => {
    const app = await Application.bootstrapWithPlugins({
      options: join(root, "docs/typedoc.json"),
      out: made,
      logLevel: "None",
    });
    const project = app.converter.convert(
      ENTRIES.map((entry) => ({
        displayName: entry,
        program,
        sourceFile: program.getSourceFile(join(root, "src", `${entry}.ts`)) as ts.SourceFile,
      })),
    );
    app.validate(project);
    await app.generateOutputs(project);
    expect(app.logger.warningCount + app.logger.errorCount).toBe(0);
    for (const page of readdirSync(made))
      expect(readFileSync(join(made, page), "utf8"), page).toBe(readFileSync(join(committed, page), "utf8"));
    expect(readdirSync(committed).sort()).toEqual([...readdirSync(made), "inputs.md"].sort());
  });

  test("links to files and places that are there", () => {
    const broken: string[] = [];
    const places = new Map<string, Set<string>>();
    for (const page of readdirSync(committed)) {
      const text = readFileSync(join(committed, page), "utf8").replace(/^```[\s\S]*?^```/gm, "");
      for (const [, link] of text.matchAll(/\]\(([^)\s]+)\)/g)) {
        const [file, place] = link.split("#");
        const target = file === "" ? join(committed, page) : join(committed, file);
        if (place && existsSync(target) && !places.has(target)) places.set(target, placesIn(target));
        if (!existsSync(target) || (place && !places.get(target)?.has(place)))
          broken.push(`${page}: ${link}`);
      }
    }
    expect(broken).toEqual([]);
  });
});

/** Anchors and headings of a page, as they are linked to. */
function placesIn(file: string): Set<string> {
  const text = readFileSync(file, "utf8");
  const anchors = [...text.matchAll(/<a id="([^"]+)"/g)].map(([, id]) => id);
  const headings = [...text.matchAll(/^#+ (.*)$/gm)].map(([, words]) =>
    words
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, "")
      .trim()
      .replace(/ /g, "-"),
  );
  return new Set([...anchors, ...headings]);
}
