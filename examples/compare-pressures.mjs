// The ferry ring with four wanted pressures (invented data): what changes in shape, tape reading and conformability?
import { conformability, describePressure, designRing } from "camround";

const ferry = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};

const wishes = {
  uniform: { shape: "uniform" },
  "more at the gap": { shape: "moreAtGap", strength: 0.5 },
  "less at the gap": { shape: "lessAtGap", strength: 0.5 },
  "one-sided": { shape: "harmonics", cosine: [], sine: [0.2] },
};

for (const [name, pressure] of Object.entries(wishes)) {
  const ring = designRing({ ...ferry, pressure });
  const { relative, tape } = describePressure(ring);
  const [oval] = conformability(ring).limits;
  console.log(
    `${name.padEnd(16)} free gap ${ring.free.gap.toFixed(2)} mm, gap over mean ${relative.atGap.toFixed(3)}, ` +
      `ovality ${tape.ovality.toFixed(3)} mm, follows an oval bore to ${(1000 * oval.fullContact).toFixed(0)} µm`,
  );
}
