/** Spoilt texts, by a source of numbers from 0 to 1. */
export type Uniform = () => number;

const pick = <Item>(uniform: Uniform, list: readonly Item[]): Item =>
  list[Math.floor(uniform() * list.length)];
const upTo = (uniform: Uniform, limit: number) => Math.floor(uniform() * (limit + 1));

/** What files hold by accident, or to break a reader. */
const TOKENS = [
  ...[
    "NaN",
    "Infinity",
    "-Infinity",
    "null",
    "true",
    "-0",
    "1e999",
    "-1e999",
    "5e-324",
    "0x10",
    "1,5",
    ".",
    "-",
  ],
  ...[
    "{",
    "}",
    "[",
    "]",
    '"',
    "'",
    ",",
    ":",
    ";",
    "\t",
    "\n",
    "\r",
    "\r\n",
    "\u2028",
    "\ufeff",
    "\0",
    "//",
    "/*",
  ],
  ...[
    "\\",
    "\\u12",
    "#",
    "__proto__",
    "constructor",
    "toString",
    "𝛿",
    "µ",
    "°",
    "é",
    " ".repeat(300),
    "9".repeat(400),
  ],
  ...[
    "[".repeat(3000),
    '{"a":'.repeat(3000),
    '"'.repeat(99),
    "mm",
    "118 mm",
    "in",
    "1e3 furlong",
    "$&",
    "%s",
  ],
];

/** Any bytes, read as text. */
export function anyText(uniform: Uniform): string {
  const length = upTo(uniform, pick(uniform, [3, 30, 300]));
  const bytes = Uint8Array.from({ length }, () => Math.floor(256 * uniform()));
  return new TextDecoder().decode(bytes);
}

/** A good text with some of it cut out, doubled, changed over or written over. */
export function spoiltText(uniform: Uniform, good: string): string {
  let text = good;
  for (let turn = upTo(uniform, 3); turn >= 0; turn--) {
    const from = upTo(uniform, text.length);
    const to = Math.min(text.length, from + upTo(uniform, pick(uniform, [1, 8, 80, 1e6])));
    const [before, part, after] = [text.slice(0, from), text.slice(from, to), text.slice(to)];
    text = pick(uniform, [
      () => before + after,
      () => before + part + part + after,
      () => before + pick(uniform, TOKENS) + after,
      () => before + part + pick(uniform, TOKENS) + after,
      () => before,
      () => after + before,
      () => before + anyText(uniform) + after,
      () => before + part.replace(/\d/g, () => String(Math.floor(10 * uniform()))) + after,
    ])();
    // What doubles again and again tells no more.
    if (text.length > 4 * good.length + 20_000) text = text.slice(0, 4 * good.length + 20_000);
  }
  return text;
}

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

const NUMBERS = [
  0,
  -0,
  1,
  -1,
  2,
  0.5,
  1e-9,
  1e9,
  1e308,
  -1e308,
  5e-324,
  2 ** 31,
  2 ** 53,
  4.4,
  118,
  3.2,
  181,
];
const STRINGS = [
  "",
  " ",
  "118 mm",
  "4.4",
  "-1 mm",
  "1e400 mm",
  "NaN mm",
  "90 deg",
  "205 GPa",
  "5 in",
  "__proto__",
];

function anyValue(uniform: Uniform): Json {
  return pick<() => Json>(uniform, [
    () => null,
    () => uniform() < 0.5,
    () => pick(uniform, NUMBERS),
    () => pick(uniform, NUMBERS),
    () => pick(uniform, STRINGS),
    () => pick(uniform, TOKENS),
    () => [],
    () => ({}),
    () => Array.from({ length: upTo(uniform, 9) }, () => pick(uniform, NUMBERS)),
    () => ({ [pick(uniform, STRINGS)]: pick(uniform, NUMBERS) }),
  ])();
}

/** All places in a value that something can be done to. */
function places(value: Json, found: [Json[] | { [key: string]: Json }, string][] = []) {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    const holder = value as { [key: string]: Json };
    found.push([holder, key]);
    places(holder[key], found);
  }
  return found;
}

/** A good value, as text, with fields changed, left out, misspelt, moved or added. */
export function spoiltJson(uniform: Uniform, good: string): string {
  const value: Json = JSON.parse(good);
  for (let turn = upTo(uniform, 3); turn >= 0; turn--) {
    const all = places(value);
    if (all.length === 0) break;
    const [holder, key] = pick(uniform, all) as [{ [key: string]: Json }, string];
    const old = holder[key];
    pick(uniform, [
      () => {
        holder[key] = anyValue(uniform);
      },
      () => {
        if (typeof old === "number")
          holder[key] = old * pick(uniform, [-1, 0, 0.5, 0.999, 1.001, 2, 25.4, 1e3, 1e-3]);
        else holder[key] = anyValue(uniform);
      },
      () => {
        delete holder[key];
      },
      () => {
        delete holder[key];
        const other = spoiltText(uniform, key);
        // Far beyond the end of a list it would make a file of as many nulls.
        holder[Array.isArray(holder) && Number(other) > 1e5 ? key : other] = old;
      },
      () => {
        const [other, name] = pick(uniform, all) as [{ [key: string]: Json }, string];
        other[name] = structuredClone(old);
      },
      () => {
        holder[pick(uniform, STRINGS)] = anyValue(uniform);
      },
    ])();
  }
  return JSON.stringify(value);
}
