import { Command, CommanderError } from "commander";
import { NotFound } from "../numeric/notFound.js";
import { SpecError } from "../spec/error.js";
import { addBatchCommands } from "./batchCommands.js";
import { EXAMPLE_SPEC } from "./example.js";
import { InputError } from "./inputError.js";
import { quiet } from "./quiet.js";
import { addRingCommands } from "./ringCommands.js";
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
    const badInput = [CommanderError, InputError, SpecError, NotFound].some((kind) => error instanceof kind);
    const message = error instanceof Error ? error.message : String(error);
    const oneLine = message.replace(/^error: /, "").replace(/\s*\n\s*/g, " ");
    const hint = error instanceof NotFound ? "no answer for such a ring: " : "";
    process.stderr.write(`camround: ${hint}${oneLine}\n`);
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

  addRingCommands(program);
  addBatchCommands(program);
  quiet(program.command("example"))
    .description("Print a commented spec to start from.")
    .action(() => void process.stdout.write(EXAMPLE_SPEC));
  return program;
}
