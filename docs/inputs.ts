import { describedInputs } from "../src/inputSchemas.js";
import type { JsonSchema } from "../src/spec/jsonSchema.js";

/** The page of the reference on what is read by schemas: field by field, from the schemas themselves. */

const INTRODUCTION = `# Inputs

Every field of every input that is read from a file or given as an object, as the reader itself knows it. A field of lengths,
forces, pressures, angles or densities takes a number in the unit named, or a string with a unit of its own, such as \`"3.5 in"\`, \`"18 thou"\`,
\`"22 psi"\`, \`"30 deg"\`, \`"7.2 g/cm3"\`. An unknown field is refused, with the nearest known one. Here stand the ranges of single fields; what
depends on several of them the reader says when it refuses. What is "required" is so within its object; "–" is a field that may be left out.`;

/** Columns after the field. */
interface Row {
  readonly field: string;
  readonly description: string;
  readonly kind: string;
  readonly allowed: string;
  readonly byDefault: string;
}

export function inputsPage(): string {
  const inputs = describedInputs();
  const contents = inputs.map(({ title }) => `- [${title}](#${anchorOf(title)})`);
  const told: Told = new Map();
  const sections = inputs.map(({ title, use, schema, file }) => {
    const rows = rowsOf(schema, { page: title, told }).map(
      (row) => `| \`${row.field}\` | ${row.description} | ${row.kind} | ${row.allowed} | ${row.byDefault} |`,
    );
    const served = file ? `\n\nJSON Schema: \`camround/${file}.schema.json\`.` : "";
    return [
      `## ${title}\n\n${use}${served}\n`,
      "| Field | What | Unit or kind | Allowed | Default |",
      "| --- | --- | --- | --- | --- |",
      ...rows,
    ].join("\n");
  });
  return `${[INTRODUCTION, contents.join("\n"), ...sections].join("\n\n")}\n`;
}

/** Fields without words, for the tests. */
export function fieldsWithoutWords(): string[] {
  return describedInputs().flatMap(({ title, schema }) =>
    rowsOf(schema, { page: title, told: new Map() })
      .filter(({ description }) => description === "")
      .map(({ field }) => `${title}: ${field}`),
  );
}

/** Where an object of many fields was told of first, by what it is. */
type Told = Map<string, { readonly page: string; readonly field: string }>;

interface Place {
  readonly page: string;
  readonly told: Told;
  /** Fields that the rows are in, with a full stop behind. */
  readonly path?: string;
  /** Which of several objects the rows are of. */
  readonly within?: string;
}

/** A row for each field, and for those of the objects in it. */
function rowsOf(schema: JsonSchema, { page, told, path = "", within = "" }: Place): Row[] {
  return Object.entries(schema.properties ?? {}).flatMap(([name, field]) => {
    // The shape that the rows are of has been told.
    if (field.const !== undefined && within !== "") return [];
    const own = `${path}${name}`;
    const required = schema.required?.includes(name) ?? false;
    const words = wordsOf(field);
    const inner = innerRows(field, { page, told, path: own });
    const key = JSON.stringify(field.anyOf ?? field.properties);
    const before = inner.length < MANY ? undefined : told.get(key);
    if (inner.length >= MANY && !before) told.set(key, { page, field: own });
    const row: Row = {
      field: own,
      description: [within, words].filter((part) => part !== "").join(": "),
      kind: kindOf(field),
      allowed: before
        ? `as \`${before.field}\` of [${before.page}](#${anchorOf(before.page)})`
        : allowedOf(field),
      byDefault: field.default === undefined ? (required ? "required" : "–") : code(field.default),
    };
    return before ? [row] : [{ ...row, description: words === "" ? "" : row.description }, ...inner];
  });
}

/** So many fields are not told of twice. */
const MANY = 4;

const anchorOf = (title: string) => title.toLowerCase().replace(/ /g, "-");

function innerRows(field: JsonSchema, { page, told, path }: Place): Row[] {
  const { anyOf, items } = field;
  if (anyOf) {
    return anyOf.flatMap((choice) => {
      const shape = choice.properties?.shape?.const;
      const within = shape === undefined ? "" : `with shape ${code(shape)}`;
      return rowsOf(choice, { page, told, path: `${path}.`, within });
    });
  }
  if (items && !Array.isArray(items)) return rowsOf(items as JsonSchema, { page, told, path: `${path}[].` });
  return rowsOf(field, { page, told, path: `${path}.` });
}

/** The field's own words, or those of the first choice that has some; its unit stands in a column of its own. */
function wordsOf({ description, anyOf = [] }: JsonSchema): string {
  const words = description ?? anyOf.map(wordsOf).find((one) => one !== "") ?? "";
  return words.replace(UNIT, "").replaceAll("|", "\\|");
}

const UNIT = / \((mm|N|MPa|rad|°C|kg\/m³)\)$/;

/** A number with a unit, or a string. */
const isQuantity = ({ anyOf = [] }: JsonSchema) =>
  anyOf.length === 2 && anyOf[0].type === "number" && anyOf[1].type === "string";

function kindOf(field: JsonSchema): string {
  const { type, anyOf, items } = field;
  if (isQuantity(field)) return unitOf(field);
  if (anyOf) return [...new Set(anyOf.map(kindOf))].join(", or ");
  if (field.const !== undefined) return code(field.const);
  if (field.enum) return "name";
  if (Array.isArray(items)) return `[${items.map(kindOf).join(", ")}]`;
  if (items) return `list of ${kindOf(items as JsonSchema)}`;
  return type === "integer" ? "whole number" : (type ?? "");
}

function unitOf({ anyOf = [] }: JsonSchema): string {
  return anyOf[0].description?.replace("in ", "") ?? "";
}

function allowedOf(field: JsonSchema): string {
  const { type, anyOf, items } = field;
  if (isQuantity(field)) return allowedOf((anyOf as JsonSchema[])[0]) + inDegrees(field);
  const shapes = anyOf?.flatMap(({ properties }) => properties?.shape?.const ?? []) ?? [];
  if (shapes.length > 0) return `shape ${shapes.map(code).join(", ")}`;
  if (anyOf) return [...new Set(anyOf.map(allowedOf).filter((words) => words !== ""))].join("; ");
  if (field.enum) return field.enum.map(code).join(", ");
  if (type === "boolean") return "true, false";
  if (type === "array" && items && !Array.isArray(items)) {
    const { minItems, maxItems } = field;
    const count =
      minItems === undefined && maxItems === undefined
        ? ""
        : `${rangeOf(minItems, undefined, maxItems)} of them`;
    return [count, allowedOf(items as JsonSchema)].filter((words) => words !== "").join("; each ");
  }
  if (Array.isArray(items)) return [...new Set(items.map(allowedOf))].join("; ");
  if (type !== "number" && type !== "integer") return "";
  return rangeOf(field.minimum, field.exclusiveMinimum, field.maximum);
}

function inDegrees({ anyOf = [] }: JsonSchema): string {
  const [{ description, minimum, exclusiveMinimum = minimum, maximum }] = anyOf;
  if (description !== "in rad" || exclusiveMinimum === undefined || maximum === undefined) return "";
  const degrees = (angle: number) => `${number(Number(((angle * 180) / Math.PI).toPrecision(4)))}°`;
  return ` (${degrees(exclusiveMinimum)} to ${degrees(maximum)})`;
}

function rangeOf(from: number | undefined, above: number | undefined, to: number | undefined): string {
  const low =
    above !== undefined ? `above ${number(above)}` : from === undefined ? "" : `from ${number(from)}`;
  const high = to === undefined ? "" : `to ${number(to)}`;
  return [low, high].filter((words) => words !== "").join(" ") || "any";
}

const number = (value: number) => String(Number(value.toPrecision(6))).replace("-", "−");

function code(value: unknown): string {
  return `\`${JSON.stringify(value)}\``;
}
