/**
 * Speed of closeInBore, measured on the built package. Absolute times are noisy on a shared machine; the ratio to one
 * factorisation of a like band matrix, taken in the same run, is what counts.
 */
import { closeInBore, contactMap, designRing, ringOfCurvature } from "camround";
import { rounds } from "./rounds.mjs";

const BODY = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
};
const ROUNDS = rounds(25);
let sink = 0;

/** L·D·Lᵀ of a positive definite matrix of nine diagonals, as the curved theory's. */
function factorisation(rows) {
  const stride = 5;
  const entries = new Float64Array(rows * stride);
  for (let i = 0; i < rows; i++) entries.set([8, -2, 1, -0.5, 0.25], i * stride);
  for (let i = 0; i < rows; i++) {
    const row = i * stride;
    for (let k = 1; k < stride && i + k < rows; k++) {
      const factor = entries[row + k] / entries[row];
      for (let j = k; j < stride; j++) entries[row + k * stride + j - k] -= factor * entries[row + j];
    }
    for (let k = 1; k < stride; k++) entries[row + k] /= entries[row];
  }
  return entries[rows];
}

/** Best of the rounds, in which the tasks take turns, ms. */
function measure(tasks) {
  const best = tasks.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < ROUNDS; round++) {
    tasks.forEach((task, k) => {
      const start = performance.now();
      sink += task();
      best[k] = Math.min(best[k], performance.now() - start);
    });
  }
  return best;
}

const BORES = {
  "own bore, full contact": {},
  "four lobes of 20 µm": { harmonics: [{ order: 4, amplitude: 0.02 }] },
  "three lobes of 100 µm": { harmonics: [{ order: 3, amplitude: 0.1 }] },
  "worn by 0.3 mm": { diameter: 118.3 },
};

console.log("closure of the ferry ring, curved theory\n");
console.log("nodes  case                      iterations  best/ms  times one factorisation");
for (const stations of [180, 360, 720]) {
  const design = designRing({ ...BODY, stations, load: { contactPressure: 0.15 } });
  const round = ringOfCurvature({ ...BODY, stations }, 1 / 58);
  const cases = [
    ...Object.entries(BORES).map(([name, bore]) => [name, () => closeInBore(design, bore)]),
    ["round when free", () => closeInBore(round)],
  ];
  const [factor, ...times] = measure([
    () => factorisation(4 * stations + 1),
    ...cases.map(
      ([, close]) =>
        () =>
          close().force,
    ),
  ]);
  cases.forEach(([name, close], k) => {
    console.log(
      `${String(2 * stations + 1).padStart(5)}  ${name.padEnd(26)} ${String(close().iterations).padStart(9)} ${times[k].toFixed(2).padStart(8)} ${(times[k] / factor).toFixed(0).padStart(12)}`,
    );
  });
}

const design = designRing({ ...BODY, load: { contactPressure: 0.15 } });
const start = performance.now();
contactMap(
  design,
  [2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
  Array.from({ length: 100 }, (_, k) => 0.001 * (k + 1)),
);
console.log(`\nmap of 1000 bores, 361 nodes: ${((performance.now() - start) / 1000).toFixed(1)} s`);
if (!Number.isFinite(sink)) throw new Error("unused results");
