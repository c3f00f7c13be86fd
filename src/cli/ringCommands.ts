import type { Command } from "commander";
import { MAKING_FLAGS } from "./makingSource.js";
import { quiet } from "./quiet.js";
import { addSpecFlags } from "./specSource.js";

/** The commands for one ring: what it is, in its bore, its making, its engine. */
export function addRingCommands(program: Command): void {
  const design = quiet(program.command("design"))
    .description("Design a ring from a spec: free shape, ends, forces, stress and a proof that it closes.")
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--json", "print the whole design as JSON instead of the report")
    .option("--svg <file>", "also write a drawing of the free ring over the closed one")
    .option("--sheet <file>", "also write a sheet that tells the whole ring, A4")
    .option("--title <text>", "title of drawing and sheet")
    .option(
      "--allow-negative",
      "show a pressure that is negative somewhere, with a warning, instead of refusing it",
    )
    .option("--held-gap <length>", "also give the end faces of the ring held by a band at this opening");
  addSpecFlags(design);
  design
    .addHelpText(
      "after",
      `
Lengths, forces and pressures are numbers in mm, N and MPa, or carry a unit: "118 mm", "3.5 in", "18 thou",
"2.7 lbf", "22 psi", "205 GPa". Exactly one load: --force, --pressure or --free-gap.

Examples:
  $ camround design ring.json
  $ camround design ring.json --free-gap "12 mm" --json > ring-design.json
  $ camround design ring.json --held-gap "5 mm"      angles for cutting the gap with the ring held at 5 mm`,
    )
    .action(async (file, flags) => (await import("./designCommand.js")).designCommand(file, flags));

  const pressure = quiet(program.command("pressure"))
    .description(
      "Backwards: the pressure that a free ring makes in its round bore, as long as it touches all round.",
    )
    .argument("[RING.json]", "a design as printed by design --json, or a spec together with --free-radius")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--json", "print pressure and moment at every station as JSON instead of the report");
  addSpecFlags(pressure, ({ field }) => field[0] === "load" || field[0] === "pressure");
  pressure
    .addHelpText(
      "after",
      `
Examples:
  $ camround design ring.json --json > design.json && camround pressure design.json
  $ camround pressure ring.json --free-radius "59 mm"      the same wire, turned or coiled round`,
    )
    .action(async (file, flags) => (await import("./pressureCommand.js")).pressureCommand(file, flags));

  const close = quiet(program.command("close"))
    .description(
      "Close a ring in a bore that may be out of round: pressure, light gaps, the gap as it comes out.",
    )
    .argument("[RING.json]", "a spec, or a design as printed by design --json")
    .option(
      "--bore <BORE.json>",
      "the bore: diameter, harmonics, samples, rotation, backPressure; or the diameter of a round one; the ring's own if not given",
    )
    .option("--sensitivity <length>", "narrowest slit that shows light; 0.002 mm if not given")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--svg <file>", "also write a picture of the pressure along the circumference")
    .option("--json", "print everything as JSON instead of the report");
  addSpecFlags(close, ({ flag }) => flag === "bore");
  close
    .addHelpText(
      "after",
      `
A bore with four lobes of 5 µm, its radius diameter/2 + Σ amplitude·cos(order·θ − phase), θ from the ring's back:
  { "diameter": "118 mm", "harmonics": [{ "order": 4, "amplitude": 0.005, "phase": 0 }], "rotation": "10 deg" }`,
    )
    .action(async (file, flags) => (await import("./closeCommand.js")).closeCommand(file, flags));

  const gauge = quiet(program.command("gauge"))
    .description("The virtual gauges: tape, diametral plates, light.")
    .argument("[RING.json]", "a spec, or a design as printed by design --json")
    .option("--free-radius <length>", "the ring is round when free, with this radius at mid wall")
    .option("--json", "print the readings as JSON instead of the report");
  addSpecFlags(gauge);
  gauge.action(async (file, flags) => (await import("./gaugeCommand.js")).gaugeCommand(file, flags));

  const make = quiet(program.command("make"))
    .description(
      "Write what the shop needs to make the ring: job sheet, outline, template, coiling, cam, ends.",
    )
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--out <folder>", "folder for the files; it is made if it is not there")
    .option(
      "--making <MAKING.json>",
      "how the ring is made: allowances, coiling, cam, gap, heatSet, page, tolerance",
    )
    .option(
      "--correction <NEXT.csv>",
      "for the ring to tell the machine after a measurement: the table of scan --correction",
    )
    .option("--force", "replace files that are there already")
    .option("--json", "print the whole plan as JSON instead of the job sheet");
  for (const { flag, value, help } of MAKING_FLAGS) make.option(`--${flag} <${value}>`, help);
  // Here --force is for files; a tangential force stands in the spec.
  addSpecFlags(make, ({ flag }) => flag === "force");
  make
    .addHelpText(
      "after",
      `
A making file, all of it optional:
  { "allowances": { "coating": { "outer": "20 um" }, "lapping": { "outer": "5 um", "sides": "10 um" } },
    "coiling": { "yieldStress": "1400 MPa", "density": "7850 kg/m3", "batch": 16, "kerf": 0.3, "grinding": 0.2 },
    "cam": { "centre": "minimumZone", "step": "1 deg", "spindleSpeed": 60, "noseRadius": 0.8 },
    "gap": { "filingStock": 0.05, "heldGap": 5, "gapTolerance": 0.05 },
    "heatSet": { "remaining": 0.1, "before": "58 mm" }, "page": "A4", "tolerance": "1 um" }

Example:
  $ camround make ring.json --out ring-files`,
    )
    .action(async (file, flags) => (await import("./makeCommand.js")).makeCommand(file, flags));

  const fit = quiet(program.command("fit"))
    .description("The ring in its engine: section, spreading it over the piston, groove, heat.")
    .argument("[SPEC.json]", "spec file; // comments are allowed; flags below override it")
    .option("--engine <ENGINE.json>", "piston with its groove, temperatures, tolerances of the ring")
    .option("--svg <file>", "also draw closing and fitting stress over the free gap")
    .option("--json", "print everything as JSON instead of the report");
  addSpecFlags(fit);
  fit
    .addHelpText(
      "after",
      `
An engine file, all of it optional; a dimension may be one length or [smallest, largest]:
  { "piston": { "diameter": "117.4 mm", "groove": { "width": [2.04, 2.06], "depth": 5.2 },
                "material": { "youngsModulus": 70000, "expansion": { "temperature": [300], "value": [2.1e-5] } }, "temperature": 160 },
    "heat": { "ring": { "temperature": 180 }, "bore": { "material": "EN-GJL-250", "temperature": 120 }, "keepGap": 0.1, "factor": 1.2 },
    "tolerance": { "wall": 0.05, "height": 0.01 } }`,
    )
    .action(async (file, flags) => (await import("./fitCommand.js")).fitCommand(file, flags));

  quiet(program.command("propose"))
    .description(
      "Propose rings for a groove: complete specs, ranked, with the limits that each meets or misses.",
    )
    .argument(
      "[ORDER.json]",
      "bore, piston with its groove, materials, closed gap or duty; stock, pressures, heat",
    )
    .option("--json", "print the proposals as JSON instead of the report")
    .addHelpText(
      "after",
      `
An order:
  { "bore": "118 mm", "piston": { "diameter": 117.4, "groove": { "width": [2.04, 2.06], "depth": 5.2 } },
    "materials": ["1.4112", "EN-GJS-500-7"], "duty": "water-cooled, moderate load" }`,
    )
    .action(async (file, flags) => (await import("./proposeCommand.js")).proposeCommand(file, flags));
}
