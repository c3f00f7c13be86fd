import { readFileSync } from "node:fs";

/** Version of the installed package; the file stands one folder above the built program. */
export const VERSION: string = (
  JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as { version: string }
).version;
