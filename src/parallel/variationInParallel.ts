import { availableParallelism } from "node:os";
import { Tinypool } from "tinypool";
import { summary, type Variation } from "../batch/summary.js";
import type { VariantOutcome } from "../batch/variants.js";
import type { VariationOptions } from "../batch/variation.js";
import { checkOptions, checkPlan, planVariation, type VariationPlan } from "../batch/variationPlan.js";
import type { TolerancesInput } from "../batch/variationSchema.js";
import { type Shard, samplesOf, type VariationSlice } from "../batch/variationSlice.js";
import { SpecError } from "../spec/error.js";
import type { RingSpecInput } from "../spec/schema.js";
import { errorOf, type Refusal } from "./refusal.js";
import type { Task } from "./worker.js";

/** How many threads do the work. */
export interface ThreadOptions {
  /** How many threads, 1 to 256; by default as many of these as the machine runs at once. */
  threads?: number;
  /** Called as samples are done, with how many of all. */
  onProgress?: (done: number, all: number) => void;
}

/** Samples to a task: some half a second's work, so that progress shows and no thread waits long for the last one. */
const TASK = 16;
const MOST_THREADS = 256;

/**
 * `variation` on worker threads: the same result, whatever their number.
 *
 * @param spec the ring as drawn
 * @param tolerances limit deviations
 * @param options as of `variation`, and threads, 1 to 256
 * @throws SpecError as `variation`, or for a number of threads that cannot be
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const batch = await variationInParallel(spec, { freeGap: 0.3 }, { samples: 8, threads: 2 });
 * batch.variants.all; // 16
 */
export async function variationInParallel(
  spec: RingSpecInput,
  tolerances: TolerancesInput,
  options: VariationOptions & ThreadOptions = {},
): Promise<Variation> {
  const { threads, onProgress, ...settings } = checkOptions(options);
  const plan = planVariation(spec, tolerances, settings);
  return summary(plan, await rowsInParallel(plan, 0, plan.samples, threads, onProgress));
}

/**
 * `variationSlice` on worker threads.
 *
 * @param plan from `planVariation`, or one read from a file
 * @param shard which part of how many, from 1
 * @param options threads, 1 to 256
 * @throws SpecError as `variationSlice`, or for a number of threads that cannot be
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const plan = planVariation(spec, { freeGap: 0.3 }, { samples: 8 });
 * const slice = await sliceInParallel(plan, { index: 1, of: 2 }, { threads: 1 });
 * slice.rows.length; // 4
 */
export async function sliceInParallel(
  plan: VariationPlan,
  shard: Shard,
  options: ThreadOptions = {},
): Promise<VariationSlice> {
  const { threads, onProgress } = checkOptions(options);
  checkPlan(plan);
  const [from, to] = samplesOf(plan, shard);
  return { plan, from, rows: await rowsInParallel(plan, from, to, threads, onProgress) };
}

async function rowsInParallel(
  plan: VariationPlan,
  from: number,
  to: number,
  threads = Math.min(availableParallelism(), MOST_THREADS),
  onProgress?: (done: number, all: number) => void,
): Promise<VariantOutcome[][]> {
  if (!(Number.isInteger(threads) && threads >= 1 && threads <= MOST_THREADS)) {
    throw new SpecError("threads", threads, `must be a whole number from 1 to ${MOST_THREADS}`);
  }
  const tasks = Array.from({ length: Math.ceil((to - from) / TASK) }, (_, k): Task => {
    const start = from + k * TASK;
    return { plan, from: start, to: Math.min(to, start + TASK) };
  });
  const pool = new Tinypool({
    filename: new URL("./variationWorker.js", import.meta.url).href,
    minThreads: Math.min(threads, tasks.length),
    maxThreads: Math.min(threads, tasks.length),
  });
  let done = 0;
  try {
    const rows = await Promise.all(
      tasks.map(async (task) => {
        const computed: VariantOutcome[][] | Refusal = await pool.run(task);
        if (!Array.isArray(computed)) throw errorOf(computed);
        done += computed.length;
        onProgress?.(done, to - from);
        return computed;
      }),
    );
    return rows.flat();
  } finally {
    await pool.destroy();
  }
}
