import { type Browser, chromium } from "playwright-core";
import { answers } from "./programs.js";

/** A browser that others made. */

const program = process.env.CHROMIUM ?? "/usr/bin/chromium";
export const hasBrowser: boolean = await answers(
  program,
  ["--version"],
  `the browser ${program} (Debian: chromium; or name one in CHROMIUM)`,
);

/** Starts it, without what it would do of its own accord. */
export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: program,
    args: [
      "--headless",
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}
