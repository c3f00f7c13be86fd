import { toJsonSchema } from "@valibot/to-json-schema";
import type { ListMetadata, QuantityMetadata, Range } from "./fields.js";
import { PRESSURE_SCHEMAS } from "./pressureSchema.js";
import { OWN_UNIT, QUANTITY_PATTERN } from "./quantity.js";
import { materialName, materialSchema, specSchema } from "./schema.js";
import { FACE_SCHEMAS, wallTableSchema } from "./sectionSchema.js";

/**
 * The spec's JSON Schema (draft 7), for editors and other tools. Used when the package is built, not at run time.
 * It tells the ranges of single fields; what depends on several fields only the reader checks.
 */
export function specJsonSchema(): object {
  const { properties, $defs, ...rest } = convert(specSchema) as {
    properties: Record<string, { properties: object }>;
    $defs: unknown;
  };
  const { section } = properties;
  return {
    $schema: "http://json-schema.org/draft-07/schema#",
    $id: "camround/spec.schema.json",
    title: "camround ring spec",
    ...rest,
    // What the reader chooses by the kind of input stands here in full.
    properties: {
      ...properties,
      section: {
        ...section,
        properties: {
          ...section.properties,
          wall: convert(wallTableSchema),
          face: { anyOf: Object.values(FACE_SCHEMAS).map(convert) },
        },
      },
      material: { anyOf: [convert(materialName), convert(materialSchema)] },
      pressure: { anyOf: Object.values(PRESSURE_SCHEMAS).map(convert), default: { shape: "uniform" } },
    },
  };
}

function convert(schema: Parameters<typeof toJsonSchema>[0]): object {
  const { $schema, ...json } = toJsonSchema(schema, {
    typeMode: "input",
    errorMode: "ignore",
    overrideSchema: ({ valibotSchema, jsonSchema }) => {
      // The load's three members exclude each other, which object entries alone cannot say.
      if (valibotSchema === (specSchema.entries.load as unknown)) {
        return { ...jsonSchema, minProperties: 1, maxProperties: 1 };
      }
      return undefined;
    },
    overrideAction: ({ valibotAction }) => {
      if (valibotAction.type !== "metadata") return undefined;
      const { description, quantity, list } = (valibotAction as unknown as { metadata: Metadata }).metadata;
      if (list) {
        return {
          description,
          type: "array",
          minItems: list.min,
          maxItems: list.max,
          items: convert(list.item),
        };
      }
      if (!quantity) return undefined;
      return {
        description,
        anyOf: [
          { type: "number", ...bounds(quantity.range), description: `in ${OWN_UNIT[quantity.dimension]}` },
          { type: "string", pattern: QUANTITY_PATTERN.source.replace(/\?<[a-z]+>/g, "?:") },
        ],
      };
    },
  });
  return json;
}

interface Metadata {
  description: string;
  quantity?: QuantityMetadata;
  list?: ListMetadata;
}

function bounds({ above, min, max }: Range): object {
  return {
    ...(above !== undefined && { exclusiveMinimum: above }),
    ...(min !== undefined && { minimum: min }),
    ...(max !== Number.MAX_VALUE && { maximum: max }),
  };
}
