import type { Proposal } from "../fit/candidate.js";
import type { RingOrder } from "../fit/orderSchema.js";
import { PROPOSAL_NOTES, proposeRing } from "../fit/proposeRing.js";
import { CAUTIONS } from "./cautions.js";
import { InputError } from "./inputError.js";
import { block, inMicrometres, millimetres, newtons, type Row } from "./layout.js";
import { readJson } from "./specSource.js";

/** `camround propose`. */
export function proposeCommand(file: string | undefined, { json }: { json?: boolean }): void {
  if (file === undefined)
    throw new InputError("ORDER.json must be given: bore, piston with its groove, materials");
  const proposals = proposeRing(readJson(file, "ORDER.json") as unknown as RingOrder);
  process.stdout.write(
    json ? `${JSON.stringify({ proposals, notes: PROPOSAL_NOTES })}\n` : report(proposals),
  );
}

function report(proposals: readonly Proposal[]): string {
  const rings = proposals.map((one, k) => {
    const { section, material, closedGap } = one.spec;
    const verdict =
      one.missed === 0 ? "meets all limits" : `misses ${one.missed} of ${one.limits.length} limits`;
    const rows: Row[] = [
      [
        "section",
        `${section.radialThickness} × ${Number(section.axialHeight.toFixed(3))} mm`,
        material.name ?? `E ${material.youngsModulus / 1000} GPa`,
      ],
      ["contact pressure, Ft", `${one.contactPressure.toFixed(3)} MPa`, newtons(one.tangentialForce)],
      ["free gap, closed gap", millimetres(one.freeGap), millimetres(closedGap)],
      ["follows four lobes of", inMicrometres(one.followsFourLobes), "amplitude all round"],
      [
        "back clearance, least",
        millimetres(one.groove.backClearance[0]),
        `axial ${millimetres(one.groove.axialClearance[0])}`,
      ],
      ["axial friction, estimate", newtons(one.friction)],
      ...one.limits.map(
        ({ limit, value, allowed, met, source }): Row => [
          limit,
          Number(value.toPrecision(4)).toString(),
          `${met ? "met" : "MISSED"}: ${allowed} (${source})`,
        ],
      ),
    ];
    return block(`${k + 1}. ${verdict}`, rows);
  });
  const notes = ["Notes", ...PROPOSAL_NOTES.map((note) => `  - ${note}`)].join("\n");
  return `${["Proposed rings, best first", ...rings, notes, CAUTIONS].join("\n\n")}\n`;
}
