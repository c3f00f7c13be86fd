import type { Command } from "commander";
import { quiet } from "./quiet.js";
import { addSpecFlags } from "./specSource.js";

/** The commands for rings that were made, and for many. */
export function addBatchCommands(program: Command): void {
  const scan = quiet(program.command("scan"))
    .description(
      "A ring as measured: force, gap and light from points of it, against the drawing; what to change.",
    )
    .argument(
      "<POINTS.csv>",
      "points of the free ring; the first line names the columns: x_mm,y_mm or angle_deg,radius_mm",
    )
    .option(
      "--spec <SPEC.json>",
      "the ring that it should be; with a load it is also the drawing to compare with",
    )
    .option("--noise <length>", "standard deviation of the points, if it is known")
    .option("--length <by>", "closed gap by the spec (default) or by the outermost points")
    .option("--mirrored", "the ring lay the other way up")
    .option("--sensitivity <length>", "narrowest slit that shows light; 0.002 mm if not given")
    .option(
      "--draws <number>",
      "rings drawn at random within the band, for the chance to pass; 64 if not given",
    )
    .option("--svg <file>", "also draw deviation, pressure and correction")
    .option("--correction <file>", "also write what to change along the ring, as a table; make takes it")
    .option("--made-with <LAST.csv>", "the correction that the scanned ring was made with")
    .option("--json", "print the ring as JSON instead of the report");
  addSpecFlags(scan);
  scan
    .addHelpText(
      "after",
      `
Points may come in any order, place and direction, of the outer face or of the whole outline; units are in, mm, um, thou …, deg, rad.

Example:
  $ camround scan points.csv --spec ring.json --svg scan.svg --correction next.csv`,
    )
    .action(async (file, flags) => (await import("./scanCommand.js")).scanCommand(file, flags));

  const vary = quiet(program.command("vary"))
    .description(
      "The spread of a batch: force, pressure, gap, light and stress over the tolerances, and which of them does it.",
    )
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--tolerances <T.json>", "limit deviations, and limits on the outcomes")
    .option("--samples <number>", "pairs of independent variants; 256 if not given; powers of two serve best")
    .option("--seed <number>", "of the sequence; 1 if not given")
    .option("--sensitivity <length>", "narrowest slit that shows light; 0.002 mm if not given")
    .option("--threads <number>", "as many as the machine has if not given; the result does not depend on it")
    .option("--shard <i/n>", "compute one part of n only, and print it as JSON")
    .option("--merge <files...>", "join the parts of a study, instead of computing one")
    .option("--svg <file>", "also draw distributions and sensitivities")
    .option("--json", "print everything as JSON instead of the report");
  addSpecFlags(vary);
  vary
    .addHelpText(
      "after",
      `
A tolerance file; each may be plus or minus a number, or limits: { "lower": -0.02, "upper": 0, "distribution": "uniform" }
  { "radialThickness": 0.02, "axialHeight": { "lower": -0.02, "upper": 0 }, "youngsModulus": "5 GPa", "freeGap": 0.3,
    "closedGap": { "lower": 0, "upper": 0.1 }, "bore": "20 um", "bendRadius": [{ "order": 3, "tolerance": 0.05 }],
    "lobes": [{ "order": 4, "tolerance": "5 um" }],
    "limits": { "tangentialForce": { "min": 16, "max": 19 }, "contactShare": { "min": 1 } } }

Examples:
  $ camround vary ring.json --tolerances tolerances.json --svg spread.svg
  $ camround vary ring.json --tolerances tolerances.json --shard 2/8 > part2.json      on any machine
  $ camround vary --merge part1.json part2.json …`,
    )
    .action(async (file, flags) => (await import("./varyCommand.js")).varyCommand(file, flags));

  const match = quiet(program.command("match"))
    .description("Which of the measured rings goes into which bore of an engine, by gap and force.")
    .argument("<RINGS...>", "points of each ring, or JSON as printed by scan --json or design --json")
    .option("--bores <BORES.json>", "the bores as measured, and what is wanted of gap and force")
    .option("--spec <SPEC.json>", "the ring that the points should be of")
    .option("--json", "print everything as JSON instead of the report");
  addSpecFlags(match);
  match
    .addHelpText(
      "after",
      `
A file of bores; all but the bores may be left out:
  { "bores": [{ "diameter": 118.012 }, { "diameter": 117.996 }], "closedGap": 0.45, "gapTolerance": 0.05,
    "tangentialForce": 17.7, "forceTolerance": 1.5, "leastGap": 0.4, "leastContactShare": 1 }

Example:
  $ camround match ring1.csv ring2.csv ring3.csv --spec ring.json --bores bores.json`,
    )
    .action(async (files, flags) => (await import("./matchCommand.js")).matchCommand(files, flags));
}
