// What slots buy: the gas engine's oil ring, solid and slotted ever deeper, in a bore that wore oval and lobed. Invented data.
import { closeInBore, designRing, tapeTest } from "camround";

const bore = {
  diameter: 340,
  harmonics: [
    { order: 2, amplitude: 0.1 },
    { order: 4, amplitude: "15 um" },
  ],
};

function tell(name, slots, load) {
  const ring = designRing({
    bore: 340,
    closedGap: 1.3,
    section: { radialThickness: 11, axialHeight: 6, ...(slots && { slots }) },
    material: "EN-GJS-500-7",
    load,
  });
  const { contactShare } = closeInBore(ring, bore);
  console.log(
    `${name.padEnd(18)} free gap ${ring.free.gap.toFixed(1)} mm, Ft ${tapeTest(ring).force.toFixed(1)} N, ` +
      `${ring.stress.closing.max.toFixed(0)} MPa, ${(100 * contactShare).toFixed(0)} % light-tight`,
  );
}

const slots = (depth) => ({ pitch: 12, depth, width: 1.5, from: "-160 deg", to: "160 deg" });

console.log("the same pressure, 0.05 MPa");
tell("solid", undefined, { contactPressure: 0.05 });
for (const depth of [2, 3.5, 5]) tell(`slots ${depth} mm deep`, slots(depth), { contactPressure: 0.05 });

console.log("the same free gap, 20.5 mm");
tell("solid", undefined, { freeGap: 20.5 });
tell("slots 3.5 mm deep", slots(3.5), { freeGap: 20.5 });
