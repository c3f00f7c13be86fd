import { Command, CommanderError, Option } from "commander";
import { conformability } from "../assess/conformability.js";
import { describePressure } from "../assess/describePressure.js";
import { designRing } from "../design/designRing.js";
import { endsInBand } from "../ends/endsInBand.js";
import { proveClosure } from "../proof/proveClosure.js";
import { SpecError } from "../spec/error.js";
import { readQuantity } from "../spec/quantity.js";
import { renderRing } from "../svg/renderRing.js";
import { EXAMPLE_SPEC } from "./example.js";
import { InputError } from "./inputError.js";
import { report } from "./report.js";
import { numberOrText, SPEC_FLAGS, specFrom } from "./specSource.js";
import { VERSION } from "./version.js";
import { writeTextFile } from "./writeFile.js";

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
    .action(designCommand);

  quiet(program.command("example"))
    .description("Print a commented spec to start from.")
    .action(() => void process.stdout.write(EXAMPLE_SPEC));
  return program;
}

/** Errors come out through `run`, as one line. */
function quiet(command: Command): Command {
  return command.exitOverride().configureOutput({ outputError: () => {} });
}

interface DesignFlags extends Record<string, string | boolean | undefined> {
  json?: boolean;
  allowNegative?: boolean;
  svg?: string;
  title?: string;
  heldGap?: string;
}

function designCommand(file: string | undefined, flags: DesignFlags): void {
  const spec = specFrom(file, byFlagName(flags));
  const design = designRing(spec, { allowNegativePressure: flags.allowNegative ?? false });
  const proof = proveClosure(design);
  const pressure = describePressure(design);
  const follows = conformability(design);
  const held = flags.heldGap === undefined ? undefined : endsInBand(design, openingFrom(flags.heldGap));
  // Everything is computed before anything is written.
  if (flags.svg !== undefined) {
    const drawing = renderRing(design, flags.title === undefined ? {} : { title: flags.title });
    try {
      writeTextFile(flags.svg, drawing);
    } catch (error) {
      throw new Error(`cannot write ${JSON.stringify(flags.svg)}: ${(error as Error).message}`);
    }
  }
  const output = flags.json
    ? `${JSON.stringify({ ...design, pressure, conformability: follows, proof, ...(held && { held }) })}\n`
    : report(design, proof, pressure, follows, held);
  process.stdout.write(output);
}

/** Back from the parser's names for them. */
function byFlagName(flags: DesignFlags): Record<string, string> {
  const named = SPEC_FLAGS.map(({ flag }) => [flag, flags[new Option(`--${flag}`).attributeName()]] as const);
  return Object.fromEntries(
    named.filter((entry): entry is [(typeof entry)[0], string] => entry[1] !== undefined),
  );
}

function openingFrom(text: string): number {
  const length = readQuantity(numberOrText(text), "length");
  if (typeof length !== "number") throw new SpecError("--held-gap", text, length.reason);
  return length;
}
