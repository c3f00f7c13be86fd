import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { JUDGES } from "./judges.js";

/**
 * Changes the mechanics in thousands of small ways, and counts how many of them the tests notice: `npm run mutation`, or
 * `npm run mutation -- forces shape` for some of the steps. A step takes one to ten minutes, the contact a little more;
 * the survivors stand in coverage/mutation.
 */

/** Share of the changes that the tests must notice. */
const WANTED = 0.85;

const asked = process.argv.slice(2);
const steps = asked.length > 0 ? asked : Object.keys(JUDGES);
const total = { noticed: 0, all: 0 };
console.log("step        changes  noticed  survived  in untested places");
for (const step of steps) {
  const { status } = spawnSync("npx", ["stryker", "run", "test/mutation/stryker.config.mjs"], {
    env: { ...process.env, MUTATED: step },
    stdio: ["ignore", "ignore", "inherit"],
  });
  if (status !== 0) throw new Error(`the run over ${step} did not end well`);
  const { files } = JSON.parse(readFileSync(`coverage/mutation/${step}.json`, "utf8"));
  const states = Object.values(files).flatMap(({ mutants }) => mutants.map((mutant) => mutant.status));
  const count = (...wanted) => states.filter((state) => wanted.includes(state)).length;
  const [noticed, survived, untested] = [count("Killed", "Timeout"), count("Survived"), count("NoCoverage")];
  const all = noticed + survived + untested;
  total.noticed += noticed;
  total.all += all;
  const share = `${((100 * noticed) / all).toFixed(1)} %`;
  console.log(
    [
      step.padEnd(11),
      `${all}`.padStart(7),
      share.padStart(8),
      `${survived}`.padStart(9),
      `${untested}`.padStart(9),
    ].join(" "),
  );
}
const score = total.noticed / total.all;
console.log(`in all ${total.all} changes, ${(100 * score).toFixed(1)} % noticed`);
if (score < WANTED) {
  console.error(`fewer than ${100 * WANTED} %`);
  process.exitCode = 1;
}
