import { conformability } from "../assess/conformability.js";
import { describePressure } from "../assess/describePressure.js";
import { designRing } from "../design/designRing.js";
import { endsInBand } from "../ends/endsInBand.js";
import { proveClosure } from "../proof/proveClosure.js";
import { lengthFlag } from "./lengthFlag.js";
import { report } from "./report.js";
import { type Flags, specFlags, specFrom } from "./specSource.js";
import { differentFiles, writeDrawings } from "./writeFile.js";

interface DesignFlags extends Flags {
  json?: boolean;
  allowNegative?: boolean;
  svg?: string;
  sheet?: string;
  title?: string;
  heldGap?: string;
}

/** `camround design`. */
export async function designCommand(file: string | undefined, flags: DesignFlags): Promise<void> {
  differentFiles({ svg: flags.svg, sheet: flags.sheet });
  const spec = specFrom(file, specFlags(flags));
  const design = designRing(spec, { allowNegativePressure: flags.allowNegative ?? false });
  const proof = proveClosure(design);
  const pressure = describePressure(design);
  const follows = conformability(design);
  const held =
    flags.heldGap === undefined ? undefined : endsInBand(design, lengthFlag("--held-gap", flags.heldGap));
  const title = flags.title === undefined ? {} : { title: flags.title };
  // Everything is computed before anything is written.
  const files: [string, string][] = [];
  if (flags.sheet !== undefined) {
    const [{ ringOverview }, { renderSheet }] = await Promise.all([
      import("../overview/ringOverview.js"),
      import("../svg/renderSheet.js"),
    ]);
    files.push([flags.sheet, renderSheet(ringOverview(design), title)]);
  }
  if (flags.svg !== undefined) {
    const { renderRing } = await import("../svg/renderRing.js");
    files.push([flags.svg, renderRing(design, title)]);
  }
  writeDrawings(files);
  const output = flags.json
    ? `${JSON.stringify({ ...design, pressure, conformability: follows, proof, ...(held && { held }) })}\n`
    : report(design, proof, pressure, follows, held);
  process.stdout.write(output);
}
