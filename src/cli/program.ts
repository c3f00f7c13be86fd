import { Command, CommanderError } from "commander";
import { SpecError } from "../spec/error.js";
import { EXAMPLE_SPEC } from "./example.js";
import { InputError } from "./inputError.js";
import { MAKING_FLAGS } from "./makingSource.js";
import { SPEC_FLAGS } from "./specSource.js";
import { VERSION } from "./version.js";

/** Exit statuses: bad input is the user's to mend; anything else is not. */
const DONE = 0;
const FAILED = 1;
const BAD_INPUT = 2;

/**
 * Runs the command line.
 *
 * @param args arguments without node and script
 * @returns the exit status
 */
export async function run(args: string[]): Promise<number> {
  // A reader that closes the pipe early, as `head` does, is no failure.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(DONE);
  });
  try {
    await commandLine().parseAsync(args.length > 0 ? args : ["--help"], { from: "user" });
    return DONE;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return DONE;
    const badInput = [CommanderError, InputError, SpecError].some((kind) => error instanceof kind);
    const message = error instanceof Error ? error.message : String(error);
    const oneLine = message.replace(/^error: /, "").replace(/\s*\n\s*/g, " ");
    process.stderr.write(`camround: ${oneLine}\n`);
    return badInput ? BAD_INPUT : FAILED;
  }
}

/** Each command brings what it needs when it runs, so that none waits for the others. */
function commandLine(): Command {
  const program = new Command("camround")
    .description("Designs split rings that are cam-shaped when free and a true circle in their bore.")
    .version(VERSION)
    .addHelpText(
      "after",
      `
A first ring needs no file:
  $ camround design --bore "118 mm" --gap 0.45 --wall 4.4 --height 2 --modulus "205 GPa" --pressure 0.15

Or write a spec, change it and draw it:
  $ camround example > ring.json
  $ camround design ring.json --svg ring.svg`,
    );
  quiet(program);

  const design = quiet(program.command("design"))
    .description("Design a ring from a spec: free shape, ends, forces, stress and a proof that it closes.")
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--json", "print the whole design as JSON instead of the report")
    .option("--svg <file>", "also write a drawing of the free ring over the closed one")
    .option("--title <text>", "title of the drawing")
    .option(
      "--allow-negative",
      "show a pressure that is negative somewhere, with a warning, instead of refusing it",
    )
    .option("--held-gap <length>", "also give the end faces of the ring held by a band at this opening");
  for (const { flag, value, help } of SPEC_FLAGS) design.option(`--${flag} <${value}>`, help);
  design
    .addHelpText(
      "after",
      `
Lengths, forces and pressures are numbers in mm, N and MPa, or carry a unit: "118 mm", "3.5 in", "18 thou",
"2.7 lbf", "22 psi", "205 GPa". Exactly one load: --force, --pressure or --free-gap.

Examples:
  $ camround design ring.json
  $ camround design ring.json --free-gap "12 mm" --json > ring-design.json
  $ camround design ring.json --held-gap "5 mm"      angles for cutting the gap with the ring held at 5 mm`,
    )
    .action(async (file, flags) => (await import("./designCommand.js")).designCommand(file, flags));

  const pressure = quiet(program.command("pressure"))
    .description(
      "Backwards: the pressure that a free ring makes in its round bore, as long as it touches all round.",
    )
    .argument("[RING.json]", "a design as printed by design --json, or a spec together with --free-radius")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--json", "print pressure and moment at every station as JSON instead of the report");
  for (const { flag, value, field, help } of SPEC_FLAGS) {
    if (field[0] !== "load" && field[0] !== "pressure") pressure.option(`--${flag} <${value}>`, help);
  }
  pressure
    .addHelpText(
      "after",
      `
Examples:
  $ camround design ring.json --json > design.json && camround pressure design.json
  $ camround pressure ring.json --free-radius "59 mm"      the same wire, turned or coiled round`,
    )
    .action(async (file, flags) => (await import("./pressureCommand.js")).pressureCommand(file, flags));

  const close = quiet(program.command("close"))
    .description(
      "Close a ring in a bore that may be out of round: pressure, light gaps, the gap as it comes out.",
    )
    .argument("[RING.json]", "a spec, or a design as printed by design --json")
    .option("--bore <BORE.json>", "the bore: diameter, harmonics, samples, rotation, backPressure")
    .option("--sensitivity <length>", "narrowest slit that shows light; 0.002 mm if not given")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--svg <file>", "also write a picture of the pressure along the circumference")
    .option("--json", "print everything as JSON instead of the report");
  for (const { flag, value, help } of SPEC_FLAGS) {
    if (flag !== "bore") close.option(`--${flag} <${value}>`, help);
  }
  close
    .addHelpText(
      "after",
      `
A bore with four lobes of 5 µm, its radius diameter/2 + Σ amplitude·cos(order·θ − phase), θ from the ring's back:
  { "diameter": "118 mm", "harmonics": [{ "order": 4, "amplitude": 0.005, "phase": 0 }], "rotation": "10 deg" }`,
    )
    .action(async (file, flags) => (await import("./closeCommand.js")).closeCommand(file, flags));

  const gauge = quiet(program.command("gauge"))
    .description("The virtual gauges: tape, diametral plates, light.")
    .argument("[RING.json]", "a spec, or a design as printed by design --json")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--json", "print the readings as JSON instead of the report");
  for (const { flag, value, help } of SPEC_FLAGS) gauge.option(`--${flag} <${value}>`, help);
  gauge.action(async (file, flags) => (await import("./gaugeCommand.js")).gaugeCommand(file, flags));

  const make = quiet(program.command("make"))
    .description(
      "Write what the shop needs to make the ring: job sheet, outline, template, coiling, cam, ends.",
    )
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--out <folder>", "folder for the files; it is made if it is not there")
    .option(
      "--making <MAKING.json>",
      "how the ring is made: allowances, coiling, cam, gap, heatSet, page, tolerance",
    )
    .option("--force", "replace files that are there already")
    .option("--json", "print the whole plan as JSON instead of the job sheet");
  for (const { flag, value, help } of [...MAKING_FLAGS, ...SPEC_FLAGS]) {
    // Here --force is for files; a tangential force stands in the spec.
    if (flag !== "force") make.option(`--${flag} <${value}>`, help);
  }
  make
    .addHelpText(
      "after",
      `
A making file, all of it optional:
  { "allowances": { "coating": { "outer": "20 um" }, "lapping": { "outer": "5 um", "sides": "10 um" } },
    "coiling": { "yieldStress": "1400 MPa", "density": "7850 kg/m3", "batch": 16, "kerf": 0.3, "grinding": 0.2 },
    "cam": { "centre": "minimumZone", "step": "1 deg", "spindleSpeed": 60, "noseRadius": 0.8 },
    "gap": { "filingStock": 0.05, "heldGap": 5, "gapTolerance": 0.05 },
    "heatSet": { "remaining": 0.1, "before": "58 mm" }, "page": "A4", "tolerance": "1 um" }

Example:
  $ camround make ring.json --out ring-files`,
    )
    .action(async (file, flags) => (await import("./makeCommand.js")).makeCommand(file, flags));

  const fit = quiet(program.command("fit"))
    .description("The ring in its engine: section, spreading it over the piston, groove, heat.")
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--engine <ENGINE.json>", "piston with its groove, temperatures, tolerances of the ring")
    .option("--svg <file>", "also draw closing and fitting stress over the free gap")
    .option("--json", "print everything as JSON instead of the report");
  for (const { flag, value, help } of SPEC_FLAGS) fit.option(`--${flag} <${value}>`, help);
  fit
    .addHelpText(
      "after",
      `
An engine file, all of it optional; a dimension may be one length or [smallest, largest]:
  { "piston": { "diameter": "117.4 mm", "groove": { "width": [2.04, 2.06], "depth": 5.2 },
                "material": { "youngsModulus": 70000, "expansion": { "temperature": [300], "value": [2.1e-5] } }, "temperature": 160 },
    "heat": { "ring": { "temperature": 180 }, "bore": { "material": "EN-GJL-250", "temperature": 120 }, "keepGap": 0.1, "factor": 1.2 },
    "tolerance": { "wall": 0.05, "height": 0.01 } }`,
    )
    .action(async (file, flags) => (await import("./fitCommand.js")).fitCommand(file, flags));

  quiet(program.command("propose"))
    .description(
      "Propose rings for a groove: complete specs, ranked, with the limits that each meets or misses.",
    )
    .argument(
      "[ORDER.json]",
      "bore, piston with its groove, materials, closed gap or duty; stock, pressures, heat",
    )
    .option("--json", "print the proposals as JSON instead of the report")
    .addHelpText(
      "after",
      `
An order:
  { "bore": "118 mm", "piston": { "diameter": 117.4, "groove": { "width": [2.04, 2.06], "depth": 5.2 } },
    "materials": ["1.4112", "EN-GJS-500-7"], "duty": "water-cooled, moderate load" }`,
    )
    .action(async (file, flags) => (await import("./proposeCommand.js")).proposeCommand(file, flags));

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
    .option("--svg <file>", "also draw deviation, pressure and correction")
    .option("--correction <file>", "also write what to change along the ring, as a table")
    .option("--json", "print the ring as JSON instead of the report");
  for (const { flag, value, help } of SPEC_FLAGS) scan.option(`--${flag} <${value}>`, help);
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
  for (const { flag, value, help } of SPEC_FLAGS) vary.option(`--${flag} <${value}>`, help);
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

  quiet(program.command("example"))
    .description("Print a commented spec to start from.")
    .action(() => void process.stdout.write(EXAMPLE_SPEC));
  return program;
}

/** Errors come out through `run`, as one line. */
function quiet(command: Command): Command {
  return command.exitOverride().configureOutput({ outputError: () => {} });
}
