import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { InputError } from "../src/cli/inputError.js";
import { type FileSet, writeSet } from "../src/cli/writeSet.js";
import { snapshot } from "./programs.js";

let base: string;
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), "camround-sets-"));
});
afterEach(() => rmSync(base, { recursive: true, force: true }));

const at = (...path: string[]) => join(base, ...path);

/** Refused as the user's to mend, in one line that names the flag and the folder, with nothing changed. */
function expectRefused(folder: string, files: FileSet, force: boolean, ...words: string[]) {
  expect(expectUndone(folder, files, force, ...words)).toBeInstanceOf(InputError);
}

/** Fails in one line that names the flag and the folder, with nothing changed. */
function expectUndone(folder: string, files: FileSet, force: boolean, ...words: string[]): Error {
  const before = snapshot(base);
  let error: unknown;
  try {
    writeSet(folder, files, force);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(Error);
  const { message } = error as Error;
  expect(message.startsWith(`--out = ${JSON.stringify(folder)}: `)).toBe(true);
  for (const word of words) expect(message).toContain(word);
  expect(snapshot(base)).toEqual(before);
  return error as Error;
}

describe("A set of files", () => {
  const FILES = { "first.txt": "1\n", "second.txt": "2\n" };

  test("goes into a new folder, with the folders above it", () => {
    writeSet(at("a/b/set"), FILES, false);
    expect(readdirSync(base)).toEqual(["a"]);
    expect(readdirSync(at("a/b"))).toEqual(["set"]);
    expect(readdirSync(at("a/b/set")).sort()).toEqual(["first.txt", "second.txt"]);
    expect(readFileSync(at("a/b/set/second.txt"), "utf8")).toBe("2\n");
  });

  test("goes into a folder that holds other files, and replaces its own only when forced", () => {
    mkdirSync(at("set"));
    writeFileSync(at("set/other.txt"), "keep");
    writeSet(at("set"), FILES, false);
    expectRefused(at("set"), { "second.txt": "new" }, false, "second.txt", "--force");
    writeSet(at("set"), { "second.txt": "new" }, true);
    expect(
      Object.fromEntries(readdirSync(at("set")).map((name) => [name, readFileSync(at("set", name), "utf8")])),
    ).toEqual({ "first.txt": "1\n", "other.txt": "keep", "second.txt": "new" });
  });

  test("is refused where a link of one of its names leads nowhere, for it would be replaced", () => {
    mkdirSync(at("set"));
    symlinkSync("nowhere", at("set/second.txt"));
    for (const force of [false, true])
      expectRefused(at("set"), FILES, force, "second.txt", "not a plain file");
  });

  test("is refused where a folder has one of its names, forced or not", () => {
    mkdirSync(at("set/second.txt"), { recursive: true });
    for (const force of [false, true]) expectRefused(at("set"), FILES, force, "second.txt");
  });
});

describe("A set that cannot be finished", () => {
  /** The first file can be written, the second not: no folder is there for it. */
  const UNWRITABLE = { "first.txt": "new", "nowhere/second.txt": "new" };

  test("leaves a folder that is there as it was", () => {
    mkdirSync(at("set"));
    writeFileSync(at("set/first.txt"), "old");
    expectUndone(at("set"), UNWRITABLE, true);
  });

  test("makes no new folder", () => {
    expectUndone(at("set"), UNWRITABLE, false);
  });

  test("makes no folders above a new one either", () => {
    expectUndone(at("a/b/set"), UNWRITABLE, false);
  });

  test("puts back what it has replaced when another program gets in between", () => {
    mkdirSync(at("set"));
    writeFileSync(at("set/first.txt"), "old");
    const files = {
      "first.txt": "new",
      get "second.txt"() {
        // After the checks and before the files are moved in.
        if (!existsSync(at("set/second.txt"))) mkdirSync(at("set/second.txt"));
        return "new";
      },
      "third.txt": "new",
    };
    expect(() => writeSet(at("set"), files, true)).toThrow(/^--out = /);
    expect(lstatSync(at("set/second.txt")).isDirectory()).toBe(true);
    expect(readdirSync(at("set")).sort()).toEqual(["first.txt", "second.txt"]);
    expect(readFileSync(at("set/first.txt"), "utf8")).toBe("old");
  });
});
