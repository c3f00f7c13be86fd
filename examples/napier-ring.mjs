// A scraper ring for the ferry: how it twists, what its face carries, what spreading it costs. (Invented data.)
import { describeSection, designRing, spreadRing } from "camround";

const ring = designRing({
  bore: 118,
  closedGap: 0.45,
  section: {
    radialThickness: 4.4,
    axialHeight: 2,
    face: { shape: "taper", angle: "1 deg" },
    undercut: { depth: 0.5, height: 0.6 },
  },
  material: "1.4112",
  load: { contactPressure: 0.15 },
});

const { properties, twist, face } = describeSection(ring);
console.log(`area ${properties.area.toFixed(3)} mm², second moment ${properties.inPlane.toFixed(3)} mm⁴`);
console.log(`free gap ${ring.free.gap.toFixed(2)} mm, twist ${((twist.angle * 180) / Math.PI).toFixed(2)}°`);
for (const { wear, land, pressure } of face) {
  console.log(`worn by ${1000 * wear} µm: land ${land.toFixed(3)} mm under ${pressure.toFixed(2)} MPa`);
}
for (const by of ["hand", "pliers", "plates"]) {
  const { stress, tipGap } = spreadRing(ring, { diameter: 117.4, by });
  console.log(`spread by ${by}: tips ${tipGap.toFixed(1)} mm apart, ${stress.max.toFixed(0)} MPa`);
}
