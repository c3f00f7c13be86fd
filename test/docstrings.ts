import { readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

/** What the docstrings of the public names say, from the source itself. */

export const root = fileURLToPath(new URL("..", import.meta.url));
export const ENTRIES = ["index", "svg", "files", "curves", "parallel"] as const;
export type Entry = (typeof ENTRIES)[number];

const sourceOf = (entry: Entry) => join(root, "src", `${entry}.ts`);
/** It stands nowhere but in the memory of the compiler. */
const EXAMPLES = join(root, "test", "examples-of-the-reference.ts");

/** A name that an entry exports, with where it is declared. */
export interface PublicName {
  readonly entry: Entry;
  readonly name: string;
  readonly declaration: ts.Declaration;
}

export interface Example {
  readonly entry: Entry;
  readonly name: string;
  readonly code: string;
}

/** What the entries export, with the declarations as they stand in some files. */
function exportedFrom(fileAt: (path: string) => ts.SourceFile): PublicName[] {
  return ENTRIES.flatMap((entry) =>
    fileAt(sourceOf(entry))
      .statements.filter(ts.isExportDeclaration)
      .flatMap((statement) => {
        const { exportClause, moduleSpecifier } = statement;
        if (!exportClause || !ts.isNamedExports(exportClause) || !moduleSpecifier) return [];
        const path = (moduleSpecifier as ts.StringLiteral).text.replace(/\.js$/, ".ts");
        const { statements } = fileAt(join(root, "src", path));
        return exportClause.elements.map(({ name: { text: name } }) => {
          const declaration = statements.flatMap(declarationsOf).find((one) => nameOf(one) === name);
          if (!declaration) throw new Error(`${entry}: no ${name} in ${path}`);
          return { entry, name, declaration };
        });
      }),
  );
}

function declarationsOf(statement: ts.Statement): readonly ts.Declaration[] {
  if (ts.isVariableStatement(statement)) return statement.declarationList.declarations;
  const isOne =
    ts.isFunctionDeclaration(statement) ||
    ts.isClassDeclaration(statement) ||
    ts.isInterfaceDeclaration(statement) ||
    ts.isTypeAliasDeclaration(statement);
  return isOne ? [statement] : [];
}

const nameOf = (declaration: ts.Declaration) => ts.getNameOfDeclaration(declaration)?.getText();

/** Parsed for their words alone. */
const words = new Map<string, ts.SourceFile>();
const exported = exportedFrom((path) => {
  const known = words.get(path);
  if (known) return known;
  const file = ts.createSourceFile(path, readFileSync(path, "utf8"), ts.ScriptTarget.ES2022, true);
  words.set(path, file);
  return file;
});

/** The declared function, if it is one. */
export function functionOf(declaration: ts.Declaration): ts.SignatureDeclaration | undefined {
  if (ts.isFunctionDeclaration(declaration)) return declaration;
  if (!ts.isVariableDeclaration(declaration) || !declaration.initializer) return undefined;
  return ts.isArrowFunction(declaration.initializer) ? declaration.initializer : undefined;
}

/** Where the docstring of a declaration stands. */
const documentedNode = (declaration: ts.Declaration): ts.Node =>
  ts.isVariableDeclaration(declaration) ? declaration.parent.parent : declaration;

const textOf = (comment: ts.JSDoc["comment"]) => ts.getTextOfJSDocComment(comment) ?? "";

const docsOf = (node: ts.Node) =>
  ts.getJSDocCommentsAndTags(node).filter((one): one is ts.JSDoc => ts.isJSDoc(one) && one.parent === node);

export function summaryOf(declaration: ts.Declaration): string {
  return docsOf(documentedNode(declaration))
    .map(({ comment }) => textOf(comment))
    .join("\n")
    .trim();
}

export function tagsOf(declaration: ts.Declaration, name: string): string[] {
  return docsOf(documentedNode(declaration))
    .flatMap(({ tags = [] }) => [...tags])
    .filter((tag) => tag.tagName.text === name)
    .map((tag) => textOf(tag.comment).trim());
}

/** Parameters without words, by name. */
export function bareParameters(
  declaration: ts.Declaration,
  { parameters }: ts.SignatureDeclaration,
): string[] {
  const tags = docsOf(documentedNode(declaration))
    .flatMap(({ tags = [] }) => [...tags])
    .filter(ts.isJSDocParameterTag);
  return parameters.flatMap(({ name }, i) => {
    const tag = ts.isIdentifier(name) ? tags.find((one) => one.name.getText() === name.text) : tags[i];
    return tag && textOf(tag.comment).trim() !== "" ? [] : [name.getText()];
  });
}

/** Properties within a declaration that have no docstring, nested ones included; not those of function bodies. */
export function bareProperties(declaration: ts.Declaration): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node) => {
    if (ts.isBlock(node)) return;
    if ((ts.isPropertySignature(node) || ts.isPropertyDeclaration(node)) && docsOf(node).length === 0)
      found.push(node.name.getText());
    ts.forEachChild(node, visit);
  };
  visit(declaration);
  return found;
}

/** What a function or a constant makes of our errors, and which others it names. */
interface Named {
  readonly errors: readonly string[];
  readonly others: readonly ts.Node[];
}

/** Functions and constants that stand at the top of a file of the source, and what it imports of others, by name. */
const namesOf = cached((file: ts.SourceFile): Map<string, () => ts.Node | undefined> => {
  const names = new Map<string, () => ts.Node | undefined>();
  for (const statement of file.statements) {
    for (const declaration of declarationsOf(statement)) {
      const body =
        functionOf(declaration) ?? (ts.isVariableDeclaration(declaration) ? declaration : undefined);
      names.set(nameOf(declaration) ?? "", () => body);
    }
    if (!ts.isImportDeclaration(statement)) continue;
    const { text } = statement.moduleSpecifier as ts.StringLiteral;
    const bindings = statement.importClause?.namedBindings;
    const from = program.getSourceFile(resolve(dirname(file.fileName), text.replace(/\.js$/, ".ts")));
    if (!from || !bindings || !ts.isNamedImports(bindings)) continue;
    for (const { name, propertyName = name } of bindings.elements)
      names.set(name.text, () => namesOf(from).get(propertyName.text)?.());
  }
  return names;
});

const namedIn = cached((start: ts.Node): Named => {
  const names = namesOf(start.getSourceFile());
  const [errors, others] = [new Set<string>(), new Set<ts.Node>()];
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node)) return;
    if (ts.isPropertyAccessExpression(node)) {
      visit(node.expression);
      return;
    }
    if (ts.isNewExpression(node)) {
      const made = node.expression.getText();
      if (made === "SpecError" || made === "NoContact") errors.add("SpecError");
      if (made === "NotFound") errors.add(made);
    }
    if (ts.isIdentifier(node)) {
      const other = names.get(node.text)?.();
      if (other) others.add(other);
    }
    ts.forEachChild(node, visit);
  };
  ts.forEachChild(start, visit);
  return { errors: [...errors], others: [...others] };
});

function cached<Key extends object, Value>(find: (key: Key) => Value): (key: Key) => Value {
  const known = new WeakMap<Key, { value: Value }>();
  return (key) => {
    const found = known.get(key) ?? { value: find(key) };
    known.set(key, found);
    return found.value;
  };
}

/** Which of our errors a function may throw: those that it makes anywhere, or what it names does, and so on. */
export function errorsOf(start: ts.Node): Set<string> {
  const seen = new Set([start]);
  for (const node of seen) for (const other of namedIn(node).others) seen.add(other);
  return new Set([...seen].flatMap((node) => namedIn(node).errors));
}

const UNFENCED = /^```(?:ts|typescript)?\n|\n```$/g;

export const examples: readonly Example[] = exported.flatMap(({ entry, name, declaration }) =>
  tagsOf(declaration, "example").map((code) => ({ entry, name, code: code.replace(UNFENCED, "") })),
);

/** What all examples begin with, from the entry's own words. */
export const prelude = (() => {
  const words = readFileSync(sourceOf("index"), "utf8").split("@packageDocumentation")[0];
  const [, code] = /```ts\n([\s\S]*?)```/.exec(words.replace(/^ \* ?/gm, "")) ?? [];
  return code;
})();

/** Types and values of all entries by their own names. */
const imports = (() => {
  const known = new Set<string>();
  return ENTRIES.map((entry) => {
    const names = exported.filter((one) => one.entry === entry && !known.has(one.name));
    for (const { name } of names) known.add(name);
    const isValue = ({ declaration }: PublicName) =>
      !ts.isInterfaceDeclaration(declaration) && !ts.isTypeAliasDeclaration(declaration);
    const list = names.map((one) => (isValue(one) ? one.name : `type ${one.name}`));
    return `import { ${list.join(", ")} } from "../src/${entry}.js";`;
  }).join("\n");
})();

const bodyOf = (code: string) => `${prelude}\n{\n${code}\n}`;
const moduleText = `${imports}\n${examples
  .map(({ code }, k) => `async function example${k}() {\n${bodyOf(code)}\n}`)
  .join("\n")}\nexport {};`;

/** The source as the compiler sees it, with the examples beside it. */
export const program = (() => {
  const config = ts.readConfigFile(join(root, "tsconfig.json"), ts.sys.readFile).config;
  const options = { ...ts.parseJsonConfigFileContent(config, ts.sys, root).options, noUnusedLocals: false };
  const host = ts.createCompilerHost(options, true);
  const { getSourceFile } = host;
  host.getSourceFile = (file, version) =>
    file === EXAMPLES
      ? ts.createSourceFile(file, moduleText, version, true)
      : getSourceFile.call(host, file, version);
  host.fileExists = (file) => file === EXAMPLES || ts.sys.fileExists(file);
  host.readFile = (file) => (file === EXAMPLES ? moduleText : ts.sys.readFile(file));
  return ts.createProgram([...ENTRIES.map(sourceOf), EXAMPLES], options, host);
})();

export const publicNames = exportedFrom((path) => program.getSourceFile(path) as ts.SourceFile);

/** What the compiler has against the examples. */
export function examplesWrong(): string[] {
  const file = program.getSourceFile(EXAMPLES) as ts.SourceFile;
  return [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)].map(
    ({ messageText, start = 0 }) =>
      `${ts.flattenDiagnosticMessageText(messageText, "\n")} at: ${moduleText.slice(start, start + 80)}`,
  );
}

/** A value promised beside a line: a number, a text, a list, yes or no; words may follow after a comma. */
const PROMISED = /^(\?\?|-?\d[\d.]*(?:e-?\d+)?|"[^"]*"|true|false|\[.*\])(?:, .*)?$/;

/** An example as a function that calls `told` for each promised value. */
export function compiled({ code }: Example): string {
  const text = bodyOf(code);
  const file = ts.createSourceFile("example.ts", text, ts.ScriptTarget.ES2022, true);
  const inserts: [place: number, words: string][] = [];
  const visit = (node: ts.Node) => {
    if (ts.isExpressionStatement(node)) {
      const [, words = ""] = /^[^\S\n]*\/\/ (.*)/.exec(text.slice(node.end)) ?? [];
      const [, promised] = PROMISED.exec(words) ?? [];
      if (promised !== undefined) {
        inserts.push(
          [node.expression.getStart(), "told("],
          [node.expression.end, `, ${JSON.stringify(promised)})`],
        );
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  let marked = text;
  for (const [place, words] of inserts.sort(([one], [other]) => other - one))
    marked = marked.slice(0, place) + words + marked.slice(place);
  return ts.transpileModule(marked, { compilerOptions: { target: ts.ScriptTarget.ES2022 } }).outputText;
}

/** A value as a promise would show it: numbers with as many decimals. */
export function asPromised(value: unknown, promised: string): string {
  if (typeof value === "number") {
    const decimals = /\.(\d+)/.exec(promised)?.[1].length ?? 0;
    return promised === "??" ? String(Number(value.toPrecision(4))) : value.toFixed(decimals);
  }
  if (Array.isArray(value)) {
    const parts = promised === "??" ? value.map(() => "??") : partsOf(promised.slice(1, -1));
    return `[${value.map((one, i) => asPromised(one, parts[i] ?? "??")).join(", ")}]`;
  }
  return JSON.stringify(value);
}

/** Of a list, split at its own commas. */
function partsOf(list: string): string[] {
  const parts: string[] = [];
  let depth = 0;
  let inText = false;
  let part = "";
  for (const letter of list) {
    if (letter === '"') inText = !inText;
    if (letter === "[" && !inText) depth++;
    if (letter === "]" && !inText) depth--;
    if (letter === "," && depth === 0 && !inText) {
      parts.push(part.trim());
      part = "";
    } else part += letter;
  }
  return [...parts, part.trim()];
}
