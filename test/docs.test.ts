import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { CHECKS } from "./checks.js";

const root = fileURLToPath(new URL("..", import.meta.url));
const node = (...args: string[]) => execFileSync(process.execPath, args, { cwd: root, encoding: "utf8" });
const readme = readFileSync(join(root, "README.md"), "utf8");

function blocks(text: string, language: string): string[] {
  return [...text.matchAll(new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``, "g"))].map(([, code]) => code);
}

describe("The README", () => {
  test("shows programs that print what it says", () => {
    const programs = blocks(readme, "js");
    expect(programs.length).toBeGreaterThan(1);
    for (const program of programs) {
      const promised = [...program.matchAll(/console\.log\(.*\); \/\/ (.*)/g)].map(([, answer]) => answer);
      expect(promised.length).toBeGreaterThan(2);
      expect(node("--input-type=module", "-e", program).trim().split("\n")).toEqual(promised);
    }
  });

  test("shows the report as the command prints it", () => {
    const [excerpt] = blocks(readme, "text");
    expect(node("dist/cli.js", "design", "examples/ferry-118.json").startsWith(excerpt)).toBe(true);
  });

  test("links to files that exist, as the docs do", () => {
    const docs = readdirSync(join(root, "docs")).filter((name) => name.endsWith(".md"));
    for (const [folder, name] of [["", "README.md"], ...docs.map((doc) => ["docs", doc])]) {
      const text = readFileSync(join(root, folder, name), "utf8");
      for (const [, link] of text.matchAll(/\]\(([^)#]+)\)/g)) {
        if (!link.includes("://"))
          expect(existsSync(join(root, folder, link)), `${name}: ${link}`).toBe(true);
      }
    }
  });
});

test("The citation is of the package's version", () => {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  expect(readFileSync(join(root, "docs/CITATION.cff"), "utf8")).toContain(`\nversion: ${version}\n`);
});

test("The page of checks has every check that is listed, with its source", () => {
  const page = readFileSync(join(root, "docs/checks.md"), "utf8");
  const headings = [...page.matchAll(/^## (.*)$/gm)].map(([, heading]) => heading);
  const checks = Object.values(CHECKS);
  expect(headings).toHaveLength(checks.length);
  for (const [i, { title, source }] of checks.entries()) {
    expect(headings[i].startsWith(title), title).toBe(true);
    expect(page).toContain(`Source: ${source}.`);
  }
});

describe("Each example", () => {
  const examples = readdirSync(join(root, "examples")).filter((name) => name.endsWith(".mjs"));

  test.each(examples)("%s runs and prints numbers with units", (name) => {
    expect(node(join("examples", name))).toMatch(/\d (mm|N|MPa)/);
  });
});
