import type { Command } from "commander";

/** Errors come out through `run`, as one line. */
export function quiet(command: Command): Command {
  return command.exitOverride().configureOutput({ outputError: () => {} });
}
