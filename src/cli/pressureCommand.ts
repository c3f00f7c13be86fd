import type { GivenRing } from "../contact/givenRing.js";
import { type MadePressure, pressureOf } from "../contact/pressureOf.js";
import { CAUTIONS } from "./cautions.js";
import { block, degrees, type Row } from "./layout.js";
import { ringFrom, ringSource } from "./ringSource.js";
import { type Flags, specFlags } from "./specSource.js";

interface PressureFlags extends Flags {
  json?: boolean;
  freeRadius?: string;
}

/** `camround pressure`. */
export function pressureCommand(file: string | undefined, flags: PressureFlags): void {
  const ring = ringFrom(ringSource(file, specFlags(flags)), flags.freeRadius, "curvature");
  const made = pressureOf(ring);
  process.stdout.write(flags.json ? `${JSON.stringify({ spec: ring.spec, ...made })}\n` : report(ring, made));
}

/** Steps of the printed table, degrees. */
const STEP = 15;

function report({ spec }: GivenRing, { theta, pressure, ends, lifts, touches }: MadePressure): string {
  const megapascals = (value: number) => `${value.toFixed(4)} MPa`;
  const rows: Row[] = [];
  for (let angle = -180; angle <= 180; angle += STEP) {
    const wanted = (angle * Math.PI) / 180;
    let at = 0;
    for (let i = 1; i < theta.length; i++) {
      if (Math.abs(theta[i] - wanted) < Math.abs(theta[at] - wanted)) at = i;
    }
    rows.push([degrees(theta[at]), megapascals(pressure[at])]);
  }
  const end = (name: "left" | "right"): Row[] => [
    [
      `couple at the ${name} end`,
      `${ends[name].couple.toFixed(2)} N·mm`,
      ends[name].meets
        ? "none needed: the end is free"
        : "nothing in a bore can give it: the end will not lie so",
    ],
    [`force on the ${name} tip`, `${ends[name].force.toFixed(4)} N`, "inward positive"],
  ];
  const verdict = touches
    ? "The ring touches its bore all round."
    : "The ring does not touch all round; the pressure above is the one it would need to.";
  return `${[
    `Pressure of a free ring closed in its round bore of ${spec.bore} mm, ${spec.theory} bar theory`,
    block("Pressure, stations nearest to every 15° from the back", rows),
    block("Ends", [...end("right"), ...end("left")]),
    ...(lifts.length > 0
      ? [
          block(
            "It would lift",
            lifts.map(({ from, to, lowest }) => [
              `from ${degrees(from)} to ${degrees(to)}`,
              megapascals(lowest),
              "lowest",
            ]),
          ),
        ]
      : []),
    verdict,
    CAUTIONS,
  ].join("\n\n")}\n`;
}
