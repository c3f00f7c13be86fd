// A ring turned round, not cam-shaped: what pressure would it make, and why does it not touch? Invented data.
import { pressureOf, ringOfCurvature } from "camround";

const body = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
};

const { pressure, ends, touches } = pressureOf(ringOfCurvature(body, 1 / 58));
console.log(
  `wants ${pressure[0].toFixed(3)} MPa all round, but a couple of ${ends.right.couple.toFixed(0)} N·mm on each end;`,
);
console.log(
  `${touches ? "touches" : "does not touch"} its bore all round, as nothing there can give that couple`,
);
