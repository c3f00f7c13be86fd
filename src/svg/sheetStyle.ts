import { colour, LETTERS, stroke } from "./theme.js";

/** Line kinds after ISO 128: continuous wide and narrow, dashed narrow, long-dashed dotted narrow (from memory). */
export const SHEET_STYLE: Readonly<Record<string, string>> = {
  ".paper": colour("fill", "paper"),
  ".free": `${colour("fill", "free")};fill-opacity:.85;${colour("stroke", "ink")}`,
  ".closed": `${colour("fill", "closed")};${colour("stroke", "ink")}`,
  ".strong": stroke("ink", 0.5),
  ".curve": `${stroke("free", 0.5)};stroke-linejoin:round`,
  ".band": `${colour("fill", "free")};fill-opacity:.22`,
  ".thin": stroke("ink", 0.18),
  ".dashed": stroke("ink", 0.25, "2 1"),
  ".axis": stroke("ink", 0.13, "6 1 .6 1"),
  ".grid": stroke("closed", 0.18),
  ".solid": colour("fill", "ink"),
  text: `${LETTERS};direction:ltr`,
};
