// The ferry ring (118 mm bore; invented data, for the demo only): from the order to what the bench needs.
import { designRing, endsInBand } from "camround";

const ring = designRing(
  {
    bore: "118 mm",
    closedGap: "0.45 mm",
    section: { radialThickness: 4.4, axialHeight: 2 },
    material: { youngsModulus: "205 GPa" },
    load: { contactPressure: 0.15 },
  },
  { proof: true },
);

const degrees = (radians) => ((radians * 180) / Math.PI).toFixed(3);
console.log(`free gap              ${ring.free.gap.toFixed(3)} mm`);
console.log(`tangential force      ${ring.load.tangentialForce.toFixed(2)} N`);
console.log(`largest stress        ${ring.stress.closing.max.toFixed(0)} MPa`);
console.log(`end faces, free       ${degrees(ring.ends.faceToAxis)}° to the axis`);
console.log(`end faces, held at 5  ${degrees(endsInBand(ring, 5).faceToAxis)}° to the axis`);
console.log(`proved closed gap     ${ring.proof.closedGap.toFixed(6)} mm`);
