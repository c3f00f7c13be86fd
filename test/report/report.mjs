/**
 * Renews docs/checks.md with its picture and docs/speed.md: `npm run report`, or `npm run report -- checks` or `-- speed` for one of them. Takes
 * some five minutes on a quiet machine; needs what `npm run test:fe`, `npm run test:outside` and the side-by-side benchmark need.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { checksPage, checksPicture } from "./checksPage.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Runs a program to its end; what it printed. */
function run(program, args, env = {}) {
  const { status, stdout, stderr } = spawnSync(program, args, {
    cwd: root,
    encoding: "utf8",
    env: { ...process.env, ...env },
    maxBuffer: 1e8,
  });
  if (status !== 0)
    throw new Error(`${[program, ...args].join(" ")} did not end well:\n${stdout}\n${stderr}`);
  return stdout;
}

/** The list of checks, which is written in TypeScript beside the tests. */
async function listOfChecks() {
  const { outputFiles } = await build({
    entryPoints: [join(root, "test/checks.ts")],
    bundle: true,
    format: "esm",
    platform: "node",
    write: false,
  });
  return (await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`)).CHECKS;
}

async function renewChecks() {
  const folder = mkdtempSync(join(tmpdir(), "camround-report-"));
  const REACHED_TO = join(folder, "reached.jsonl");
  writeFileSync(REACHED_TO, "");
  try {
    const checks = await listOfChecks();
    const own = Object.values(checks).map(({ test }) => test);
    const plain = [...new Set(own.filter((test) => test.split("/").length === 2 && test.endsWith(".ts")))];
    run("npx", ["vitest", "run", ...plain], { REACHED_TO });
    for (const suite of ["finite-element", "outside"]) {
      run("npx", ["vitest", "run", "--config", `test/${suite}/vitest.config.ts`], { REACHED_TO });
    }
    const lines = readFileSync(REACHED_TO, "utf8").trim().split("\n");
    const figures = lines.map((line) => JSON.parse(line));
    writeFileSync(join(root, "docs/checks.md"), checksPage(checks, figures));
    writeFileSync(join(root, "docs/pictures/checks.svg"), checksPicture(checks, figures));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const BENCHES = [
  [
    "design.mjs",
    "Designing",
    "The floor is the bare sine and cosine of every station: less no shape can cost.",
  ],
  [
    "alternatives.mjs",
    "Beside general-purpose programs",
    "The same ring, in one run. What the others compute is the shape alone.",
  ],
  ["contact.mjs", "Contact", ""],
  ["making.mjs", "Curves and making", ""],
  ["batch.mjs", "Measured rings and batches", ""],
];

function renewSpeed() {
  const parts = BENCHES.map(([file, title, words]) => {
    const printed = run(process.execPath, [`test/bench/${file}`]).trim();
    return `## ${title}\n\n${words === "" ? "" : `${words}\n\n`}\`node test/bench/${file}\`\n\n\`\`\`text\n${printed}\n\`\`\`\n`;
  });
  const [{ model }] = cpus();
  const machine = `Measured on ${cpus().length} × ${model.trim()}, Node ${process.version}, ${process.platform}.`;
  writeFileSync(
    join(root, "docs/speed.md"),
    `# Speed\n\nWritten by \`npm run report -- speed\`, which builds the package and runs the benchmarks below. Times differ from machine to machine and from hour to hour; the\nratios, taken in turns in one run, are what counts. ${machine}\n\n${parts.join("\n")}`,
  );
}

const asked = process.argv.slice(2);
const wants = (part) => asked.length === 0 || asked.includes(part);
if (wants("checks")) await renewChecks();
if (wants("speed")) renewSpeed();
