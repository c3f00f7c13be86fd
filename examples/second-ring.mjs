// From the first ring's scan to the second ring. The points in ferry-scan.csv are invented: the ferry's ring, coiled 0.4 % too tight with a wave
// of order 3 in it, lying anywhere on the table of a coordinate machine good to 2 µm. `node second-ring.mjs --table` prints them again.
import { readFileSync } from "node:fs";
import { compareRings, designRing, ringFromScan } from "camround";
import { readScanCsv } from "camround/files";

const spec = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};
const drawn = designRing(spec);

/** The coiler, and the measuring of what it makes: it bends too tight, and in a wave. */
function coilAndMeasure({ theta, curvature }, seed) {
  const bent = curvature.map((value, i) => 1.004 * value + 1e-5 * Math.cos(3 * theta[i]));
  // Park and Miller's numbers; three of them make an error near enough to normal.
  const random = () => {
    seed = (16807 * seed) % 2147483647;
    return seed / 2147483647;
  };
  const error = () => 0.004 * (random() + random() + random() - 1.5);
  const middle = (118 - 4.4) / 2;
  let [x, y, tangent] = [80, 40, 0.7];
  return bent.map((value, i) => {
    const turn = ((value + (bent[i + 1] ?? value)) / 2) * middle * ((theta[i + 1] ?? theta[i]) - theta[i]);
    const outward = 2.2 + error();
    const point = [x + outward * Math.sin(tangent), y - outward * Math.cos(tangent)];
    const step = turn / ((value + (bent[i + 1] ?? value)) / 2);
    x += step * Math.cos(tangent + turn / 2);
    y += step * Math.sin(tangent + turn / 2);
    tangent += turn;
    return point;
  });
}

if (process.argv.includes("--table")) {
  console.log("# Invented points of the ferry's first ring, from `node second-ring.mjs --table`.");
  console.log("x_mm,y_mm");
  for (const [x, y] of coilAndMeasure(drawn.free, 118)) console.log(`${x.toFixed(4)},${y.toFixed(4)}`);
} else {
  const table = readFileSync(new URL("ferry-scan.csv", import.meta.url), "utf8");
  const first = compareRings(ringFromScan(readScanCsv(table).points, { spec }), drawn);
  tell("first ring", first);

  // The same machine, told the corrected shape.
  const commanded = first.correction.ring;
  const again = coilAndMeasure(commanded.free, 119);
  const second = compareRings(ringFromScan(again, { spec }), drawn, { commanded });
  tell("second ring", second);
}

function tell(name, { freeGap, tangentialForce, largestDeviation, contactShare }) {
  console.log(
    `${name}: free gap ${freeGap.made.toFixed(2)} mm, Ft ${tangentialForce.made.toFixed(2)} N, ` +
      `outer face off by ${largestDeviation.toFixed(3)} mm, ${(100 * contactShare.made).toFixed(0)} % light-tight`,
  );
}
