import { Presets, SingleBar } from "cli-progress";
import { mergeVariation } from "../batch/mergeVariation.js";
import type { Variation } from "../batch/summary.js";
import { planVariation } from "../batch/variationPlan.js";
import type { Outcome, TolerancesInput, VariationSettings } from "../batch/variationSchema.js";
import type { Shard, VariationSlice } from "../batch/variationSlice.js";
import { sliceInParallel, type ThreadOptions } from "../parallel/variationInParallel.js";
import { SpecError } from "../spec/error.js";
import { OUTCOME_WORDS, shownFactors } from "../svg/variationWords.js";
import { CAUTIONS } from "./cautions.js";
import { InputError } from "./inputError.js";
import { block, percent, type Row } from "./layout.js";
import { lengthFlag } from "./lengthFlag.js";
import { type Flags, numberOrText, readJson, specFlags, specFrom } from "./specSource.js";
import { writeDrawing } from "./writeFile.js";

interface VaryFlags {
  tolerances?: string;
  samples?: string;
  seed?: string;
  sensitivity?: string;
  threads?: string;
  shard?: string;
  merge?: string[];
  svg?: string;
  json?: boolean;
}

/** `camround vary`. */
export async function varyCommand(file: string | undefined, flags: VaryFlags & Flags): Promise<void> {
  if (flags.merge !== undefined) {
    // A slice holds its whole study.
    const others = ["tolerances", "samples", "seed", "sensitivity", "threads", "shard"] as const;
    const other = others.find((flag) => flags[flag] !== undefined);
    if (other !== undefined)
      throw new InputError(`--merge and --${other} contradict each other: give one of them`);
    if (file !== undefined || Object.keys(specFlags(flags)).length > 0)
      throw new InputError("--merge joins parts that hold their spec: give none");
  }
  if (flags.shard !== undefined && flags.svg !== undefined)
    throw new InputError("--shard and --svg contradict each other: draw what --merge joins");
  const files = flags.merge ?? [];
  const slices = files.length > 0 ? files.map(sliceFrom) : [await computed(file, flags)];
  if (flags.shard !== undefined) {
    process.stdout.write(`${JSON.stringify(slices[0])}\n`);
    return;
  }
  const batch = merged(slices, files);
  if (flags.svg !== undefined) {
    const { renderVariation } = await import("../svg/renderVariation.js");
    writeDrawing(flags.svg, renderVariation(batch));
  }
  process.stdout.write(flags.json ? `${JSON.stringify(batch)}\n` : report(batch));
}

function sliceFrom(file: string): VariationSlice {
  const slice = readJson(file, "--merge") as Partial<VariationSlice>;
  if (
    typeof slice.plan === "object" &&
    slice.plan !== null &&
    typeof slice.from === "number" &&
    Array.isArray(slice.rows)
  ) {
    return slice as VariationSlice;
  }
  throw new InputError(`${partAt(file)}: must hold a slice as printed with --shard`);
}

const partAt = (file: string) => `--merge = ${JSON.stringify(file)}`;

/** @param files that the slices are from; an error names the one that is wrong */
function merged(slices: readonly VariationSlice[], files: readonly string[]): Variation {
  try {
    return mergeVariation(slices);
  } catch (error) {
    const [, index, field] = (error instanceof SpecError && /^slices\.(\d+)\.(.+)$/.exec(error.field)) || [];
    if (index === undefined || !(Number(index) in files)) throw error;
    const { value, allowed } = error as SpecError;
    throw new InputError(`${partAt(files[Number(index)])}: ${new SpecError(field, value, allowed).message}`);
  }
}

async function computed(file: string | undefined, flags: Omit<VaryFlags, "merge">): Promise<VariationSlice> {
  const { tolerances: tolerancesFile } = flags;
  if (tolerancesFile === undefined)
    throw new InputError("--tolerances must name a JSON file with the tolerances");
  const { limits, ...tolerances } = readJson(tolerancesFile, "--tolerances");
  const settings: VariationSettings = {
    ...(flags.samples !== undefined && { samples: numberOrText(flags.samples) as number }),
    ...(flags.seed !== undefined && { seed: numberOrText(flags.seed) as number }),
    ...(flags.sensitivity !== undefined && { sensitivity: lengthFlag("--sensitivity", flags.sensitivity) }),
    ...(limits !== undefined && { limits: limits as NonNullable<VariationSettings["limits"]> }),
  };
  const spec = specFrom(file, specFlags(flags));
  const plan = planVariation(spec, tolerances as TolerancesInput, settings);
  const shard = flags.shard === undefined ? { index: 1, of: 1 } : shardOf(flags.shard);
  // Only a person who watches needs it.
  const bar = process.stderr.isTTY
    ? new SingleBar(
        { format: "{bar} {percentage} %, {value} of {total} samples, {eta_formatted} left" },
        Presets.shades_classic,
      )
    : undefined;
  bar?.start(plan.samples, 0);
  const threads: ThreadOptions = {
    ...(flags.threads !== undefined && { threads: numberOrText(flags.threads) as number }),
    onProgress: (done, all) => {
      bar?.setTotal(all);
      bar?.update(done);
    },
  };
  try {
    return await sliceInParallel(plan, shard, threads);
  } finally {
    bar?.stop();
  }
}

function shardOf(text: string): Shard {
  const [, index, of] = /^(\d+)\/(\d+)$/.exec(text.trim()) ?? [];
  if (index === undefined)
    throw new InputError(`--shard = ${JSON.stringify(text)}: must be as 2/8, the second of eight`);
  return { index: Number(index), of: Number(of) };
}

/** How each outcome is told besides its words: its unit in a report with its size in the library's, and decimals. */
const TOLD: Readonly<Record<Outcome, { digits: number; unit?: string; size?: number }>> = {
  tangentialForce: { digits: 3 },
  freeGap: { digits: 3 },
  closedGap: { digits: 3 },
  lowestPressure: { digits: 4 },
  highestPressure: { digits: 4 },
  contactShare: { digits: 2, unit: "%", size: 0.01 },
  closingStress: { digits: 0 },
};

function report(batch: Variation): string {
  const { plan, variants, outcomes, inside, evaluations, samplesUsed } = batch;
  const failing = [
    ...(variants.butts > 0 ? [`${variants.butts} whose ends butt`] : []),
    ...(variants.loose > 0 ? [`${variants.loose} loose in the bore`] : []),
  ];
  const told = (Object.keys(OUTCOME_WORDS) as Outcome[]).map((outcome) => {
    const { words, symbol, unit: own = "" } = OUTCOME_WORDS[outcome];
    const { digits, unit = own, size = 1 } = TOLD[outcome];
    return { outcome, words: symbol === undefined ? words : `${words} ${symbol}`, unit, size, digits };
  });
  const rows = told.map(({ outcome, words, unit, size, digits }): Row => {
    const { nominal, mean, standardDeviation, percentiles } = outcomes[outcome];
    const show = (value: number) => (value / size).toFixed(digits);
    const at = (percent: number) =>
      show(percentiles.find((one) => one.percent === percent)?.value ?? Number.NaN);
    return [
      `${words}, ${unit}`,
      show(mean),
      `± ${show(standardDeviation)}; 1 % below ${at(1)}, half below ${at(50)}, 99 % below ${at(99)}; as drawn ${show(nominal)}`,
    ];
  });
  const limits = told.flatMap(({ outcome, words, unit, size, digits }): Row[] => {
    const limit = plan.limits[outcome];
    if (!limit) return [];
    const ends = [limit.min, limit.max].map((value) =>
      value === undefined ? "…" : (value / size).toFixed(digits),
    );
    return [[words, percent(outcomes[outcome].inside), `from ${ends[0]} to ${ends[1]} ${unit}`]];
  });
  const sections = [
    "The spread of a batch",
    block("Study", [
      [
        "variants",
        String(variants.all),
        failing.length > 0 ? failing.join(", ") : "all of them close in their bores",
      ],
      ["contacts computed", String(evaluations), `seed ${plan.seed}`],
      ...plan.factors.map(
        ({ name, lower, upper, distribution }): Row => [
          name,
          `${lower} to ${upper} ${name === "youngsModulus" ? "MPa" : "mm"}`,
          `${distribution === "normal" ? "normal, limits at three standard deviations" : "uniform"}`,
        ],
      ),
    ]),
    block("Outcomes: mean, standard deviation, percentiles", rows),
    ...(limits.length > 0 ? [block("Within limits", [...limits, ["all of them", percent(inside)]])] : []),
    ...told.flatMap(({ outcome, words }) => {
      const indices = shownFactors(outcomes[outcome]);
      if (indices.length === 0) return [];
      return block(
        `What the ${words} owes to each, in shares of its variance (${samplesUsed} samples)`,
        indices.map(
          ([name, { first, firstError, total, totalError }]): Row => [
            name,
            `${total.toFixed(3)} ± ${totalError.toFixed(3)}`,
            `in all; ${Math.max(0, first).toFixed(3)} ± ${firstError.toFixed(3)} by itself`,
          ],
        ),
      );
    }),
    CAUTIONS,
  ];
  return `${sections.join("\n\n")}\n`;
}
