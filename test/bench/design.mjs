/**
 * Speed and accuracy of designRing, measured on the built package.
 *
 * Times on a shared machine are noisy; the ratios to the floor, taken in turns in one run, are what counts. The
 * floor is the bare sine and cosine of every station of the whole ring: less than that no shape can cost.
 */
import { designRing } from "camround";
import { rounds } from "./rounds.mjs";

const SPEC = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
  load: { contactPressure: 0.15 },
};
const ROUNDS = rounds(60);
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

/** Relative amplitudes of so many harmonics, small enough that the pressure stays positive. */
const amplitudes = (count) => Array.from({ length: count }, (_, k) => ((k % 2 === 0 ? 1 : -1) * 0.4) / count);
const sampled = (angle) => ({
  pressure: { shape: "sampled", angle, relative: angle.map((at) => 1 + 0.2 * Math.cos(2 * at)) },
});
const evenly = (count, from) =>
  Array.from({ length: count }, (_, k) => from + ((Math.PI - from) * k) / (count - 1));
const harmonics = (count) => ({ pressure: { shape: "harmonics", cosine: amplitudes(count) } });
const bothKinds = { pressure: { shape: "harmonics", cosine: amplitudes(29), sine: amplitudes(29) } };
const withSection = (extra) => ({ section: { ...SPEC.section, ...extra } });

const KINDS = [
  ["uniform", {}],
  ["harmonics to order 30", harmonics(29)],
  ["the same, halves that differ", bothKinds],
  ["360 samples of a half", sampled(evenly(360, 0))],
  ["360 samples of the whole", sampled(evenly(360, -Math.PI))],
  ["wall as a function", withSection({ wall: (theta) => 1 - 0.1 * Math.sin(theta / 2) ** 2 })],
  ["60 slots", withSection({ slots: { count: 60, depth: 1.2, width: 0.6 } })],
];
console.log("\nkind of ring, 180 stations          best/µs  times uniform");
const kinds = measure(
  KINDS.map(
    ([, extra]) =>
      () =>
        design(180, extra),
  ),
  100,
);
kinds.forEach(({ best }, k) => {
  console.log(`${KINDS[k][0].padEnd(34)} ${micro(best)} ${(best / kinds[0].best).toFixed(2).padStart(14)}`);
});

const grown = (title, values, extraOf, stationsOf) => {
  const times = measure(
    values.map((value) => () => design(stationsOf(value), extraOf(value))),
    40,
  );
  console.log(`\n${title.padEnd(34)}   best/µs  share of the first's cost a step`);
  values.forEach((value, k) => {
    const step =
      k === 0
        ? 1
        : ((times[k].best - times[0].best) / (value - values[0]) / (times[1].best - times[0].best)) *
          (values[1] - values[0]);
    console.log(`${String(value).padStart(34)} ${micro(times[k].best)} ${step.toFixed(2).padStart(14)}`);
  });
};
grown(
  "order, 720 stations",
  [20, 40, 80, 160],
  (order) => harmonics(order - 1),
  () => 720,
);
grown(
  "stations, harmonics to order 30",
  [180, 360, 720, 1440],
  () => harmonics(29),
  (stations) => stations,
);
grown(
  "stations, 360 samples",
  [180, 360, 720, 1440],
  () => sampled(evenly(360, -Math.PI)),
  (stations) => stations,
);

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
