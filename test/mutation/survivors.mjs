import { readFileSync } from "node:fs";

/** Lists the changes that no test noticed: `node test/mutation/survivors.mjs forces`. */

for (const step of process.argv.slice(2)) {
  const { files } = JSON.parse(readFileSync(`coverage/mutation/${step}.json`, "utf8"));
  for (const [file, { source, mutants }] of Object.entries(files)) {
    const lines = source.split("\n");
    for (const { status, location, replacement } of mutants) {
      if (status !== "Survived" && status !== "NoCoverage") continue;
      const line = lines[location.start.line - 1].trim();
      console.log(
        `${file}:${location.start.line} ${status}\n  ${line}\n  → ${String(replacement).replace(/\s+/g, " ")}`,
      );
    }
  }
}
