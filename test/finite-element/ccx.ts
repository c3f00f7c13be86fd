import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import type { Point } from "../../src/index.js";

/** CalculiX CrunchiX 2.20 (G. Dhondt), the general-purpose finite-element program, Debian's calculix-ccx. */
const program = process.env.CCX ?? "ccx";
const run = promisify(execFile);

/** Whether the program can be started; says so when it cannot, and fails where it must not be missing. */
export async function judgeIsInstalled(what: string): Promise<boolean> {
  // It may end a version report with a status other than 0.
  const report = await run(program, ["-v"]).catch((error: { stdout?: string }) => error);
  if (/version/i.test(report.stdout ?? "")) return true;
  const missing = "ccx (Debian: calculix-ccx) was not found; put it on PATH or name it in CCX";
  if (process.env.CI) throw new Error(missing);
  console.warn(`${missing}. ${what} by finite elements is skipped.`);
  return false;
}

/** Displacements of the printed nodes at full load. The program prints seven digits of them. */
export async function displacements(deck: string): Promise<Map<number, Point>> {
  const [moved] = await printed(deck, ["displacements"]);
  return moved;
}

/** The x and y of each kind of result of the printed nodes at full load, by the word that begins its heading. */
export async function printed(deck: string, kinds: readonly string[]): Promise<Map<number, Point>[]> {
  const folder = await mkdtemp(join(tmpdir(), "ring-judge-"));
  try {
    await writeFile(join(folder, "ring.inp"), deck);
    const { stdout } = await run(program, ["ring"], {
      cwd: folder,
      timeout: 100000,
      maxBuffer: 1 << 28,
    }).catch((error: { message: string; stdout?: string }) => {
      throw new Error(`${error.message}\n${(error.stdout ?? "").slice(-1000)}`);
    });
    const all = await readFile(join(folder, "ring.dat"), "utf8");
    return kinds.map((kind) => {
      const [heading, , ...lines] = all.slice(all.lastIndexOf(kind)).split("\n");
      const time = Number(heading.trim().split(/\s+/).at(-1));
      if (time !== 1) throw new Error(`stopped at ${time} of the load\n${stdout.slice(-1000)}`);
      const values = new Map<number, Point>();
      for (const line of lines) {
        const [node, x, y] = line.trim().split(/\s+/).map(Number);
        if (!node) break;
        values.set(node, [x, y]);
      }
      return values;
    });
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** A number as the program reads it: at most 20 characters, the rest would be dropped. */
export function number(value: number): string {
  return value.toExponential(12);
}
