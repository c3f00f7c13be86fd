// A ring as it came off the coiler, measured, and what to tell the coiler for the next one. The points are invented: the ferry's ring, bent
// 0.4 % too tight with a wave of order 3 in it, by a coordinate machine good to 2 µm, lying anywhere on its table.
import { coiling, compareRings, designRing, ringFromScan, ringOfCurvature } from "camround";
import { readScanCsv } from "camround/files";

const spec = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};
const drawn = designRing(spec);

const ring = ringFromScan(readScanCsv(measured()).points, { spec });
const { scan, load, free } = ring;
console.log(`${scan.points.outer} points on the outer face, ${scan.points.outliers.length} set aside`);
console.log(`scatter ${(1000 * scan.noise).toFixed(1)} µm`);
console.log(
  `Ft ${load.tangentialForce.toFixed(2)} N ± ${scan.band.tangentialForce.toFixed(3)} N, drawn ${drawn.load.tangentialForce.toFixed(2)} N`,
);
console.log(`free gap ${free.gap.toFixed(3)} mm, drawn ${drawn.free.gap.toFixed(3)} mm`);
console.log(`light test ${scan.light.passes ? "passed" : "failed"}`);

const { correction, largestDeviation } = compareRings(ring, drawn);
console.log(`outer face off by up to ${largestDeviation.toFixed(3)} mm`);
const before = coiling(drawn).table.radius;
const now = coiling(correction.ring).table.radius;
for (const turn of [0, 60, 120, 180]) {
  const row = Math.round((turn / 360) * (before.length - 1));
  console.log(`row ${row}: bend to ${now[row].toFixed(3)} mm instead of ${before[row].toFixed(3)} mm`);
}

/** A table as a measuring machine would write it. */
function measured() {
  const { load: _load, ...body } = spec;
  const made = ringOfCurvature(body, (theta) => {
    const row = drawn.free.theta.findIndex((angle) => angle >= theta - 1e-9);
    return 1.004 * drawn.free.curvature[row] + 1e-5 * Math.cos(3 * theta);
  });
  const { theta, curvature } = made.free;
  const step = (theta[1] - theta[0]) * 56.8;
  let [x, y, tangent] = [40, -15, 1.2];
  const rows = [];
  for (const [i, kappa] of curvature.entries()) {
    const noise = 0.002 * Math.sin(12.9898 * i * i) * 1.4;
    const radius = 2.2 + noise + (i % 90 === 40 ? 0.15 : 0);
    rows.push(
      `${(x + radius * Math.sin(tangent)).toFixed(4)},${(y - radius * Math.cos(tangent)).toFixed(4)}`,
    );
    const bend = ((kappa + (curvature[i + 1] ?? kappa)) / 2) * step;
    x += step * Math.cos(tangent + bend / 2);
    y += step * Math.sin(tangent + bend / 2);
    tangent += bend;
  }
  return `x_mm,y_mm\n${rows.join("\n")}\n`;
}
