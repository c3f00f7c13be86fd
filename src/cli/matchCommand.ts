import { basename } from "node:path";
import { type Matching, matchRings } from "../batch/matchRings.js";
import type { MatchOptions } from "../batch/matchSchema.js";
import type { BoreInput } from "../contact/boreSchema.js";
import type { GivenRing } from "../contact/givenRing.js";
import { ringFromScan } from "../scan/ringFromScan.js";
import { SpecError } from "../spec/error.js";
import type { RingSpecInput } from "../spec/schema.js";
import { CAUTIONS } from "./cautions.js";
import { InputError } from "./inputError.js";
import { block, millimetres, newtons, type Row } from "./layout.js";
import { readTable } from "./pointsSource.js";
import { refuseSpecFlags, ringFrom } from "./ringSource.js";
import { type Flags, readJson, specFlags, specFrom } from "./specSource.js";

interface MatchFlags {
  spec?: string;
  bores?: string;
  json?: boolean;
}

/** `camround match`. */
export function matchCommand(files: string[], flags: MatchFlags & Flags): void {
  const { bores: boresFile, spec: specFile, ...rest } = flags;
  if (boresFile === undefined) throw new InputError("--bores must name a JSON file with the bores");
  const { bores, ...options } = readJson(boresFile, "--bores");
  const given = specFlags(rest);
  const told = [...(specFile === undefined ? [] : ["spec"]), ...Object.keys(given)];
  if (files.every(isJson)) refuseSpecFlags(told, "rings as JSON, which hold their own spec");
  const spec = told.length === 0 ? undefined : specFrom(specFile, given);
  const rings = files.map((file) => ringOf(file, spec));
  const matching = matchRings(rings, bores as BoreInput[], options as MatchOptions);
  process.stdout.write(
    flags.json ? `${JSON.stringify({ rings: files, ...matching })}\n` : report(files, matching),
  );
}

const isJson = (file: string) => /\.json$/i.test(file);

/** A ring from points, or from JSON as scan or design print it. */
function ringOf(file: string, spec: RingSpecInput | undefined): GivenRing {
  try {
    if (isJson(file)) return ringFrom(readJson(file, "RING") as unknown as RingSpecInput, undefined);
    if (spec === undefined) throw new InputError("--spec must name the ring that the points should be of");
    return ringFromScan(readTable(file).points, { spec });
  } catch (error) {
    if (error instanceof SpecError) throw new InputError(`RING = ${JSON.stringify(file)}: ${error.message}`);
    throw error;
  }
}

function report(files: readonly string[], { matches, spareRings, emptyBores }: Matching): string {
  const name = (ring: number) => basename(files[ring]);
  const rows = matches.map(
    ({ ring, bore, closedGap, tangentialForce, contactShare }): Row => [
      `bore ${bore + 1}`,
      name(ring),
      `gap ${millimetres(closedGap)}, Ft ${newtons(tangentialForce)}, ${(100 * contactShare).toFixed(1)} % light-tight`,
    ],
  );
  const sections = [
    matches.length > 0
      ? block("Rings for the bores", rows)
      : "Rings for the bores\n  none of them may stand in any",
    ...(emptyBores.length > 0
      ? [
          `Bores without a ring\n  ${emptyBores.map((bore) => bore + 1).join(", ")}: no ring left that may stand there`,
        ]
      : []),
    ...(spareRings.length > 0 ? [`Rings left over\n  ${spareRings.map(name).join(", ")}`] : []),
    CAUTIONS,
  ];
  return `${sections.join("\n\n")}\n`;
}
