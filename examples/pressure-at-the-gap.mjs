// What more pressure at the gap costs: the ferry's ring (invented data) at four strengths.
import { conformability, describePressure, designRing, tapeTest } from "camround";

const ferry = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};

console.log("strength  free gap   lowest     Ft on tape  ovality   follows an oval of");
for (const strength of [0, 0.5, 1, 1.5]) {
  const ring = designRing({ ...ferry, pressure: { shape: "moreAtGap", strength } });
  const { lowest } = describePressure(ring);
  const tape = tapeTest(ring);
  const [oval] = conformability(ring, [2]).limits;
  const cells = [
    `${ring.free.gap.toFixed(2)} mm`,
    `${(100 * lowest.relative).toFixed(0)} %`,
    `${tape.force.toFixed(2)} N`,
    `${tape.ovality.toFixed(3)} mm`,
    `${(1000 * oval.fullContact).toFixed(0)} µm`,
  ];
  console.log([strength.toFixed(1).padEnd(8), ...cells.map((cell) => cell.padStart(10))].join(" "));
}
