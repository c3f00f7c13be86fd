import type { ScanTable } from "../files/scanCsv.js";
import type { Comparison } from "../scan/compareRings.js";
import type { ScannedRing } from "../scan/scannedRing.js";
import { CAUTIONS } from "./cautions.js";
import {
  block,
  inMicrometres,
  lowestOf,
  millimetres,
  newtons,
  percent,
  place,
  type Row,
  warningsIn,
} from "./layout.js";
import { lightRow } from "./lightRow.js";

const plusMinus = (value: number, digits: number) => `± ${value.toFixed(digits)}`;
/** Outliers that are named one by one. */
const NAMED = 8;

/** The ring as scanned, as a page of text for a person; against its drawing, if there is one. */
export function report(ring: ScannedRing, table: ScanTable, comparison: Comparison | undefined): string {
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
    lightRow(light.passes, light.closure),
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
    ...warningsIn(warnings.map(({ message }) => message)),
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
