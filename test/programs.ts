import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { lstatSync, readdirSync, readFileSync, readlinkSync } from "node:fs";
import { join } from "node:path";

/** Running programs in folders, and seeing what they changed there. */

/**
 * Everything in a folder: modes, digests of contents, targets of links, and times of files, so that one written anew with the same content
 * shows.
 */
export function snapshot(folder: string, within = ""): Record<string, string> {
  return Object.assign(
    {},
    ...readdirSync(join(folder, within)).map((name) => {
      const path = join(within, name);
      const whole = join(folder, path);
      const stats = lstatSync(whole);
      const mode = stats.mode.toString(8);
      if (stats.isSymbolicLink()) return { [path]: `${mode} to ${readlinkSync(whole)}` };
      if (stats.isDirectory()) return { [path]: mode, ...snapshot(folder, path) };
      const digest = createHash("sha256").update(readFileSync(whole)).digest("hex").slice(0, 16);
      return { [path]: `${mode} ${digest} at ${stats.mtimeMs}` };
    }),
  );
}

export interface Result {
  status: number | string | null | undefined;
  stdout: string;
  stderr: string;
}

export function runNode(cwd: string, args: string[]): Promise<Result> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      args,
      { cwd, encoding: "utf8", maxBuffer: 64 << 20 },
      (error, stdout, stderr) => resolve({ status: error ? error.code : 0, stdout, stderr }),
    );
  });
}
