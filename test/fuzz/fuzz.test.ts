import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { InputError } from "../../src/cli/inputError.js";
import { run } from "../../src/cli/program.js";
import { SpecError } from "../../src/index.js";
import { seeded } from "../scans.js";
import { anyText, spoiltJson, spoiltText, type Uniform } from "./mutate.js";
import { READERS, type Reader } from "./readers.js";

// The package's version and the threads' program stand beside the built program only.
vi.mock("../../src/cli/version.js", () => ({ VERSION: "0.0.0" }));
vi.mock("../../src/parallel/variationInParallel.js", async () => {
  const { variationSlice } = await import("../../src/batch/variationSlice.js");
  return {
    sliceInParallel: async (...[plan, shard]: Parameters<typeof variationSlice>) =>
      variationSlice(plan, shard),
  };
});

/**
 * Spoilt files: whatever is in them, a reader takes it or refuses it in one plain line, soon; the command line ends with status 0 or 2.
 * FUZZ_CASES says how many in all, FUZZ_SEED where to begin.
 */

const CASES = Number(process.env.FUZZ_CASES ?? 6000);
const SEED = Number(process.env.FUZZ_SEED ?? 1);
/** Nothing that is read may take longer, ms: ten times what the longest takes, a ring of 16 000 stations, as machines may be busy. */
const LONGEST = 40_000;
/** So many cases must go both ways. */
const ENOUGH = 100;
const LINE = /^[^\n]{1,700}$/;

/** A text to read, one in eight of any bytes. */
function spoilt(uniform: Uniform, { good, isJson }: Pick<Reader, "good" | "isJson">): string {
  const one = good[Math.floor(uniform() * good.length)];
  const way = uniform();
  if (way < 0.125) return anyText(uniform);
  return isJson && way < 0.7 ? spoiltJson(uniform, one) : spoiltText(uniform, one);
}

/** Runs something on one case after another, each with numbers of its own, so that one that fails can be run alone. */
function eachCase(count: number, salt: number, run: (uniform: Uniform, seed: number) => void): void {
  for (let k = 0; k < count; k++) {
    const seed = (SEED * 2_654_435_761 + salt * 40_503 + k * 69_069) >>> 0;
    run(seeded(seed), seed);
  }
}

const COST = READERS.reduce((sum, { every }) => sum + 1 / every, 0);

describe("Spoilt files", () => {
  test.each(READERS.map((reader, salt) => [reader.name, reader, salt] as const))(
    "are read or refused: %s",
    { timeout: 0 },
    (_, reader, salt) => {
      const taken = { read: 0, refused: 0 };
      const count = Math.ceil(CASES / COST / reader.every);
      eachCase(count, salt, (uniform, seed) => {
        const text = spoilt(uniform, reader);
        const start = performance.now();
        try {
          reader.read(text);
          taken.read++;
        } catch (error) {
          const isPlain = error instanceof SpecError || error instanceof InputError;
          const { message, stack } = error as Error;
          if (!isPlain || !LINE.test(message)) {
            throw new Error(
              `seed ${seed}: ${isPlain ? message : stack}\nreading ${JSON.stringify(text).slice(0, 3000)}`,
            );
          }
          taken.refused++;
        }
        expect(performance.now() - start, `seed ${seed}`).toBeLessThan(LONGEST);
      });
      // Both ways are gone, or the texts are too good or too bad to tell anything.
      if (count >= ENOUGH) expect(Math.min(taken.read, taken.refused)).toBeGreaterThan(0);
    },
  );
});

describe("The command line", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "camround-fuzz-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const readerOf = (name: string) => READERS.find((reader) => reader.name === name) as Reader;
  /** Commands by the kinds of files that they are given. */
  const COMMANDS: readonly (readonly [args: string[], ...files: string[]])[] = [
    [["design", "FILE", "--stations", "16"], "spec"],
    [["design", "FILE", "--stations", "16", "--json"], "spec"],
    [["pressure", "FILE"], "ring as JSON"],
    [["close", "FILE", "--bore", "FILE", "--stations", "16"], "spec", "bore"],
    [["gauge", "FILE"], "ring as JSON"],
    [["fit", "FILE", "--engine", "FILE", "--stations", "16"], "spec", "engine"],
    [["propose", "FILE"], "order"],
    [["make", "FILE", "--making", "FILE", "--out", "OUT", "--force"], "spec", "making"],
    [["make", "FILE", "--correction", "FILE", "--out", "OUT", "--force"], "spec", "correction"],
    [["scan", "FILE", "--spec", "FILE", "--stations", "16", "--draws", "0"], "scan", "spec"],
    [["vary", "FILE", "--tolerances", "FILE", "--samples", "8", "--stations", "16"], "spec", "tolerances"],
    [["vary", "--merge", "FILE"], "slice"],
    [["match", "FILE.json", "--bores", "FILE"], "ring as JSON", "bores to match"],
  ];

  /** Runs it in this process; status and what came on stderr. */
  async function outcome(args: string[]): Promise<{ status: number; told: string }> {
    const { stdout, stderr } = process;
    const [write, writeError] = [stdout.write, stderr.write];
    let told = "";
    stdout.write = (() => true) as typeof stdout.write;
    stderr.write = ((text: string) => {
      told += text;
      return true;
    }) as typeof stderr.write;
    try {
      return { status: await run(args), told };
    } finally {
      Object.assign(stdout, { write });
      Object.assign(stderr, { write: writeError });
    }
  }

  test("ends with status 0, or 2 and one plain line, whatever its files hold", { timeout: 0 }, async () => {
    const statuses = { 0: 0, 2: 0 };
    process.stdout.setMaxListeners(0);
    const count = Math.ceil(CASES / 200);
    for (let k = 0; k < count; k++) {
      const seed = (SEED * 2_654_435_761 + k * 69_069) >>> 0;
      const uniform = seeded(seed);
      const [args, ...kinds] = COMMANDS[k % COMMANDS.length];
      const spoiltOne = Math.floor(uniform() * kinds.length);
      const texts = kinds.map((kind, i) => {
        const reader = readerOf(kind);
        return i === spoiltOne ? spoilt(uniform, reader) : reader.good[0];
      });
      let next = 0;
      const files = args.map((arg) => {
        if (arg === "OUT") return join(folder, "out");
        if (!arg.startsWith("FILE")) return arg;
        const path = join(folder, `${next}${arg.slice(4)}`);
        writeFileSync(path, texts[next++]);
        return path;
      });
      const start = performance.now();
      const { status, told } = await outcome(files);
      const about = `seed ${seed}: ${args.join(" ")}\n${told}\nreading ${JSON.stringify(texts[spoiltOne]).slice(0, 3000)}`;
      if (!(status === 0 || status === 2)) throw new Error(about);
      expect(told, about).toMatch(status === 0 ? /^$/ : /^camround: [^\n]{1,900}\n$/);
      expect(performance.now() - start, about).toBeLessThan(6 * LONGEST);
      statuses[status]++;
    }
    if (count >= ENOUGH) expect(Math.min(statuses[0], statuses[2])).toBeGreaterThan(0);
  });
});
