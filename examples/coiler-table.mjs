// What radius does the coiler bend the ferry's wire to, and what does a stronger coil of wire do to the gap? (Invented data.)
import { coiling, designRing } from "camround";
import { outlineArcs } from "camround/curves";

const ring = designRing({
  bore: 118,
  closedGap: 0.45,
  section: { radialThickness: 4.4, axialHeight: 2 },
  material: { youngsModulus: "205 GPa" },
  load: { contactPressure: 0.15 },
});

const { table, blankLength, mass, springback } = coiling(ring, {
  yieldStress: "1400 MPa",
  rows: 9,
  batch: 16,
});
console.log(
  `blank ${blankLength.toFixed(2)} mm, ${(1000 * mass.ring).toFixed(1)} g a ring, ${mass.batch.toFixed(2)} kg for 16`,
);
console.log("wire length  free radius  bend to");
table.length.forEach((length, k) => {
  const cells = [length, table.radius[k], table.bendRadius[k]].map((value) =>
    `${value.toFixed(2)} mm`.padStart(11),
  );
  console.log(cells.join(" "));
});
console.log(`wire 1 % stronger: the gap opens by ${springback.gapPerYieldPercent.toFixed(2)} mm`);

const arcs = outlineArcs(ring, { tolerance: 0.001 });
console.log(
  `outline in ${arcs.pieces.length} arcs and lines, within ${(1000 * arcs.deviation).toFixed(2)} µm`,
);
