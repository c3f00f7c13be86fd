import { randomUUID } from "node:crypto";
import {
  accessSync,
  constants,
  lstatSync,
  mkdirSync,
  readdirSync,
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
 * Writes a set of files into a folder, all of them or none: they are written beside their places and then moved in; what they replace is moved out
 * first, and back if anything goes wrong.
 *
 * @param folder made if it is not there
 * @param files by name
 * @param force whether files of these names may be replaced
 * @throws InputError when the folder is a file or cannot be written to, or holds such files and `force` is not given
 */
export function writeSet(folder: string, files: FileSet, force: boolean): void {
  try {
    place(resolve(folder), files, force);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    const text = `--out = ${JSON.stringify(folder)}: ${WORDS[code ?? ""] ?? message}`;
    // What the user can mend is bad input; a full disk, say, is not.
    throw error instanceof InputError || Object.hasOwn(WORDS, code ?? "")
      ? new InputError(text)
      : new Error(text);
  }
}

/** What the system's refusals mean for the folder. */
const WORDS: Readonly<Record<string, string>> = {
  EACCES: "cannot be written to",
  EPERM: "cannot be written to",
  EROFS: "cannot be written to",
  ENOTDIR: "a part of the path is a file, not a folder",
  ENAMETOOLONG: "the name is too long",
  ELOOP: "its links lead in a circle",
};

function place(target: string, files: FileSet, force: boolean): void {
  const names = Object.keys(files);
  const exists = folderExists(target);
  const replaced = exists ? names.filter((name) => isReplaced(join(target, name), name, force)) : [];
  if (exists) accessSync(target, constants.W_OK);
  const parent = exists ? target : dirname(target);
  const firstMade = mkdirSync(parent, { recursive: true });
  const beside = join(parent, `.camround-${randomUUID()}`);
  const old = join(beside, "old");
  const moved: string[] = [];
  try {
    mkdirSync(beside);
    for (const name of names) writeFileSync(join(beside, name), files[name]);
    if (!exists) {
      renameSync(beside, target);
      return;
    }
    mkdirSync(old);
    for (const name of replaced) renameSync(join(target, name), join(old, name));
    for (const name of names) {
      renameSync(join(beside, name), join(target, name));
      moved.push(name);
    }
  } catch (error) {
    for (const name of moved) rmSync(join(target, name), { force: true });
    for (const name of entriesOf(old)) renameSync(join(old, name), join(target, name));
    rmSync(firstMade ?? beside, { recursive: true, force: true });
    throw error;
  }
  rmSync(beside, { recursive: true, force: true });
}

function folderExists(target: string): boolean {
  const entry = lstatSync(target, { throwIfNoEntry: false });
  if (!entry) return false;
  const existing = statSync(target, { throwIfNoEntry: false });
  if (!existing) throw new InputError("is a link that leads nowhere");
  if (!existing.isDirectory()) throw new InputError("must be a folder, and is a file");
  return true;
}

/** Whether there is a file of that name, which may be replaced. */
function isReplaced(path: string, name: string, force: boolean): boolean {
  const entry = lstatSync(path, { throwIfNoEntry: false });
  if (!entry) return false;
  if (!entry.isFile()) throw new InputError(`${name} in it is not a plain file and is not replaced`);
  if (!force) throw new InputError(`already holds ${name}; give --force to replace it`);
  if ((entry.mode & 0o222) === 0) throw new InputError(`${name} in it is write-protected`);
  return true;
}

function entriesOf(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/** Files of a kind in a folder that are not of a set just written: they belong to another ring. */
export function leftOver(folder: string, files: FileSet, kind: RegExp): string[] {
  return entriesOf(folder).filter((name) => kind.test(name) && !Object.hasOwn(files, name));
}
