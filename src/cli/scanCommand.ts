import { designRing } from "../design/designRing.js";
import type { ScanTable } from "../files/scanCsv.js";
import { changedRing } from "../making/changedRing.js";
import { type Comparison, compareRings } from "../scan/compareRings.js";
import { ringFromScan, type ScanOptions } from "../scan/ringFromScan.js";
import type { ScannedRing } from "../scan/scannedRing.js";
import type { RingSpecInput } from "../spec/schema.js";
import { CAUTIONS } from "./cautions.js";
import { correctionFrom } from "./correctionSource.js";
import { InputError } from "./inputError.js";
import { block, inMicrometres, lowestOf, millimetres, newtons, percent, place, type Row } from "./layout.js";
import { lengthFlag } from "./lengthFlag.js";
import { readTable } from "./pointsSource.js";
import { type Flags, numberOrText, specFlags, specFrom } from "./specSource.js";
import { writeDrawings } from "./writeFile.js";

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

/** `camround scan`. */
export async function scanCommand(file: string, flags: ScanFlags): Promise<void> {
  const { spec: specFile, ...rest } = flags;
  const spec = specFrom(specFile, specFlags(rest));
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
    const { correctionCsv } = await import("../files/csv.js");
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

const plusMinus = (value: number, digits: number) => `± ${value.toFixed(digits)}`;
/** Outliers that are named one by one. */
const NAMED = 8;

function report(ring: ScannedRing, table: ScanTable, comparison: Comparison | undefined): string {
  const { scan, load, free, spec, warnings } = ring;
  const { points, band, light } = scan;
  const named = points.outliers.slice(0, NAMED).map(({ index }) => table.lines[index]);
  const rows: Row[] = [
    ["read", String(points.given), table.every > 1 ? `one row in ${table.every} of the file` : ""],
    ["on the outer face", String(points.outer), `${scan.spacing.toFixed(3)} mm apart on average`],
    ...(points.inner > 0
      ? [["on the inner face", String(points.inner), `${points.between} between them`] as Row]
      : []),
    [
      "set aside",
      String(points.outliers.length),
      named.length > 0
        ? `far off the face: line ${named.join(", ")}${points.outliers.length > NAMED ? ", …" : ""}`
        : "",
    ],
    ...(points.duplicates.length > 0
      ? [
          [
            "given twice",
            String(points.duplicates.length),
            `line ${points.duplicates
              .slice(0, NAMED)
              .map((i) => table.lines[i])
              .join(", ")}`,
          ] as Row,
        ]
      : []),
    ...(points.means === undefined
      ? []
      : [["fitted as means", String(points.means), "over short stretches"] as Row]),
    ["scatter about the face", inMicrometres(scan.noise), "standard deviation"],
    [
      "numbers that they settle",
      scan.freedom.toFixed(1),
      `waves of pressure up to order ${scan.highestOrder} looked for`,
    ],
  ];
  const lowest = lowestOf(ring.installed.pressure);
  const ringRows: Row[] = [
    ["tangential force Ft", newtons(load.tangentialForce), plusMinus(band.tangentialForce, 3)],
    ["free gap m", millimetres(free.gap), plusMinus(band.freeGap, 4)],
    ...(scan.wall === undefined
      ? []
      : [["radial wall thickness a1, as measured", millimetres(scan.wall)] as Row]),
    [
      "closed gap s1",
      millimetres(spec.closedGap),
      `the outermost points show ${millimetres(scan.closedGapShown)}, to about ${millimetres(2 * scan.spacing)}`,
    ],
    [
      "light test, round gauge",
      light.passes ? "passes" : "fails",
      `${percent(light.closure.contactShare)} tight at ${inMicrometres(light.closure.sensitivity)}; ${light.closure.lightGaps.length} light gaps`,
    ],
    ...(scan.chance
      ? [
          [
            "chance to pass",
            percent(scan.chance.passes),
            `of ${scan.chance.draws} rings that the points leave possible; ${percent(scan.chance.least)} to ${percent(scan.chance.most)} tight`,
          ] as Row,
        ]
      : []),
    [
      "lowest pressure",
      `${ring.installed.pressure[lowest].toFixed(4)} MPa`,
      place(ring.installed.theta[lowest]),
    ],
  ];
  const sections = [
    "The ring as scanned",
    block("Points", rows),
    block(`The ring, with what the points leave open in ${percent(scan.confidence)} of cases`, ringRows),
    ...(comparison ? [compared(comparison)] : []),
    ...(warnings.length > 0
      ? [["Warnings", ...warnings.map(({ message }) => `  ! ${message}`)].join("\n")]
      : []),
    CAUTIONS,
  ];
  return `${sections.join("\n\n")}\n`;
}

function compared({
  tangentialForce,
  freeGap,
  contactShare,
  largestDeviation,
  correction,
}: Comparison): string {
  const { before, now } = correction.bendRadius;
  const largest = now.reduce(
    (most, radius, i) => (Math.abs(radius - before[i]) > Math.abs(most) ? radius - before[i] : most),
    0,
  );
  return block("Against the drawing", [
    [
      "tangential force",
      newtons(tangentialForce.drawn),
      `as drawn, off by ${percent(tangentialForce.made / tangentialForce.drawn - 1)}`,
    ],
    ["free gap", millimetres(freeGap.drawn), `as drawn, off by ${millimetres(freeGap.made - freeGap.drawn)}`],
    ["light-tight share", percent(contactShare.drawn), "as drawn"],
    [
      "outer face off by",
      inMicrometres(largestDeviation),
      "at most, laid over the drawing as well as can be",
    ],
    [
      "known error",
      percent(correction.known),
      "of the ring's length bent otherwise than drawn, beyond doubt",
    ],
    [
      "next ring: bend radius",
      millimetres(largest),
      correction.share < 1
        ? `largest change, ${percent(correction.share)} of what it takes: the whole would leave the ring loose`
        : "largest change; --correction writes them all",
    ],
  ]);
}
