import type { RingOverview } from "../overview/ringOverview.js";
import type { RenderOptions } from "./chart.js";
import type { Box } from "./panel.js";
import { alongPanel } from "./panelAlong.js";
import { closingPanel } from "./panelClosing.js";
import { gapPanel } from "./panelGap.js";
import { pressurePanel } from "./panelPressure.js";
import { ringPanel } from "./panelRing.js";
import { SHEET_STYLE } from "./sheetStyle.js";
import { escapeText, idPrefix } from "./text.js";
import { styleSheet } from "./theme.js";

type OfDesign = Pick<RingOverview, "design">;

/** The pictures of the ring sheet, with their sizes and titles. mm. */
const PANELS = {
  ring: {
    width: 100,
    height: 98,
    title: "The ring, free and in its bore",
    draw: ({ design }: OfDesign, box: Box) => ringPanel(design, box),
  },
  pressure: { width: 100, height: 98, title: "Contact pressure round the ring", draw: pressurePanel },
  gap: {
    width: 100,
    height: 62,
    title: "The gap, free and closed",
    draw: ({ design }: OfDesign, box: Box) => gapPanel(design, box),
  },
  closing: { width: 100, height: 58, title: "The ring on its way from free to closed", draw: closingPanel },
  moment: {
    width: 100,
    height: 44,
    title: "Bending moment along the closed ring",
    draw: ({ design: { installed } }: OfDesign, box: Box) =>
      alongPanel(
        installed.theta,
        [{ kind: "curve", values: installed.moment }],
        "Bending moment along the ring, N·mm",
        box,
      ),
  },
  stress: {
    width: 100,
    height: 44,
    title: "Stress along the closed ring",
    draw: ({ design, stress }: Pick<RingOverview, "design" | "stress">, box: Box) =>
      alongPanel(
        design.installed.theta,
        [
          { kind: "curve", values: stress.outer },
          { kind: "dashed", values: stress.inner },
        ],
        "Stress, closed: outer fibre, and inner dashed, MPa",
        box,
      ),
  },
} as const;

/** The pictures of the ring sheet: `ring`, `pressure`, `gap`, `closing`, `moment` and `stress`. */
export type PanelName = keyof typeof PANELS;

/** What of an overview a picture shows. */
export type PanelNeeds<Name extends PanelName> = Parameters<(typeof PANELS)[Name]["draw"]>[0];

/** A panel within a field of a sheet. */
export function panel<Name extends PanelName>(name: Name, overview: PanelNeeds<Name>, box: Box): string {
  const draw = PANELS[name].draw as (overview: PanelNeeds<Name>, box: Box) => string;
  return draw(overview, box);
}

const MARGIN = 3;

/**
 * One picture of the ring sheet by itself: `ring`, `pressure`, `gap`, `closing`, `moment` or `stress`.
 *
 * @param name which picture
 * @param overview from `ringOverview`; `ring`, `gap` and `moment` need its `design` alone
 * @param options title and prefix of the ids
 * @returns an SVG document in mm, the same text on every machine; no scripts, no outside references
 * @throws NotFound when no number of curves comes within what the picture needs
 *
 * @example
 * renderPanel("ring", { design }, { id: "one" }).startsWith("<svg "); // true
 */
export function renderPanel<Name extends PanelName>(
  name: Name,
  overview: PanelNeeds<Name>,
  options: RenderOptions = {},
): string {
  const { width, height, title } = PANELS[name];
  const id = idPrefix(options.id);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${id}" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-title">`,
    `<title id="${id}-title">${escapeText(options.title ?? title)}</title>`,
    styleSheet(id, SHEET_STYLE),
    `<rect class="paper" width="${width}" height="${height}"/>`,
    panel(name, overview, { x: MARGIN, y: MARGIN, width: width - 2 * MARGIN, height: height - 2 * MARGIN }),
    "</svg>",
    "",
  ].join("\n");
}
