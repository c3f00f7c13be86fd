// One wire stock rule, three bores (invented data, for the demo only): an old motorcycle, the ferry, a gas engine.
// Each ring gets the same free gap in proportion to its bore; what pressure and stress follow?
import { designRing } from "camround";

const rings = [
  { name: "motorcycle", bore: 54, wall: 2.2, height: 1.5, gap: 0.2 },
  { name: "river ferry", bore: 118, wall: 4.4, height: 2, gap: 0.45 },
  { name: "gas engine", bore: 340, wall: 11, height: 6, gap: 1.3 },
];

for (const { name, bore, wall, height, gap } of rings) {
  const { load, stress, ends } = designRing({
    bore,
    closedGap: gap,
    section: { radialThickness: wall, axialHeight: height },
    material: "EN-GJS-500-7",
    load: { freeGap: 0.1 * bore },
  });
  console.log(
    `${name.padEnd(12)} Ø${bore} mm: p0 ${load.contactPressure.toFixed(3)} MPa, ` +
      `Ft ${load.tangentialForce.toFixed(1)} N, ${stress.closing.max.toFixed(0)} MPa, ` +
      `end faces ${((ends.faceToAxis * 180) / Math.PI).toFixed(2)}° to the axis when free`,
  );
}
