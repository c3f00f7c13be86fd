/**
 * Speed and accuracy of designRing, measured on the built package.
 *
 * Times on a shared machine are noisy; the ratios to the floor, taken in turns in one run, are what counts. The
 * floor is the bare sine and cosine of every station of the whole ring: less than that no shape can cost.
 */
import { designRing } from "camround";

const SPEC = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
  load: { contactPressure: 0.15 },
};
const ROUNDS = 60;
let sink = 0;

function floor(stations) {
  for (let i = -stations; i <= stations; i++) {
    const angle = (i * Math.PI) / stations;
    sink += Math.sin(angle) + Math.cos(angle);
  }
}

function design(stations, extra) {
  sink += designRing({ ...SPEC, ...extra, stations }).free.gap;
}

/** Seconds a call of each task: the best and the median of rounds in which the tasks take turns. */
function measure(tasks, calls) {
  const times = tasks.map(() => []);
  for (const task of tasks) for (let i = 0; i < calls; i++) task();
  for (let round = 0; round < ROUNDS; round++) {
    tasks.forEach((task, k) => {
      const start = performance.now();
      for (let i = 0; i < calls; i++) task();
      times[k].push((performance.now() - start) / 1000 / calls);
    });
  }
  return times.map((list) => {
    list.sort((a, b) => a - b);
    return { best: list[0], median: list[list.length >> 1] };
  });
}

const micro = (seconds) => (seconds * 1e6).toFixed(1).padStart(9);

console.log(`Node ${process.version}, ${process.arch}; curved theory, uniform pressure, without proof\n`);
// Long enough for the compiler to settle.
for (let i = 0; i < 5000; i++) design(180);

console.log("stations  floor/µs  design best/µs  median/µs  designs/s  ratio to floor");
for (const stations of [90, 180, 360, 720, 1440]) {
  const calls = Math.ceil(36000 / stations);
  const [bare, full] = measure([() => floor(stations), () => design(stations)], calls);
  console.log(
    `${String(stations).padStart(8)} ${micro(bare.best)} ${micro(full.best).padStart(15)} ${micro(full.median).padStart(10)} ` +
      `${(1 / full.best).toFixed(0).padStart(10)} ${(full.best / bare.best).toFixed(2).padStart(15)}`,
  );
}

console.log("\nstations  largest error of x and y against 2880 stations/mm");
const refined = designRing({ ...SPEC, stations: 2880 });
for (const stations of [16, 20, 30, 45, 60, 90, 180, 360]) {
  const { free } = designRing({ ...SPEC, stations });
  const stride = 2880 / stations;
  let error = 0;
  free.x.forEach((x, i) => {
    error = Math.max(
      error,
      Math.abs(x - refined.free.x[i * stride]),
      Math.abs(free.y[i] - refined.free.y[i * stride]),
    );
  });
  console.log(`${String(stations).padStart(8)}  ${error.toExponential(1)}`);
}
if (!Number.isFinite(sink)) throw new Error("unused results");
