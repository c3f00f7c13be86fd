import { distance } from "fastest-levenshtein";
import * as v from "valibot";
import { SpecError } from "./error.js";

/** From what the schema library found to the one error that a user reads. */

/**
 * A schema, or what makes it, to be made when it is first used: so a bundle leaves out the schemas of what it does not use, and a program waits for
 * none of them.
 */
export type SchemaOrMaker<Schema extends v.GenericSchema> = Schema | (() => Schema);

const made = new WeakMap<() => v.GenericSchema, v.GenericSchema>();

/**
 * Reads an input by a schema.
 *
 * @param whole what the input is called, for an error that is of no field of it
 * @throws SpecError for the one finding that tells most
 */
export function parse<Schema extends v.GenericSchema>(
  given: SchemaOrMaker<Schema>,
  input: unknown,
  whole = "spec",
): v.InferOutput<Schema> {
  const schema = typeof given === "function" ? ((made.get(given) ?? given()) as Schema) : given;
  if (typeof given === "function") made.set(given, schema);
  const result = v.safeParse(schema, input);
  if (result.success) return result.output;
  throw toSpecError(schema, result.issues.find(isUnknownField) ?? result.issues[0], whole);
}

/** A misspelt field is also a missing one; the misspelling tells more. */
function isUnknownField(issue: v.BaseIssue<unknown>): boolean {
  return issue.type === "strict_object" && issue.expected === "never";
}

/**
 * @param schema the object schema that was read with
 * @param issue one of its findings
 */
function toSpecError(schema: v.GenericSchema, issue: v.BaseIssue<unknown>, whole: string): SpecError {
  const path = issue.path ?? [];
  const field = path.map((item) => String(item.key)).join(".") || whole;
  if (!issue.type.endsWith("_object")) return new SpecError(field, issue.input, issue.message);
  if (isUnknownField(issue)) {
    const known = knownFields(schema, path.slice(0, -1));
    const last = path[path.length - 1];
    const name = String(last.key);
    const [nearest] = [...known].sort((a, b) => unlikeness(name, a) - unlikeness(name, b));
    return new SpecError(
      field,
      last.value,
      `is not a known field; the nearest is "${nearest}" (known here: ${known.join(", ")})`,
    );
  }
  if (issue.expected === "Object") return new SpecError(field, issue.input, "must be an object");
  return new SpecError(field, undefined, "must be given");
}

/** Edits between two names; none where one is a part of the other, as in "height" for "axialHeight". */
function unlikeness(name: string, known: string): number {
  const [given, lower] = [name.toLowerCase(), known.toLowerCase()];
  return given.length > 2 && lower.includes(given) ? 0 : distance(given, lower);
}

type SchemaNode = {
  entries?: Record<string, SchemaNode>;
  item?: SchemaNode;
  wrapped?: SchemaNode;
  getter?: (input: unknown) => SchemaNode;
};

/** The known fields of the object at the end of `path`. */
function knownFields(schema: v.GenericSchema, path: readonly v.IssuePathItem[]): string[] {
  const bare = (node: SchemaNode, value: unknown): SchemaNode => {
    const inner = node.wrapped ?? node;
    return inner.getter?.(value) ?? inner;
  };
  let node = bare(schema as SchemaNode, {});
  for (const { key, value } of path) {
    node = bare(node.item ?? (node.entries as Record<string, SchemaNode>)[String(key)], value);
  }
  return Object.keys(node.entries ?? {});
}
