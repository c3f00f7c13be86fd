import { type ConversionConfig, toJsonSchema } from "@valibot/to-json-schema";
import type { ListMetadata, QuantityMetadata, Range } from "./fields.js";
import { OWN_UNIT, QUANTITY_PATTERN } from "./quantity.js";
import { loadSchema, specSchema } from "./schema.js";

/**
 * JSON Schemas (draft 7) of inputs, for editors and other tools. Used when the package is built, not at run time.
 * They tell the ranges of single fields; what depends on several fields only the reader checks.
 */

type AnySchema = Parameters<typeof toJsonSchema>[0];

/** As JSON Schema has it, as far as it is looked at here. */
export interface JsonSchema {
  readonly description?: string;
  readonly type?: string;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly items?: JsonSchema | readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** Of the ring spec. */
export function specJsonSchema(): JsonSchema {
  return jsonSchemaOf(specSchema, "spec", "camround ring spec");
}

/**
 * @param schema of an input
 * @param name of the file, before `.schema.json`
 * @param title in words
 */
export function jsonSchemaOf(schema: AnySchema, name: string, title: string): JsonSchema {
  return {
    $schema: "http://json-schema.org/draft-07/schema#",
    $id: `camround/${name}.schema.json`,
    title,
    ...convert(schema),
  } as JsonSchema;
}

function convert(schema: AnySchema): JsonSchema {
  const { $schema, $defs, ...json } = toJsonSchema(schema, {
    typeMode: "input",
    errorMode: "ignore",
    overrideSchema,
    overrideAction,
  });
  return json as JsonSchema;
}

const overrideSchema: NonNullable<ConversionConfig["overrideSchema"]> = ({ valibotSchema, jsonSchema }) => {
  // The load's three members exclude each other, which object entries alone cannot say.
  if ((valibotSchema as { entries?: unknown }).entries === loadSchema.entries) {
    return { ...jsonSchema, minProperties: 1, maxProperties: 1 };
  }
  if (valibotSchema.type !== "lazy") return undefined;
  const [first, ...others] = choicesOf((valibotSchema as unknown as Lazy).getter);
  return (others.length === 0 ? first : { anyOf: [first, ...others] }) as typeof jsonSchema;
};

const overrideAction: NonNullable<ConversionConfig["overrideAction"]> = ({ valibotAction }) => {
  if (valibotAction.type !== "metadata") return undefined;
  const { description, quantity, list } = (valibotAction as unknown as { metadata: Metadata }).metadata;
  if (list) {
    return {
      description,
      type: "array",
      minItems: list.min,
      maxItems: list.max,
      items: convert(list.item) as object,
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
};

interface Metadata {
  description: string;
  quantity?: QuantityMetadata;
  list?: ListMetadata;
}

interface Lazy {
  readonly getter: (input: unknown) => AnySchema;
}

/** One input of each kind: what the reader chooses by the kind of input stands in a JSON Schema in full. */
const KINDS = ["", 0, {}, []];

/** What a reader may choose; what it only refuses with is none of it. */
function choicesOf(getter: Lazy["getter"]): JsonSchema[] {
  const found = KINDS.flatMap((input) => {
    const schema = getter(input);
    if (schema.type === "custom" && !("pipe" in schema)) return [];
    if (schema.type !== "loose_object") return [schema];
    // Of objects it chooses by their shape, and refuses others by the list of those.
    const { shape } = (schema as unknown as { entries: { shape: { options: string[] } } }).entries;
    return shape.options.map((name) => getter({ shape: name }));
  });
  return distinct(found.map(convert));
}

function distinct(schemas: readonly JsonSchema[]): JsonSchema[] {
  return [...new Map(schemas.map((schema) => [JSON.stringify(schema), schema])).values()];
}

function bounds({ above, min, max }: Range): object {
  return {
    ...(above !== undefined && { exclusiveMinimum: above }),
    ...(min !== undefined && { minimum: min }),
    ...(max !== Number.MAX_VALUE && { maximum: max }),
  };
}
