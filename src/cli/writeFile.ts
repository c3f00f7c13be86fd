import { readFileSync, realpathSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { sync as writeFileAtomic } from "write-file-atomic";
import { InputError } from "./inputError.js";

/**
 * Writes a text file whole or not at all: an existing file stays as it is when anything goes wrong. A file without
 * any write permission is refused even to a user who could override it.
 */
export function writeTextFile(path: string, text: string): void {
  const existing = statSync(path, { throwIfNoEntry: false });
  if (existing?.isFile() && (existing.mode & 0o222) === 0) throw new Error("the file is write-protected");
  if (existing?.isDirectory()) throw new Error("it is a directory");
  // A device or a pipe cannot be replaced, only written to.
  if (existing && !existing.isFile()) writeFileSync(path, text);
  else writeFileAtomic(existing ? realpathSync(path) : path, text);
}

/** Writes a drawing; a failure says which file. */
export function writeDrawing(path: string, drawing: string): void {
  try {
    writeTextFile(path, drawing);
  } catch (error) {
    throw new Error(`cannot write ${JSON.stringify(path)}: ${(error as Error).message}`);
  }
}

/**
 * Refuses one file for two outputs, since the later would replace the earlier.
 *
 * @param paths by flag; those not given are left out
 * @throws InputError naming both flags
 */
export function differentFiles(paths: Readonly<Record<string, string | undefined>>): void {
  const taken = new Map<string, string>();
  for (const [flag, path] of Object.entries(paths)) {
    if (path === undefined) continue;
    const existing = statSync(path, { throwIfNoEntry: false });
    // A device or a pipe takes both.
    if (existing && !existing.isFile()) continue;
    const place = placeOf(path, existing !== undefined);
    const other = taken.get(place);
    if (other !== undefined) {
      throw new InputError(
        `--${other} and --${flag} contradict each other: both name ${JSON.stringify(path)}, and one would replace the other`,
      );
    }
    taken.set(place, flag);
  }
}

/** Where a file stands or will stand, links followed. */
function placeOf(path: string, exists: boolean): string {
  if (exists) return realpathSync(path);
  const folder = dirname(resolve(path));
  return join(statSync(folder, { throwIfNoEntry: false }) ? realpathSync(folder) : folder, basename(path));
}

/** Writes several files, all of them or none: what was written before one fails is put back as it was. */
export function writeDrawings(files: readonly (readonly [path: string, text: string])[]): void {
  const before = files.slice(0, -1).map(([path]) => {
    const existing = statSync(path, { throwIfNoEntry: false });
    if (!existing) return "none";
    // What goes into a device or a pipe cannot be taken back.
    return existing.isFile() ? readFileSync(path) : "device";
  });
  for (const [k, [path, text]] of files.entries()) {
    try {
      writeDrawing(path, text);
    } catch (error) {
      for (const [j, [written]] of files.slice(0, k).entries()) {
        const old = before[j];
        if (old === "none") rmSync(written);
        else if (old !== "device") writeFileSync(written, old);
      }
      throw error;
    }
  }
}
