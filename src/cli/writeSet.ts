import { randomUUID } from "node:crypto";
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import { InputError } from "./inputError.js";

/** Files by name. */
export type FileSet = Readonly<Record<string, string>>;

/**
 * Writes a set of files into a folder, all of them or none: they are written beside it and then moved in.
 *
 * @param folder made if it is not there
 * @param files by name
 * @param force whether files of these names may be replaced
 * @throws InputError when the folder is a file or cannot be written, or holds such files and `force` is not given
 */
export function writeSet(folder: string, files: FileSet, force: boolean): void {
  const target = resolve(folder);
  const refuse = (reason: string) => new InputError(`--out = ${JSON.stringify(folder)}: ${reason}`);
  const names = Object.keys(files);
  const existing = statSync(target, { throwIfNoEntry: false });
  if (existing && !existing.isDirectory()) throw refuse("must be a folder, and is a file");
  for (const name of existing ? names : []) {
    const file = statSync(join(target, name), { throwIfNoEntry: false });
    if (!file) continue;
    if (!file.isFile()) throw refuse(`${name} in it is not a file and cannot be replaced`);
    if (!force) throw refuse(`already holds ${name}; give --force to replace it`);
    if ((file.mode & 0o222) === 0) throw refuse(`${name} in it is write-protected`);
  }
  let beside: string | undefined;
  try {
    if (existing) accessSync(target, constants.W_OK);
    const parent = existing ? target : dirname(target);
    mkdirSync(parent, { recursive: true });
    const unfinished = join(parent, `.camround-${randomUUID()}`);
    mkdirSync(unfinished);
    beside = unfinished;
    for (const name of names) writeFileSync(join(unfinished, name), files[name]);
    if (existing) for (const name of names) renameSync(join(unfinished, name), join(target, name));
    else renameSync(unfinished, target);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw refuse(
      code === "EACCES" || code === "EROFS" || code === "EPERM" ? "cannot be written to" : message,
    );
  } finally {
    if (beside && existsSync(beside)) rmSync(beside, { recursive: true, force: true });
  }
}
