// The ferry's ring from CommonJS (invented data).
const { designRing, SpecError } = require("camround");
const { renderRing } = require("camround/svg");

const spec = {
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
};
const ring = designRing(spec);
console.log(`free gap ${ring.free.gap.toFixed(2)} mm`);
console.log(`drawing of ${renderRing(ring).split("\n").length > 10 ? "many" : "few"} lines`);

try {
  designRing({ ...spec, bore: -118 });
} catch (error) {
  if (!(error instanceof SpecError)) throw error;
  console.log(error.message);
}
