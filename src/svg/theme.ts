/**
 * Colours and lettering of the drawings. A page sets a colour by a custom property, `--ring-ink` and so on, for a dark screen for instance; the plain
 * value comes first, for readers without them. What matters is told by the kind of line too, for print in black.
 */

const COLOURS = {
  /** Lines and letters. */
  ink: "#1b2a33",
  /** What the drawing stands on. */
  paper: "#fff",
  /** The free ring, and what is made or measured. */
  free: "#c8742c",
  /** The closed ring, grids, counts. */
  closed: "#b9c7ce",
  bore: "#1b2a33",
  /** Where light passes. */
  light: "#f2d675",
} as const;

export type Colour = keyof typeof COLOURS;

/** A declaration that sets a property to one of the colours. */
export function colour(property: "fill" | "stroke", name: Colour): string {
  return `${property}:${COLOURS[name]};${property}:var(--ring-${name},${COLOURS[name]})`;
}

/** A stroke of a colour and width, dashed if told. */
export function stroke(name: Colour, width: number, dashes?: string): string {
  return `fill:none;${colour("stroke", name)};stroke-width:${width}${dashes ? `;stroke-dasharray:${dashes}` : ""}`;
}

export const LETTERS: string = `font-family:Georgia,'DejaVu Serif',serif;${colour("fill", "ink")}`;

/**
 * A style sheet for one drawing alone, so that several in one page leave each other's classes be.
 *
 * @param id of the drawing's root
 * @param rules declarations by selector within it
 */
export function styleSheet(id: string, rules: Readonly<Record<string, string>>): string {
  // What is more than a plain letter, digit, hyphen or low line must be escaped in a selector, and so must a digit or a hyphen at its head.
  const name = id
    .replace(/[^\w-]/gu, "\\$&")
    .replace(/^\d/, "\\3$& ")
    .replace(/^-/, "\\-");
  return `<style>\n${Object.entries(rules)
    .map(([selector, declarations]) => `#${name} ${selector}{${declarations}}`)
    .join("\n")}</style>`;
}
