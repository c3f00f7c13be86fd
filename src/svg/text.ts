/** Characters that XML 1.0 does not allow at all, lone surrogates among them; they are dropped. */
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

const ENTITIES: Record<string, string> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text made safe inside an element or a quoted attribute: markup stays inert, the document well-formed. */
export function escapeText(text: string): string {
  return text.replace(FORBIDDEN, "").replace(/[&<>"']/g, (character) => ENTITIES[character]);
}

/** A prefix of ids that is safe in attributes, in lists of ids and in url(#…): what else is in it becomes a hyphen. */
export function idPrefix(id = "camround"): string {
  return id.replace(/[^\p{L}\p{N}_.-]/gu, "-");
}

/** A coordinate in mm with three decimals (1 µm), or as many as given, without trailing zeros or a negative zero. */
export function fixed(value: number, decimals = 3): string {
  return String(Number(value.toFixed(decimals)) + 0);
}
