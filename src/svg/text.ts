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
  return (id === "" ? "camround" : id).replace(/[^\p{L}\p{N}_.-]/gu, "-");
}

/** A coordinate in mm with three decimals (1 µm), or as many as given, without trailing zeros or a negative zero. */
export function fixed(value: number, decimals = 3): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

/** Width of a letter over its height, on the safe side: of most, of capitals, and of the widest and of other scripts. */
const LETTER = { most: 0.56, capital: 0.78, widest: 1.05 };

/** Letters beyond these may be as wide as high. */
const LATIN = 0x24f;

function widthOf(letter: string): number {
  if (/[MWmw@%—…]/.test(letter) || Number(letter.codePointAt(0)) > LATIN) return LETTER.widest;
  return /\p{Lu}/u.test(letter) ? LETTER.capital : LETTER.most;
}

/**
 * Words that fit into a width: in smaller letters where they are long, cut where they would become too small.
 *
 * @param size of the letters, and `smallest` that can be read, in the unit of `within`
 */
export function fitted(
  text: string,
  size: number,
  within: number,
  smallest: number,
): { shown: string; size: number } {
  let [shown, width] = ["", 0];
  for (const letter of text) {
    width += widthOf(letter);
    if (width * smallest > within) {
      shown = `${[...shown].slice(0, -1).join("")}…`;
      break;
    }
    shown += letter;
  }
  return { shown, size: Math.min(size, within / Math.max(width, LETTER.most)) };
}
