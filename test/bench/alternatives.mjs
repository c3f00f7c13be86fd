/**
 * The same ring by general-purpose programs, side by side in one run: the thin ring's shape by scipy's quadrature and ODE solvers (Debian's
 * python3-scipy), its closure by finite elements (Debian's calculix-ccx). Those that are not installed are left out.
 */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { designRing } from "camround";
import { build } from "esbuild";

const SPEC = {
  bore: 118,
  closedGap: 0,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
  load: { contactPressure: 0.15 },
  theory: "thin",
};
const SECONDS = 2;
const STATIONS = 180;

/** Seconds of a task that is done again and again: the best of rounds, as for the others. */
function timed(task, seconds = SECONDS, calls = 20) {
  for (let i = 0; i < 2000; i++) task();
  let best = Number.POSITIVE_INFINITY;
  for (const end = performance.now() + 1000 * seconds; performance.now() < end; ) {
    const start = performance.now();
    for (let i = 0; i < calls; i++) task();
    best = Math.min(best, (performance.now() - start) / 1000 / calls);
  }
  return best;
}

const design = designRing({ ...SPEC, stations: STATIONS });
const fine = designRing({ ...SPEC, stations: 16 * STATIONS });
const own = timed(() => designRing({ ...SPEC, stations: STATIONS }));
const [x, y] = ["x", "y"].map((axis) => fine.free[axis].slice(16 * STATIONS).filter((_, i) => i % 16 === 0));
const r = design.installed.centroidRadius;
const errorOf = (found) =>
  Math.max(...x.map((value, i) => Math.hypot(found.x[i] - value, found.y[i] - (y[i] + r))));

console.log(
  `Node ${process.version}, ${process.arch}; the thin ferry ring, ${STATIONS} stations a half ring`,
);
console.log("method                            ms a ring  times designRing  error of positions/mm");
const row = (name, seconds, error) =>
  console.log(
    `${name.padEnd(32)} ${(1000 * seconds).toFixed(3).padStart(10)} ${(seconds / own).toFixed(1).padStart(17)} ${error.padStart(22)}`,
  );
const half = (axis) => design.free[axis].slice(STATIONS);
row(
  "designRing, all of it",
  own,
  errorOf({ x: half("x"), y: half("y").map((value) => value + r) }).toExponential(1),
);

const script = fileURLToPath(new URL("alternatives.py", import.meta.url));
const task = JSON.stringify([design.stiffnessParameter, r, 0, STATIONS, SECONDS]);
const { stdout, status } = spawnSync("/usr/bin/python3", [script, task], { encoding: "utf8" });
if (status === 0) {
  const { versions, ...found } = JSON.parse(stdout);
  for (const [name, one] of Object.entries(found)) row(name, one.seconds, errorOf(one).toExponential(1));
  console.log(`(${versions}; the half ring's shape alone)`);
} else console.log("scipy is not installed");

const { outputFiles } = await build({
  entryPoints: [fileURLToPath(new URL("../finite-element/closure.ts", import.meta.url))],
  bundle: true,
  format: "esm",
  platform: "node",
  external: ["camround"],
  write: false,
});
try {
  const { closeByFiniteElements } = await import(
    `data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`
  );
  const ring = designRing({ ...SPEC, closedGap: 0.45, theory: "curved", stations: 2000 });
  const start = performance.now();
  const { outOfRound } = await closeByFiniteElements(ring);
  const seconds = (performance.now() - start) / 1000;
  row("finite elements, 160 × 4", seconds, `${(1000 * outOfRound).toFixed(3)} µm out of round`);
} catch (error) {
  console.log(`finite elements: ${error.message.split("\n")[0]}`);
}
