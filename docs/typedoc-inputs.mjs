import { Converter, ReflectionKind } from "typedoc";
import { MarkdownPageEvent } from "typedoc-plugin-markdown";
import ts from "typescript";

/**
 * Inputs are read by schemas, and their types are inferred from these. A page of the reference names such a type rather than writing it out: its
 * fields stand in inputs.md. And the names of files of the docs become links.
 */
export function load(app) {
  const written = new Map();
  const ofSchemas = [];
  const asWritten = (context, reflection) => {
    const declaration = context.getSymbolFromReflection(reflection)?.declarations?.[0];
    if (!declaration) return;
    // A field of a schema that an interface extends.
    if (ts.isPropertyAssignment(declaration)) ofSchemas.push(reflection);
    else if (
      (ts.isPropertySignature(declaration) || ts.isParameter(declaration)) &&
      isWritten(declaration.type)
    ) {
      written.set(reflection, app.converter.convertType(context.withScope(reflection), declaration.type));
    }
  };
  app.converter.on(Converter.EVENT_CREATE_DECLARATION, (context, reflection) => {
    if (reflection.kind === ReflectionKind.Property) asWritten(context, reflection);
  });
  app.converter.on(Converter.EVENT_CREATE_PARAMETER, asWritten);
  app.converter.on(Converter.EVENT_CREATE_TYPE_PARAMETER, (context, reflection) => {
    const [declaration] = context.getSymbolFromReflection(reflection)?.declarations ?? [];
    if (isWritten(declaration?.constraint))
      reflection.type = app.converter.convertType(context, declaration.constraint);
  });
  app.converter.on(Converter.EVENT_RESOLVE_BEGIN, ({ project }) => {
    const stands = (reflection) => project.getReflectionById(reflection.id) === reflection;
    for (const [reflection, type] of written) {
      // It may have gone with what held it.
      if (!stands(reflection)) continue;
      project.removeTypeReflections(reflection.type);
      reflection.type = type;
    }
    for (const property of ofSchemas.filter(stands)) project.removeReflection(property);
  });
  app.renderer.on(MarkdownPageEvent.END, (page) => {
    page.contents = page.contents
      ?.replace(/docs\/reference\/([\w-]+\.md(?:#[\w-]+)?)/g, "[$1]($1)")
      .replace(/docs\/((?:theory|tutorials)\/[\w-]+\.md(?:#[\w-]+)?)/g, "[$1](../$1)")
      .replace(/^(SpecError|NotFound)\b/gm, (name) => `[${name}](index.md#${name.toLowerCase()})`);
    if (page.url === "README.md") page.contents += INPUTS;
  });
}

const INPUTS = `
- [inputs](inputs.md): every field of every file and options object that is read by a schema
`;

/**
 * Whether a type is written as a name, a word, a keyword, or as one for each of several names, or as one of several such. As written they come in
 * the same order every time; as inferred, in the order in which the compiler met them.
 */
function isWritten(type) {
  if (!type) return false;
  if (ts.isUnionTypeNode(type)) return type.types.every(isWritten);
  if (ts.isTypeReferenceNode(type)) return !type.typeArguments;
  return ts.isMappedTypeNode(type) || ts.isLiteralTypeNode(type) || ts.isToken(type);
}
