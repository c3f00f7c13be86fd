import { Presets, SingleBar } from "cli-progress";
import { mergeVariation, type Variation } from "../batch/variation.js";
import { planVariation, type Shard, type VariationSlice } from "../batch/variationPlan.js";
import type { Outcome, TolerancesInput, VariationSettings } from "../batch/variationSchema.js";
import { sliceInParallel, type ThreadOptions } from "../parallel/variationInParallel.js";
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
  const slices = flags.merge?.map(sliceFrom) ?? [await computed(file, flags)];
  if (flags.shard !== undefined) {
    process.stdout.write(`${JSON.stringify(slices[0])}\n`);
    return;
  }
  const batch = mergeVariation(slices);
  if (flags.svg !== undefined) {
    const { renderVariation } = await import("../svg/renderVariation.js");
    writeDrawing(flags.svg, renderVariation(batch));
  }
  process.stdout.write(flags.json ? `${JSON.stringify(batch)}\n` : report(batch));
}

function sliceFrom(file: string): VariationSlice {
  const slice = readJson(file, "--merge") as Partial<VariationSlice>;
  if (typeof slice.plan === "object" && typeof slice.from === "number" && Array.isArray(slice.rows)) {
    return slice as VariationSlice;
  }
  throw new InputError(`--merge ${JSON.stringify(file)}: must hold a slice as printed with --shard`);
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

/** Shares below this are not told; nor any where one of them is in such doubt. */
const SMALLEST = 0.01;
const MOST_DOUBT = 0.3;

/** How each outcome is told: words, unit, size of the unit in the library's, decimals. */
const TOLD: Readonly<Record<Outcome, readonly [words: string, unit: string, size: number, digits: number]>> =
  {
    tangentialForce: ["tangential force Ft", "N", 1, 3],
    freeGap: ["free gap m", "mm", 1, 3],
    closedGap: ["gap in the bore", "mm", 1, 3],
    lowestPressure: ["lowest pressure, off the ends", "MPa", 1, 4],
    highestPressure: ["highest pressure, off the ends", "MPa", 1, 4],
    contactShare: ["light-tight share", "%", 0.01, 2],
    closingStress: ["closing stress", "MPa", 1, 0],
  };

function report(batch: Variation): string {
  const { plan, variants, outcomes, inside, evaluations, samplesUsed } = batch;
  const failing = [
    ...(variants.butts > 0 ? [`${variants.butts} whose ends butt`] : []),
    ...(variants.loose > 0 ? [`${variants.loose} loose in the bore`] : []),
  ];
  const told = Object.entries(TOLD) as [Outcome, (typeof TOLD)[Outcome]][];
  const rows = told.map(([outcome, [words, unit, size, digits]]): Row => {
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
  const limits = told.flatMap(([outcome, [words, unit, size, digits]]): Row[] => {
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
    ...told.flatMap(([outcome, [words]]) => {
      const indices = Object.entries(outcomes[outcome].sensitivity).filter(
        ([, { total }]) => total > SMALLEST,
      );
      if (indices.length === 0 || indices.some(([, { totalError }]) => totalError > MOST_DOUBT)) return [];
      indices.sort(([, one], [, other]) => other.total - one.total);
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
