import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parse } from "jsonc-parser";
import { afterAll, beforeAll, expect } from "vitest";
import { runNode } from "./programs.js";

/** The built command line, and folders to run it in. */

const root = fileURLToPath(new URL("..", import.meta.url));
export const CLI: string = join(root, "dist/cli.js");
export const example = (name: string): string => join(root, "examples", name);
/** Comments are allowed in examples. */
export const readExample = (path: string) => parse(readFileSync(path, "utf8"));

/** Folders for the tests of a file, a new one at each call; all gone after the last test. */
export function ownFolders(name: string): () => string {
  let [base, count] = ["", 0];
  beforeAll(() => {
    if (!existsSync(CLI)) throw new Error("build first: npm run build");
    base = mkdtempSync(join(tmpdir(), `camround-${name}-`));
  });
  afterAll(() => rmSync(base, { recursive: true, force: true }));
  return () => {
    const path = join(base, `test-${count++}`);
    mkdirSync(path);
    return path;
  };
}

/** What a run prints that ends well and has not a word on stderr: no bar either, since nobody watches a pipe. */
export async function camround(cwd: string, ...args: string[]): Promise<string> {
  const { status, stdout, stderr } = await runNode(cwd, [CLI, ...args]);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout;
}

/** Writes a file into a folder, text as it is and all else as JSON; its name again. */
export function file(folder: string, name: string, content: unknown): string {
  writeFileSync(join(folder, name), typeof content === "string" ? content : JSON.stringify(content));
  return name;
}
