import { execFile } from "node:child_process";
import { promisify } from "node:util";

/** Programs of others that read the library's files. */

const run = promisify(execFile);

/** What a program prints; it must end well. */
export async function output(program: string, args: readonly string[]): Promise<string> {
  const { stdout } = await run(program, args, { timeout: 50000, maxBuffer: 1 << 28 });
  return stdout;
}

/**
 * Whether a program answers, so that the tests by it can run. Says so when it does not, and fails where it must not be missing.
 *
 * @param what it is and how to get it, in words
 */
export async function answers(program: string, args: readonly string[], what: string): Promise<boolean> {
  const found = await run(program, args, { timeout: 30000 }).then(
    () => true,
    () => false,
  );
  if (found) return true;
  const missing = `${what} was not found`;
  if (process.env.CI) throw new Error(missing);
  console.warn(`${missing}; the tests by it are skipped.`);
  return false;
}
