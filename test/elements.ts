import { SaxesParser } from "saxes";

/** An element of a document, with its own text and those that it stands in, the outermost first. */
export interface Element {
  readonly name: string;
  readonly attributes: Record<string, string>;
  text: string;
  readonly parents: readonly Element[];
}

/** Elements of a document in their order, by a strict XML parser that throws on anything ill-formed. */
export function elementsOf(xml: string): Element[] {
  const elements: Element[] = [];
  const open: Element[] = [];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => {
    const element = { name, attributes: attributes as Record<string, string>, text: "", parents: [...open] };
    elements.push(element);
    open.push(element);
  });
  parser.on("text", (text) => {
    const element = open.at(-1);
    if (element) element.text += text;
  });
  parser.on("closetag", () => open.pop());
  parser.write(xml).close();
  return elements;
}
