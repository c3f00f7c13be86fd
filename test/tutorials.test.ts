import { execFile } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { createContext, runInContext } from "node:vm";
import { build } from "esbuild";
import { parse } from "jsonc-parser";
import { describe, expect, test } from "vitest";
import { CLI, ownFolders } from "./commandLine.js";
import { type Result, runNode } from "./programs.js";

/**
 * The tutorials, done as a reader does them, each in a folder of its own. Of the blocks of a page
 *  - `sh`: lines that begin with `npx` or `node` run in order, the rest (npm, cd, cp) is for the reader's own machine;
 *  - `text` stands literally in what the `sh` block before it printed, and a command fails only where its refusal is shown;
 *  - `json` after "as `NAME.json`:" is a file that the reader saves;
 *  - any after a line with a link to an example is an excerpt of it;
 *  - `js` else is a program that prints what it says.
 * A picture `tutorial-NAME.svg` is the `NAME.svg` that a command before it drew.
 */

const root = fileURLToPath(new URL("..", import.meta.url));
const tutorials = join(root, "docs/tutorials");
const pictures = join(root, "docs/pictures");
const pages = readdirSync(tutorials).filter((name) => name.endsWith(".md"));
const read = (page: string) => readFileSync(join(tutorials, page), "utf8");
const folder = ownFolders("tutorials");

interface Block {
  /** The line of text before it. */
  readonly lead: string;
  readonly language: string;
  readonly code: string;
}

function blocksOf(text: string): Block[] {
  const found = text.matchAll(/(?:^|\n)([^\n]*)\n\n?```(\w+)\n([\s\S]*?)```/g);
  const blocks = [...found].map(([, lead, language, code]) => ({ lead, language, code }));
  expect(text.split("```").length - 1, "fences").toBe(2 * blocks.length);
  return blocks;
}

const EXAMPLE = /\]\(\.\.\/\.\.\/(examples\/[^)]+)\):$/;
const SAVED = /as `([\w-]+\.json)`:$/;

/** A folder as the set-up of docs/tutorials/README.md leaves it. */
function workingFolder(): string {
  const path = folder();
  for (const from of ["examples", "examples/browser"]) {
    for (const name of readdirSync(join(root, from))) {
      const file = join(root, from, name);
      if (name.includes(".") && statSync(file).isFile()) writeFileSync(join(path, name), readFileSync(file));
    }
  }
  mkdirSync(join(path, "node_modules"));
  symlinkSync(root, join(path, "node_modules/camround"), "dir");
  return path;
}

const quoted = (path: string) => `'${path}'`;
const PROGRAMS: Record<string, string> = {
  "npx camround": `${quoted(process.execPath)} ${quoted(CLI)}`,
  "npx esbuild": quoted(join(root, "node_modules/.bin/esbuild")),
  node: quoted(process.execPath),
};

/** One line of a shell block; nothing for lines that are the reader's own. */
function run(cwd: string, line: string): Promise<Result> | undefined {
  const program = Object.keys(PROGRAMS).find((name) => line.startsWith(`${name} `));
  if (program === undefined) return undefined;
  const command = `${PROGRAMS[program]}${line.slice(program.length)}`;
  return new Promise((done) => {
    execFile("/bin/sh", ["-c", command], { cwd, encoding: "utf8" }, (error, stdout, stderr) =>
      done({ status: error ? error.code : 0, stdout, stderr }),
    );
  });
}

/** Where a file of this name lies that commands have written. */
function written(cwd: string, name: string): string[] {
  const places = [cwd, ...readdirSync(cwd).map((entry) => join(cwd, entry))];
  return places.map((place) => join(place, name)).filter((path) => existsSync(path));
}

const picturesOf = (text: string) =>
  [...text.matchAll(/!\[[^\]]+\]\(\.\.\/pictures\/tutorial-([\w-]+\.svg)\)/g)].map(([, name]) => name);

// Side by side: each waits for programs only. On a machine that does other work too one page may take its time.
describe.concurrent.each(pages)("The tutorial %s", { timeout: 180_000 }, (page) => {
  const text = read(page);
  const blocks = blocksOf(text);

  test("has commands that print what it says and draw its pictures", async () => {
    const cwd = workingFolder();
    let output = "";
    for (const [i, { lead, language, code }] of blocks.entries()) {
      if (EXAMPLE.test(lead)) continue;
      const [, saved] = SAVED.exec(lead) ?? [];
      if (language === "json") {
        expect(saved, `${page}: a name for\n${code}`).toBeDefined();
        const errors: never[] = [];
        parse(code, errors);
        expect(errors).toEqual([]);
        writeFileSync(join(cwd, saved), code);
      }
      if (language === "text") expect(output).toContain(code.trimEnd());
      if (language !== "sh") continue;
      output = "";
      const refused = blocks[i + 1]?.code.startsWith("camround: ");
      for (const line of code.trim().split("\n")) {
        const result = await run(cwd, line);
        if (result === undefined) continue;
        output += result.stdout + result.stderr;
        expect(result.status, `${line}\n${result.stderr}`).toBe(refused ? 2 : 0);
      }
    }
    for (const name of picturesOf(text)) {
      const drawn = written(cwd, name);
      expect(drawn.length, name).toBeGreaterThan(0);
      expect(readFileSync(join(pictures, `tutorial-${name}`), "utf8")).toBe(readFileSync(drawn[0], "utf8"));
    }
  });

  test("has programs that print what it says, and excerpts that are ones", async () => {
    for (const { lead, language, code } of blocks) {
      const [, excerpted] = EXAMPLE.exec(lead) ?? [];
      if (excerpted !== undefined) expect(readFileSync(join(root, excerpted), "utf8")).toContain(code);
      else if (language === "js") {
        const promised = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(([, answer]) => answer);
        expect(promised.length).toBeGreaterThan(0);
        const { stdout, stderr } = await runNode(root, ["--input-type=module", "-e", code]);
        expect(stderr).toBe("");
        expect(stdout.trim().split("\n")).toEqual(promised);
      }
    }
  });

  test("links to what exists, headings too", () => {
    for (const [, link] of text.replace(/```[\s\S]*?```/g, "").matchAll(/\]\(([^)]+)\)/g)) {
      if (link.includes("://")) continue;
      const [path, heading] = link.split("#");
      const target = path === "" ? join(tutorials, page) : resolve(tutorials, path);
      expect(existsSync(target), `${page}: ${link}`).toBe(true);
      if (heading !== undefined) expect(anchors(readFileSync(target, "utf8")), link).toContain(heading);
    }
  });
});

/** As the usual hosts of repositories make them: lower case, punctuation gone, hyphens for blanks. */
function anchors(text: string): string[] {
  const headings = text.replace(/```[\s\S]*?```/g, "").matchAll(/^#+ (.*)$/gm);
  return [...headings].map(([, heading]) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N} _-]/gu, "")
      .replaceAll(" ", "-"),
  );
}

test("The pictures of tutorials are all shown in one", () => {
  const shown = pages.flatMap((page) => picturesOf(read(page)).map((name) => `tutorial-${name}`));
  expect(shown.length).toBeGreaterThan(5);
  expect(readdirSync(pictures).filter((name) => name.startsWith("tutorial-"))).toEqual(shown.sort());
});

test("The scan in the examples is what its program makes", async () => {
  const { stdout } = await runNode(root, ["examples/second-ring.mjs", "--table"]);
  const numbers = (table: string) => (table.match(/-?\d+\.\d+/g) ?? []).map(Number);
  const committed = numbers(readFileSync(join(root, "examples/ferry-scan.csv"), "utf8"));
  const made = numbers(stdout);
  expect(made).toHaveLength(committed.length);
  // A sine may differ in its last bit from machine to machine, and with it the last of four digits.
  made.forEach((value, i) => {
    expect(Math.abs(value - committed[i])).toBeLessThan(1.5e-4);
  });
});

describe("The page", () => {
  const browser = join(root, "examples/browser");
  const answer = (page: string) => {
    const name = page.replace(".", "\\.");
    return new RegExp(`${name}[\\s\\S]*?reads\\s+\`([^\`]+)\``).exec(read("plain-javascript.md"))?.[1];
  };

  /** A script in a page of which it finds every part; what it has put into them. */
  function shown(script: string): Record<string, Record<string, unknown>> {
    const parts: Record<string, Record<string, unknown>> = { "#pressure": { value: "0.15" } };
    const querySelector = (name: string) => {
      parts[name] ??= {};
      const part = parts[name];
      return Object.assign(part, {
        addEventListener: () => {},
        setAttribute: (attribute: string, value: string) => {
          part[attribute] = value;
        },
      });
    };
    runInContext(script, createContext({ document: { querySelector } }));
    return parts;
  }

  test("without a bundler finds all its modules, in a browser's way", async () => {
    const page = readFileSync(join(browser, "no-bundler.html"), "utf8");
    const [, map] = /<script type="importmap">([\s\S]*?)<\/script>/.exec(page) ?? [];
    const [, script] = /<script type="module">([\s\S]*?)<\/script>/.exec(page) ?? [];
    const imports: Record<string, string> = JSON.parse(map).imports;
    const reached = new Set<string>();
    const { outputFiles } = await build({
      stdin: { contents: script, resolveDir: browser },
      bundle: true,
      write: false,
      plugins: [
        {
          // As a browser does it: by the map, or by relative address to a file that is there; nothing else.
          name: "addresses",
          setup({ onResolve }) {
            onResolve({ filter: /.*/ }, ({ path, importer, resolveDir }) => {
              const from = importer === "<stdin>" ? resolveDir : dirname(importer);
              const target = path.startsWith(".")
                ? resolve(from, path)
                : resolve(browser, imports[path] ?? "");
              if (!(existsSync(target) && statSync(target).isFile()))
                return { errors: [{ text: `${path}: no such address` }] };
              reached.add(path.startsWith(".") ? basename(target) : path);
              return { path: target };
            });
          },
        },
      ],
    });
    for (const name of Object.keys(imports)) expect(reached).toContain(name);
    const parts = shown(outputFiles[0].text);
    expect(parts["#answer"].textContent).toBe(answer("no-bundler.html"));
    expect(parts["#outline"].d).toMatch(/^M(-?[\d.]+ -?[\d.]+L?)+Z$/);
  });

  test("with a bundler holds nothing of Node and draws the ring", async () => {
    const { outputFiles, metafile } = await build({
      entryPoints: [join(browser, "ring-page.js")],
      bundle: true,
      minify: true,
      write: false,
      metafile: true,
      platform: "browser",
      // Names of pieces that share nothing with this page.
      logOverride: { "ignored-bare-import": "silent" },
    });
    // Built-ins would be refused on this platform, or stand as imports from outside.
    const outside = Object.values(metafile.inputs).flatMap((input) =>
      input.imports.filter((one) => one.external),
    );
    expect(outside).toEqual([]);
    const [{ text }] = outputFiles;
    expect(text).not.toMatch(/node:|\brequire\(["']/);
    const parts = shown(text);
    expect(parts["#answer"].textContent).toBe(answer("bundled.html"));
    expect(parts["#drawing"].innerHTML).toMatch(/^<svg /);
    expect(readFileSync(join(browser, "bundled.html"), "utf8")).toContain('<script src="bundle.js">');
  });
});
