/**
 * Time of a scan and of a batch's variants, and errors of scans of rings whose force is known, on the built package. Ratios within one run are
 * what counts.
 */
import { closeInBore, designRing, ringFromScan, tapeTest, variation } from "camround";
import { variationInParallel } from "camround/parallel";
import { rounds } from "./rounds.mjs";

const SPEC = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: 205000 },
  load: { contactPressure: 0.15 },
};
const design = designRing({ ...SPEC, stations: 2000 });
const truth = { force: tapeTest(designRing(SPEC)).force, gap: design.free.gap };

/** Seeded normal numbers, by the sum of twelve uniform ones. */
function normal(seed) {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return () => Array.from({ length: 12 }, uniform).reduce((sum, one) => sum + one, -6);
}

/** Points of the design's outer face with noise, taken evenly from its finely drawn outline. */
function points(count, noise, seed) {
  const { outer } = design.outline;
  const { tangent } = design.free;
  const next = normal(seed);
  return Array.from({ length: count }, (_, k) => {
    const i = Math.min(outer.length - 1, Math.round((k * (outer.length - 1)) / (count - 1)));
    const off = noise * next();
    return [outer[i][0] + off * Math.sin(tangent[i]), outer[i][1] - off * Math.cos(tangent[i])];
  });
}

const SCANS = rounds(10);
console.log(`\nScans of the ferry ring: worst of ${SCANS}`);
console.log("points  noise/µm  force off by/%  free gap off by/µm  freedom  ms");
for (const count of [180, 720, 2880, 100000]) {
  for (const noise of [0.0005, 0.002, 0.005]) {
    let [force, gap, freedom, least] = [0, 0, 0, Number.POSITIVE_INFINITY];
    for (let seed = 1; seed <= SCANS; seed++) {
      const cloud = points(count, noise, seed);
      const start = performance.now();
      const ring = ringFromScan(cloud, { spec: SPEC });
      least = Math.min(least, performance.now() - start);
      force = Math.max(force, Math.abs(ring.load.tangentialForce / truth.force - 1));
      gap = Math.max(gap, Math.abs(ring.free.gap - truth.gap));
      freedom += ring.scan.freedom / SCANS;
    }
    const cells = [
      count,
      1000 * noise,
      (100 * force).toFixed(4),
      (1000 * gap).toFixed(2),
      freedom.toFixed(1),
      least.toFixed(0),
    ];
    console.log(cells.map((cell, k) => String(cell).padStart([6, 9, 15, 19, 8, 4][k])).join(" "));
  }
}

const TOLERANCES = {
  radialThickness: 0.03,
  youngsModulus: 5000,
  freeGap: 0.4,
  bore: 0.02,
  lobes: [{ order: 4, tolerance: 0.004 }],
};
const FACTORS = 5;
const ring = designRing(SPEC);
let contact = Number.POSITIVE_INFINITY;
for (let round = 0; round < rounds(100); round++) {
  const start = performance.now();
  closeInBore(ring);
  contact = Math.min(contact, performance.now() - start);
}
console.log("\nVariants with contact at 361 stations");
console.log("samples  variants  one thread/ms a variant  over a contact  all threads, variants a minute");
for (const samples of [32, 64, 128].slice(0, rounds(3))) {
  let start = performance.now();
  variation(SPEC, TOLERANCES, { samples });
  const each = (performance.now() - start) / (samples * (FACTORS + 2));
  start = performance.now();
  await variationInParallel(SPEC, TOLERANCES, { samples });
  const rate = (60000 * samples * (FACTORS + 2)) / (performance.now() - start);
  const cells = [
    samples,
    samples * (FACTORS + 2),
    each.toFixed(2),
    (each / contact).toFixed(1),
    rate.toFixed(0),
  ];
  console.log(cells.map((cell, k) => String(cell).padStart([7, 9, 24, 15, 31][k])).join(" "));
}
