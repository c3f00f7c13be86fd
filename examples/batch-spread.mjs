// Which tolerance drives the force out of its band? A batch of the ferry's rings, in the bores that the workshop really gets. Invented data.
import { variation } from "camround";

const spec = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};
const batch = variation(
  spec,
  {
    radialThickness: 0.03, // plus or minus; three standard deviations
    axialHeight: { lower: -0.022, upper: -0.01, distribution: "uniform" },
    youngsModulus: "5 GPa",
    freeGap: 0.4,
    bore: "20 um",
    lobes: [{ order: 4, tolerance: "4 um" }],
  },
  { samples: 128, limits: { tangentialForce: { min: 17, max: 18.5 }, contactShare: { min: 1 } } },
);

const { tangentialForce, closingStress } = batch.outcomes;
console.log(`Ft ${tangentialForce.mean.toFixed(2)} N ± ${tangentialForce.standardDeviation.toFixed(2)} N`);
console.log(`closing stress ${closingStress.least.toFixed(0)} to ${closingStress.most.toFixed(0)} MPa`);
console.log(`${(100 * batch.inside).toFixed(0)} % of the batch within the limits`);
for (const [name, { total, totalError }] of Object.entries(tangentialForce.sensitivity)) {
  console.log(
    `  ${name}: ${(100 * total).toFixed(0)} ± ${(100 * totalError).toFixed(0)} % of the force's variance`,
  );
}
