// Which change lets the ferry's ring follow a worn bore? Wall, pressure and the bore itself, one after the other. Invented data.
import { closeInBore, designRing } from "camround";

const ferry = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};
const worn = {
  diameter: 118,
  harmonics: [
    { order: 2, amplitude: 0.03 },
    { order: 4, amplitude: 0.012 },
  ],
};
const honed = { diameter: 118.06, harmonics: [{ order: 2, amplitude: 0.01 }] };
const thinner = { radialThickness: 3.9, axialHeight: 2 };

const trials = [
  ["as ordered", ferry, worn],
  ["more pressure", { ...ferry, load: { contactPressure: 0.2 } }, worn],
  ["thinner wall", { ...ferry, section: thinner }, worn],
  ["both", { ...ferry, section: thinner, load: { contactPressure: 0.2 } }, worn],
  ["as ordered, bore honed", ferry, honed],
];
for (const [name, spec, bore] of trials) {
  const ring = designRing(spec);
  const { contactShare, lightGaps, closedGap } = closeInBore(ring, bore);
  const widest = Math.max(0, ...lightGaps.map((gap) => gap.largest));
  console.log(
    `${name.padEnd(22)} ${(100 * contactShare).toFixed(0)} % tight, widest slit ${(1000 * widest).toFixed(1)} µm, ` +
      `gap ${closedGap.toFixed(3)} mm, closing stress ${ring.stress.closing.max.toFixed(0)} MPa`,
  );
}
