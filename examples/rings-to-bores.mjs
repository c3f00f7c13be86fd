// Three rings, two bores that were honed a little apart: which ring goes where. Invented data.
import { designRing, matchRings } from "camround";

const ring = (closedGap, tangentialForce) =>
  designRing({
    bore: 118,
    closedGap,
    section: { radialThickness: 4.4, axialHeight: 2 },
    material: { youngsModulus: "205 GPa" },
    load: { tangentialForce },
  });
const { matches, spareRings } = matchRings(
  [ring(0.43, 17.1), ring(0.47, 17.9), ring(0.46, 19.6)],
  [{ diameter: 117.995 }, { diameter: 118.012 }],
  { closedGap: 0.45, leastGap: 0.4, tangentialForce: 17.7 },
);
for (const { bore, ring: which, closedGap, tangentialForce } of matches) {
  console.log(
    `bore ${bore + 1}: ring ${which + 1}, gap ${closedGap.toFixed(3)} mm, Ft ${tangentialForce.toFixed(2)} N`,
  );
}
console.log(`left over: ring ${spareRings.map((which) => which + 1).join(", ")}`);
