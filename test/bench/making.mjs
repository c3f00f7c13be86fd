/**
 * Pieces and time of the curve fits against their tolerance, and the tables against the design they are made from, on the built package.
 * Ratios within one run are what counts.
 */
import { camTurning, coiling, designRing, gapCutting } from "camround";
import { outlineArcs, outlineCubics } from "camround/curves";
import { rounds } from "./rounds.mjs";

const SPEC = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
  load: { contactPressure: 0.15 },
};
const ROUNDS = rounds(15);
let sink = 0;

/** Seconds of the fastest of some rounds. */
function best(task) {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    sink += task() === undefined ? 0 : 1;
    least = Math.min(least, (performance.now() - start) / 1000);
  }
  return least;
}

const ring = designRing(SPEC);
const milli = (seconds) => (1000 * seconds).toFixed(2).padStart(9);
console.log("\nOutline of the ferry ring in pieces, both ends included");
console.log("tolerance/mm  arcs  off by/mm  Béziers  off by/mm  chords of a polyline");
for (const tolerance of [0.01, 0.001, 0.0001, 0.00001]) {
  const [arcs, cubics] = [outlineArcs(ring, { tolerance }), outlineCubics(ring, { tolerance })];
  const cells = [
    [tolerance.toFixed(5), 12],
    [arcs.pieces.length, 5],
    [arcs.deviation.toExponential(1), 10],
    [cubics.pieces.length, 8],
    [cubics.deviation.toExponential(1), 10],
    [arcs.chords, 21],
  ];
  console.log(cells.map(([cell, width]) => String(cell).padStart(width)).join(" "));
}

console.log("\nstations  design/ms  arcs 1 µm/ms  Béziers 1 µm/ms  over the design");
for (const stations of [180, 360, 720, 1440]) {
  const spec = { ...SPEC, stations };
  const design = designRing(spec);
  const times = [() => designRing(spec), () => outlineArcs(design), () => outlineCubics(design)].map(best);
  const [whole, arcs, cubics] = times;
  console.log(
    `${String(stations).padStart(8)} ${milli(whole)} ${milli(arcs).padStart(13)} ${milli(cubics).padStart(16)} ` +
      `${(arcs / whole).toFixed(1).padStart(9)} ${(cubics / whole).toFixed(1)}`,
  );
}

console.log("\nTables at 180 stations, in designs");
const design = best(() => designRing(SPEC));
for (const [name, task] of [
  ["coiling, 181 rows", () => coiling(ring)],
  ["cam, 361 rows", () => camTurning(ring)],
  ["cam about the minimum zone", () => camTurning(ring, { centre: "minimumZone" })],
  ["gap, with the ring held in a band", () => gapCutting(ring)],
]) {
  console.log(`${name.padEnd(36)} ${(best(task) / design).toFixed(0).padStart(5)}`);
}
if (sink < 0) console.log(sink);
