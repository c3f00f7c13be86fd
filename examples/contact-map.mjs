// How far does the ferry ring follow bores of one harmonic each? A map of its light-tight share (invented data).
import { contactMap, designRing } from "camround";

const ring = designRing({
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
});

const orders = [2, 3, 4, 5, 6];
const amplitudes = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1];
const map = contactMap(ring, orders, amplitudes, {
  // Progress where somebody watches.
  onProgress: (done, all) => process.stderr.isTTY && process.stderr.write(`\r${done}/${all}`),
});

console.log(`share tight  ${amplitudes.map((amplitude) => `${1000 * amplitude} µm`.padStart(7)).join("")}`);
map.contactShare.forEach((row, k) => {
  const cells = row.map((share) => `${(100 * share).toFixed(0)} %`.padStart(7)).join("");
  console.log(`order ${orders[k]}      ${cells}`);
});
console.log(`smallest pressure at order 2, 0.1 mm: ${map.smallestPressure[0].at(-1).toFixed(4)} MPa`);
