import { designRing } from "../design/designRing.js";
import type { ScanTable } from "../files/scanCsv.js";
import { changedRing } from "../making/changedRing.js";
import { type Comparison, compareRings } from "../scan/compareRings.js";
import { ringFromScan, type ScanOptions } from "../scan/ringFromScan.js";
import type { ScannedRing } from "../scan/scannedRing.js";
import type { RingSpecInput } from "../spec/schema.js";
import { correctionFrom } from "./correctionSource.js";
import { InputError } from "./inputError.js";
import { lengthFlag } from "./lengthFlag.js";
import { readTable } from "./pointsSource.js";
import { report } from "./scanReport.js";
import { type Flags, numberOrText, specFlags, specFrom } from "./specSource.js";
import { differentFiles, writeDrawings } from "./writeFile.js";

interface ScanFlags extends Flags {
  spec?: string;
  noise?: string;
  length?: string;
  mirrored?: boolean;
  sensitivity?: string;
  draws?: string;
  svg?: string;
  correction?: string;
  madeWith?: string;
  json?: boolean;
}

const MISSING = "--spec must name the ring that it should be, or flags such as --bore must tell it";

/** `camround scan`. */
export async function scanCommand(file: string, flags: ScanFlags): Promise<void> {
  const { spec: specFile, ...rest } = flags;
  const { svg, correction } = flags;
  differentFiles({ svg, correction });
  const spec = specFrom(specFile, specFlags(rest), { file: "--spec", missing: MISSING });
  const table = readTable(file);
  const ring = ringFromScan(table.points, { spec, ...settingsOf(flags) });
  const drawn = (spec as Partial<RingSpecInput>).load === undefined ? undefined : designRing(spec);
  const last = correctionFrom("--made-with", flags.madeWith);
  const commanded = last && drawn && changedRing(drawn, last);
  const comparison = drawn && compareRings(ring, drawn, commanded && { commanded });
  for (const [flag, value] of Object.entries({
    svg: flags.svg,
    correction: flags.correction,
    "made-with": last,
  })) {
    if (value !== undefined && !comparison) {
      throw new InputError(`--${flag} needs a drawing to compare with: a spec with a load`);
    }
  }
  const files: [string, string][] = [];
  if (comparison && flags.svg !== undefined) {
    const { renderComparison } = await import("../svg/renderComparison.js");
    files.push([flags.svg, renderComparison(comparison)]);
  }
  if (comparison && flags.correction !== undefined) {
    const { correctionCsv } = await import("../files/correctionCsv.js");
    files.push([flags.correction, correctionCsv(comparison)]);
  }
  writeDrawings(files);
  process.stdout.write(
    flags.json ? `${JSON.stringify(asData(ring, table, comparison))}\n` : report(ring, table, comparison),
  );
}

/** The ring with the chief results first and, beside the indices of points, the lines that they stand on. */
function asData(ring: ScannedRing, { lines, every }: ScanTable, comparison: Comparison | undefined) {
  const { load, free, scan } = ring;
  const { outliers, duplicates } = scan.points;
  return {
    tangentialForce: load.tangentialForce,
    freeGap: free.gap,
    contactShare: scan.light.closure.contactShare,
    table: {
      every,
      outlierLines: outliers.map(({ index }) => lines[index]),
      duplicateLines: duplicates.map((index) => lines[index]),
    },
    ...ring,
    ...(comparison && { comparison }),
  };
}

/** Rings drawn at random within the band, unless told otherwise. */
const DRAWS = 64;

function settingsOf(flags: ScanFlags): Omit<ScanOptions, "spec"> {
  return {
    ...(flags.noise !== undefined && { noise: lengthFlag("--noise", flags.noise) }),
    ...(flags.sensitivity !== undefined && { sensitivity: lengthFlag("--sensitivity", flags.sensitivity) }),
    ...(flags.length !== undefined && { length: flags.length as "spec" | "points" }),
    ...(flags.mirrored && { mirrored: true }),
    draws: flags.draws === undefined ? DRAWS : (numberOrText(flags.draws) as number),
  };
}
