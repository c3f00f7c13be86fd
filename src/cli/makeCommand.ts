import { type Arc, lineArcs, outlineArcs } from "../curves/arcs.js";
import { outlinePoints } from "../curves/chords.js";
import type { CurveFit } from "../curves/fitContour.js";
import { camCsv, coilingCsv, endsCsv, outlineCsv } from "../files/csv.js";
import { dxf } from "../files/dxf.js";
import { type MakingPlan, planMaking } from "../making/planMaking.js";
import { renderGauge } from "../svg/renderGauge.js";
import { renderOutline } from "../svg/renderOutline.js";
import { renderTemplate, templatePages } from "../svg/renderTemplate.js";
import { correctionFrom } from "./correctionSource.js";
import { InputError } from "./inputError.js";
import { jobSheet } from "./jobSheet.js";
import { makingFrom } from "./makingSource.js";
import { type Flags, specFlags, specFrom } from "./specSource.js";
import { type FileSet, leftOver, writeSet } from "./writeSet.js";

interface MakeFlags extends Flags {
  out?: string;
  making?: string;
  correction?: string;
  force?: boolean;
  json?: boolean;
}

/** `camround make`. */
export function makeCommand(file: string | undefined, flags: MakeFlags): void {
  const { force = false, ...rest } = flags;
  const { out, making: makingFile, correction, json } = rest;
  if (out === undefined || out.trim() === "")
    throw new InputError("--out must name the folder for the files");
  const plan = planMaking(specFrom(file, specFlags(rest)), makingFrom(makingFile, rest), {
    correction: correctionFrom("--correction", correction),
  });
  const { making, metal, added } = plan;
  const outline = outlineArcs(metal.told, { tolerance: making.tolerance, added });
  const files = filesOf(plan, outline);
  writeSet(out, files, force);
  const names = Object.keys(files);
  const others = leftOver(out, files, OPTIONAL);
  process.stdout.write(
    json ? `${JSON.stringify(asData(plan, outline, names, others))}\n` : told(out, files, others),
  );
}

/** Files that not every ring has; of another ring they would mislead. */
const OPTIONAL = /^(template-\d+\.svg|mandrel\.dxf|gauge\.svg)$/;

function told(out: string, files: FileSet, others: readonly string[]): string {
  const written = `Written to ${out}: ${Object.keys(files).join(", ")}`;
  const warning = others.length > 0 ? `\nNot of this ring, and there from before: ${others.join(", ")}` : "";
  return `${files["job.md"]}\n${written}${warning}\n`;
}

/** The plan of the ring as ordered, without the arrays of the design, which `design --json` prints. */
function asData(
  plan: MakingPlan,
  { pieces, deviation, tolerance }: CurveFit<Arc>,
  files: readonly string[],
  others: readonly string[],
) {
  const { design, told, finished, ...metal } = plan.metal;
  const { stress, warnings } = design;
  const { spec, freeGap, contactPressure } = finished;
  const load = { ...design.load, freeGap, contactPressure };
  const outline = { pieces: pieces.length, deviation, tolerance };
  return {
    ...{ spec, files, others, load, stress, warnings, outline, ...plan },
    metal: { ...metal, ...(told !== design && { told: { load: told.load } }) },
  };
}

/** Every file of the set, in the order of the work. */
function filesOf(plan: MakingPlan, outline: CurveFit<Arc>): FileSet {
  const { making, metal, added, coiling, cam, gap, heatSet } = plan;
  const { design, told, finished } = metal;
  const options = { tolerance: making.tolerance, added };
  const sheets = renderTemplate(design, { added, finished, page: making.page });
  const drawn = {
    "outline.dxf": dxf([
      { name: "OUTLINE", fits: [outline] },
      { name: "CENTROID", fits: [lineArcs(told, options)] },
      { name: "BORE", circles: [{ centre: [0, 0], radius: finished.spec.bore / 2 }] },
    ]),
    "outline.svg": renderOutline(told, options),
    "outline.csv": outlineCsv(outlinePoints(told, options)),
    "template.svg": sheets[0],
    ...Object.fromEntries(sheets.slice(1).map((sheet, k) => [`template-${k + 2}.svg`, sheet])),
    "template.html": templatePages(sheets),
    "coiling.csv": coilingCsv(coiling.table),
    "cam.csv": camCsv(cam),
    "ends.csv": endsCsv(gap),
    ...(heatSet && { "mandrel.dxf": dxf([{ name: "MANDREL", fits: [heatSet.mandrel] }]) }),
    ...(making.gap.gapTolerance !== undefined && {
      "gauge.svg": renderGauge(finished, { gapTolerance: making.gap.gapTolerance }),
    }),
  };
  return { "job.md": jobSheet(plan, outline, Object.keys(drawn)), ...drawn };
}
