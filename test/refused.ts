import { expect } from "vitest";
import { SpecError } from "../src/index.js";
import { type Result, runNode } from "./programs.js";
import type { Loose } from "./refusals.js";

/** What a refusal must be, whatever was refused. */

/** With the field that is named, the value that is shown, and what is told of what is allowed. */
export function expectRefused(error: unknown, field: string, value: unknown, allowed: RegExp): void {
  expect(error).toBeInstanceOf(SpecError);
  const { message, ...refused } = error as SpecError;
  expect(message).toMatch(/^.{1,300}$/);
  expect(message.startsWith(`${field} = `), message).toBe(true);
  expect(refused.field).toBe(field);
  expect(refused.value).toEqual(value);
  expect(refused.allowed).toMatch(allowed);
}

export function thrown(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  throw new Error("not refused");
}

export type Case = readonly [what: string, given: Loose, field: string, value: unknown, allowed: RegExp];

const DRIVER = `
const { stdout, stderr } = process;
const entry = require("node:url").pathToFileURL(process.argv[1]).href;
const { cases, folders } = JSON.parse(process.argv[2]);
const write = stdout.write.bind(stdout);
stdout.setMaxListeners(0);
(async () => {
  const results = [];
  for (const [k, args] of cases.entries()) {
    const result = { status: 0, stdout: "", stderr: "" };
    stdout.write = (text) => ((result.stdout += text), true);
    stderr.write = (text) => ((result.stderr += text), true);
    if (folders) process.chdir(folders[k]);
    process.argv = [process.argv[0], process.argv[1], ...args];
    process.exitCode = undefined;
    await import(entry + "?" + k);
    result.status = process.exitCode;
    results.push(result);
  }
  process.exitCode = 0;
  write(JSON.stringify(results));
})();
`;

/** Runs a program once a case, each in a folder of its own if given, all in one process, for starting one takes most of the time; its entry is loaded anew each time. */
export async function runEach(
  cwd: string,
  program: string,
  cases: readonly (readonly string[])[],
  folders?: readonly string[],
): Promise<Result[]> {
  const { status, stdout, stderr } = await runNode(cwd, [
    "-e",
    DRIVER,
    program,
    JSON.stringify({ cases, folders }),
  ]);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout);
}
