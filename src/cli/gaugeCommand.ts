import { diametralTest } from "../gauge/diametralTest.js";
import { lightTest } from "../gauge/lightTest.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { CAUTIONS } from "./cautions.js";
import { block, degrees, inMicrometres, millimetres, newtons, type Row } from "./layout.js";
import { lightRow } from "./lightRow.js";
import { ringFrom, ringSource } from "./ringSource.js";
import { type Flags, specFlags } from "./specSource.js";

interface GaugeFlags extends Flags {
  json?: boolean;
  freeRadius?: string;
}

/** Shares of the opening at which the force is also given. */
const PART_CLOSED = [0, 0.25, 0.5, 0.75, 1];

/** `camround gauge`. */
export function gaugeCommand(file: string | undefined, flags: GaugeFlags): void {
  const ring = ringFrom(ringSource(file, specFlags(flags)), flags.freeRadius);
  const tape = tapeTest(ring);
  const diametral = diametralTest(ring);
  const ratio = diametral.force / tape.force;
  const { passes, limit, closure } = lightTest(ring);
  const { contactShare, lightGaps, sensitivity } = closure;
  const light = { passes, limit, contactShare, sensitivity, lightGaps };
  const curve = PART_CLOSED.map((share) => {
    const gap = tape.gap + share * (tape.freeGap - tape.gap);
    return { gap, tape: tapeTest(ring, { gap }).force, diametral: diametralTest(ring, { gap }).force };
  });
  if (flags.json) {
    process.stdout.write(`${JSON.stringify({ spec: ring.spec, tape, diametral, ratio, light, curve })}\n`);
    return;
  }
  const rows: Row[] = [
    ["tangential force Ft", newtons(tape.force), `tape, closed to ${millimetres(tape.gap)}`],
    ["ovality in the tape", millimetres(tape.ovality, 4), "through the gap minus across"],
    [
      "diametral force Fd",
      newtons(diametral.force),
      `plates ${millimetres(diametral.width)} apart, gap ${millimetres(diametral.gap)}`,
    ],
    ["Fd over Ft", ratio.toFixed(4)],
    lightRow(passes, light),
    ...lightGaps.map(
      ({ from, to, largest }): Row => [
        "  light",
        inMicrometres(largest),
        `from ${degrees(from)} to ${degrees(to)}`,
      ],
    ),
  ];
  const forces = curve.map(
    (at): Row => [
      millimetres(at.gap),
      newtons(at.tape),
      `by the tape, ${newtons(at.diametral)} by the plates`,
    ],
  );
  process.stdout.write(
    `${["Virtual gauges", block("Readings", rows), block("Force against the gap at mid wall", forces), CAUTIONS].join("\n\n")}\n`,
  );
}
