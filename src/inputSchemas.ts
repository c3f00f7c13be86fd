import { boresSchema, matchSchema } from "./batch/matchSchema.js";
import { tolerancesSchema, variationSchema } from "./batch/variationSchema.js";
import { boreSchema } from "./contact/boreSchema.js";
import { engineSchema } from "./fit/engineFit.js";
import { orderSchema } from "./fit/orderSchema.js";
import { spreadSchema } from "./fit/spreadRing.js";
import { makingSchema } from "./making/makingSchema.js";
import { scanSchema } from "./scan/scanSchema.js";
import { type JsonSchema, jsonSchemaOf, specJsonSchema } from "./spec/jsonSchema.js";

/** All inputs that are read by a schema, for JSON Schemas and the reference. Used when the package is built, not at run time. */

export interface DescribedInput {
  readonly title: string;
  /** What reads it, in a sentence. */
  readonly use: string;
  readonly schema: JsonSchema;
  /** Name of the JSON Schema that the package has for such files, before `.schema.json`. */
  readonly file?: string;
}

export function describedInputs(): DescribedInput[] {
  return [
    {
      title: "Ring spec",
      use: "A ring as ordered, for `designRing`, `readSpec` and all commands that take a spec. Without `load` and `pressure` it is the body that `ringOfCurvature` and `ringFromScan` take. In a program `section.wall` may also be a function of the angle from the back, radians.",
      schema: specJsonSchema(),
      file: "spec",
    },
    {
      title: "Bore",
      use: "A bore and how the ring stands in it, for `closeInBore`, `matchRings` and `camround close --bore`. The radius is diameter/2 + Σ amplitude·cos(order·θ − phase) + the samples' curve, θ from the back of the ring as it stands unturned.",
      schema: jsonSchemaOf(boreSchema(), "bore", "camround bore"),
      file: "bore",
    },
    {
      title: "Engine",
      use: "What surrounds a ring, for `engineFit` and `camround fit --engine`; its parts also for `grooveFit` and `hotRing`. A size may be one length or [smallest, largest].",
      schema: jsonSchemaOf(engineSchema(), "engine", "camround engine"),
      file: "engine",
    },
    {
      title: "Ring order",
      use: "What is known before there is a ring, for `proposeRing` and `camround propose`. Exactly one of `closedGap` and `duty`.",
      schema: jsonSchemaOf(orderSchema(), "order", "camround ring order"),
      file: "order",
    },
    {
      title: "Making",
      use: "What the shop does, for `planMaking` and `camround make --making`; its parts also for `metalToMake`, `coiling`, `camTurning`, `gapCutting` and `heatSet`.",
      schema: jsonSchemaOf(makingSchema(), "making", "camround making"),
      file: "making",
    },
    {
      title: "Tolerances",
      use: "How rings and bores may differ from nominal, for `variation`, `planVariation` and `variationInParallel`. A number alone is plus or minus, normal with its limits at three standard deviations. A file for `camround vary` may hold `limits` of the study besides.",
      schema: jsonSchemaOf(tolerancesSchema(), "tolerances", "camround tolerances"),
    },
    {
      title: "Study",
      use: "Options of `variation`, `planVariation` and `variationInParallel`.",
      schema: jsonSchemaOf(variationSchema(), "study", "camround study"),
    },
    {
      title: "Matching",
      use: "Options of `matchRings`. A file for `camround match --bores` has them beside `bores`, a list of what stands under [Bore](#bore).",
      schema: jsonSchemaOf(matchSchema(), "matching", "camround matching"),
    },
    {
      title: "Scan",
      use: "Options of `ringFromScan` beside the `spec`.",
      schema: jsonSchemaOf(scanSchema(), "scan", "camround scan"),
    },
    {
      title: "Spreading",
      use: "Options of `spreadRing`.",
      schema: jsonSchemaOf(spreadSchema(), "spreading", "camround spreading"),
    },
  ];
}

/** JSON Schemas for files, by name. A tolerances file holds the limits on outcomes, too; one of bores what is wanted of rings in them. */
export function fileSchemas(): Record<string, JsonSchema> {
  const inputs = describedInputs();
  const named = inputs.flatMap(({ file, schema }) => (file ? [[file, schema] as const] : []));
  const [tolerances, study] = ["Tolerances", "Study"].map(
    (wanted) => inputs.find(({ title }) => title === wanted)?.schema as JsonSchema,
  );
  return {
    ...Object.fromEntries(named),
    tolerances: {
      ...tolerances,
      properties: { ...tolerances.properties, limits: study.properties?.limits as JsonSchema },
    },
    bores: jsonSchemaOf(boresSchema(), "bores", "camround bores"),
  };
}
