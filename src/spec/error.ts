/**
 * A wrong argument: which field, what it was, what is allowed. The message is always one line.
 *
 * @example
 * try {
 *   designRing({ ...spec, bore: -1 });
 * } catch (error) {
 *   if (error instanceof SpecError) error.field; // "bore"
 * }
 */
export class SpecError extends Error {
  /** Always "SpecError", also where classes of two copies of the library meet. */
  override readonly name = "SpecError";
  /** Path of the field, as in `load.freeGap`. */
  readonly field: string;
  /** The value that was refused, as given. */
  readonly value: unknown;
  /** What would have been accepted, in words. */
  readonly allowed: string;

  /**
   * @param field path of the field
   * @param value as given
   * @param allowed what would have been accepted, in words
   */
  constructor(field: string, value: unknown, allowed: string) {
    super(`${short(JSON.stringify(field).slice(1, -1), LONGEST_FIELD)} = ${show(value)}: ${allowed}`);
    this.field = field;
    this.value = value;
    this.allowed = allowed;
  }
}

/** NaN and infinities as text between marks, which come off again afterwards; of a list no more than can be shown. */
const marked = (_: string, value: unknown) => {
  if (Array.isArray(value)) return value.length > LONGEST_VALUE ? value.slice(0, LONGEST_VALUE) : value;
  return typeof value === "number" && !Number.isFinite(value) ? `\0${value}\0` : value;
};
const MARKED = /"\\u0000([\w-]+)\\u0000"/g;

/** A value as one short line; JSON would turn NaN and Infinity into null. */
function show(value: unknown): string {
  if (value === undefined) return "(missing)";
  if (typeof value === "number" || typeof value === "bigint") return String(value);
  if (typeof value === "function" || typeof value === "symbol") return `(${typeof value})`;
  let text: string;
  try {
    text = JSON.stringify(value, marked)?.replace(MARKED, "$1") ?? String(value);
  } catch {
    text = `(${typeof value})`;
  }
  return short(text, LONGEST_VALUE);
}

/** Of a field's path, which a file may make as long as it likes, and of a value. */
const LONGEST_FIELD = 120;
const LONGEST_VALUE = 60;

const short = (text: string, limit: number) =>
  text.length > limit ? `${text.slice(0, limit - 3)}...` : text;
