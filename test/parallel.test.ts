import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  mergeVariation,
  planVariation,
  type RingSpecInput,
  type TolerancesInput,
  type Variation,
  variation,
} from "../src/index.js";
import { runNode } from "./programs.js";
import { DEMO_RINGS } from "./rings.js";

/** Studies on threads, from the built package. */

const root = fileURLToPath(new URL("..", import.meta.url));
const built = (name: string) => join(root, "dist", name);

const SPEC: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 24 };
const TOLERANCES: TolerancesInput = {
  freeGap: 0.3,
  bore: { lower: -0.2, upper: 0.05 },
  lobes: [{ order: 3, tolerance: "5 um", phase: "30 deg" }],
};
/** Some of them butt; no whole number of tasks. */
const OPTIONS = { samples: 37, seed: 11, limits: { closedGap: { min: 0.2 } } };
const given = JSON.stringify([SPEC, TOLERANCES, OPTIONS]);
const whole = variation(SPEC, TOLERANCES, OPTIONS);

let folder: string;
beforeAll(() => {
  for (const name of ["index.js", "parallel.js", "parallel.cjs", "variationWorker.js"])
    if (!existsSync(built(name))) throw new Error("build first: npm run build");
  folder = mkdtempSync(join(tmpdir(), "camround-parallel-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What a program prints as JSON; it ends by itself, so no thread is left over. */
async function printed(name: string, text: string) {
  writeFileSync(join(folder, name), text);
  const { status, stdout, stderr } = await runNode(folder, [name]);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout);
}

const url = (name: string) => JSON.stringify(pathToFileURL(built(name)).href);
const MODULE = `import { planVariation, SpecError } from ${url("index.js")};
import { sliceInParallel, variationInParallel } from ${url("parallel.js")};
const [spec, tolerances, options] = ${given};
`;
const COMMON = `const { SpecError } = require(${JSON.stringify(built("index.cjs"))});
const { variationInParallel } = require(${JSON.stringify(built("parallel.cjs"))});
const [spec, tolerances, options] = ${given};
`;

describe.concurrent("camround/parallel", () => {
  test("gives what variation gives, on 1, 2 and 3 threads, and tells progress", async () => {
    const studies: { batch: Variation; progress: [number, number][] }[] = await printed(
      "threads.mjs",
      `${MODULE}
      const studies = [];
      for (const threads of [1, 2, 3]) {
        const progress = [];
        const onProgress = (...told) => progress.push(told);
        studies.push({ batch: await variationInParallel(spec, tolerances, { ...options, threads, onProgress }), progress });
      }
      console.log(JSON.stringify(studies));`,
    );
    expect(studies).toHaveLength(3);
    for (const { batch, progress } of studies) {
      expect(batch).toEqual(whole);
      const done = progress.map(([one]) => one);
      expect(done).toEqual([...new Set(done)].sort((one, other) => one - other));
      expect(done.length).toBeGreaterThan(1);
      expect(done.at(-1)).toBe(37);
      expect(progress.every(([, all]) => all === 37)).toBe(true);
    }
    expect(whole.variants.butts).toBeGreaterThan(0);
  });

  test("computes parts that join to the whole", async () => {
    const slices = await printed(
      "parts.mjs",
      `${MODULE}
      const plan = planVariation(spec, tolerances, options);
      const parts = [3, 1, 2].map((index) => sliceInParallel(plan, { index, of: 3 }, { threads: 1 }));
      console.log(JSON.stringify(await Promise.all(parts)));`,
    );
    expect(slices.map(({ from }: { from: number }) => from)).toEqual([24, 0, 12]);
    expect(slices[0].plan).toEqual(planVariation(SPEC, TOLERANCES, OPTIONS));
    expect(mergeVariation(slices)).toEqual(whole);
  });

  test("works from CommonJS", async () => {
    const { batch, name, field } = await printed(
      "common.cjs",
      `${COMMON}
      (async () => {
        const batch = await variationInParallel(spec, tolerances, { ...options, threads: 2 });
        const { name, field } = await variationInParallel(spec, {}).catch((error) => error);
        console.log(JSON.stringify({ batch, name, field }));
      })();`,
    );
    expect(batch).toEqual(whole);
    expect([name, field]).toEqual(["SpecError", "tolerances"]);
  });

  test("refuses with errors of the class that the main entry exports", async () => {
    const errors = await printed(
      "errors.mjs",
      `${MODULE}
      const plan = planVariation(spec, tolerances, options);
      const all = [
        variationInParallel(spec, {}),
        variationInParallel({ ...spec, bore: -1 }, tolerances),
        variationInParallel(spec, tolerances, { samples: 4 }),
        variationInParallel(spec, tolerances, { ...options, threads: 0 }),
        sliceInParallel(plan, { index: 4, of: 3 }),
        sliceInParallel(plan, { index: 1, of: 3 }, { threads: 1.5 }),
        variationInParallel(spec, { bore: { lower: -3.5, upper: -3 } }, { samples: 8, threads: 1 }),
      ].map((one) => one.catch((error) => [error instanceof SpecError, error.field]));
      console.log(JSON.stringify(await Promise.all(all)));`,
    );
    const fields = ["tolerances", "bore", "samples", "threads", "shard.index", "threads", "tolerances"];
    expect(errors).toEqual(fields.map((field) => [true, field]));
  });

  test("refuses a plan made by hand, past its checks, before a thread starts", async () => {
    // Lobes further than linear theory goes.
    const refused = await printed(
      "thread.mjs",
      `${MODULE}
      const plan = planVariation(spec, { lobes: [{ order: 2, tolerance: 0.1 }] }, { samples: 8 });
      const factors = plan.factors.map((factor) => ({ ...factor, lower: 3, upper: 3 }));
      const refused = await sliceInParallel({ ...plan, factors }, { index: 1, of: 1 }, { threads: 1 }).catch((error) => error);
      console.log(JSON.stringify([refused instanceof SpecError, refused.field, refused.message]));`,
    );
    expect(refused).toEqual([true, "plan", expect.stringMatching(/as from `planVariation`/)]);
  });

  test("takes no more threads than are allowed where the machine runs more at once", async () => {
    const variants = await printed(
      "large.mjs",
      `import os from "node:os";
      import { syncBuiltinESMExports } from "node:module";
      os.availableParallelism = () => 300;
      syncBuiltinESMExports();
      const { variationInParallel } = await import(${url("parallel.js")});
      const [spec, tolerances] = ${given};
      const { variants } = await variationInParallel(spec, tolerances, { samples: 8 });
      console.log(JSON.stringify(variants.all));`,
    );
    expect(variants).toBe(16);
  });

  test("throws NotFound and NoContact of the classes that the main entry exports", async () => {
    // The package as built, but for its threads' program, which answers as where no contact is found.
    const copy = join(folder, "refusing");
    cpSync(built("."), copy, { recursive: true });
    symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
    writeFileSync(join(copy, "package.json"), '{ "type": "module" }');
    const refusals = {
      1: { kind: "NotFound", message: "contact not found" },
      2: { kind: "NoContact", reason: "butts", value: 118, allowed: "must be wider" },
    };
    writeFileSync(
      join(copy, "variationWorker.js"),
      `export default ({ plan }) => (${JSON.stringify(refusals)})[plan.seed];`,
    );
    const errors = await printed(
      "refusing/errors.mjs",
      `import { NoContact, NotFound, planVariation } from "./index.js";
      import { sliceInParallel, variationInParallel } from "./parallel.js";
      const [spec, tolerances] = ${given};
      const part = (seed) =>
        sliceInParallel(planVariation(spec, tolerances, { samples: 8, seed }), { index: 1, of: 1 }, { threads: 1 });
      const whole = (seed) => variationInParallel(spec, tolerances, { samples: 8, seed, threads: 1 });
      const all = [part(1), whole(1), part(2), whole(2)].map((one) =>
        one.catch((error) => [error instanceof NotFound, error instanceof NoContact, error.message]));
      console.log(JSON.stringify(await Promise.all(all)));`,
    );
    const found = [true, false, "contact not found"];
    const contact = [false, true, "bore.diameter = 118: must be wider"];
    expect(errors).toEqual([found, found, contact, contact]);
  });

  test("ends its threads when a listener throws", async () => {
    const told = await printed(
      "listener.mjs",
      `${MODULE}
      const onProgress = () => { throw new Error("enough"); };
      const error = await variationInParallel(spec, tolerances, { ...options, threads: 2, onProgress }).catch((one) => one);
      console.log(JSON.stringify(error.message));`,
    );
    expect(told).toBe("enough");
  });

  test("is the one entry with Node built-ins, and the core has none of it", () => {
    expect(readFileSync(built("parallel.js"), "utf8")).toMatch(/node:|tinypool/);
    expect(readFileSync(built("index.js"), "utf8")).not.toMatch(/tinypool|worker_threads/);
  });
});
