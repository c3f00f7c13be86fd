import type { RingOverview } from "../overview/ringOverview.js";
import type { RenderOptions } from "./chart.js";
import { type Box, decimals, figure, inDegrees, inside, LINE, words } from "./panel.js";
import { panel } from "./renderPanel.js";
import { SHEET_STYLE } from "./sheetStyle.js";
import { escapeText, fixed, idPrefix } from "./text.js";
import { styleSheet } from "./theme.js";

/** A4 upright, mm, with its margin (ISO 216). */
const PAGE = { width: 210, height: 297, margin: 12 };

const CAUTIONS = [
  "Design guidance, computed for an ideal elastic ring; the engine maker's limits, local codes and qualified practice come first.",
  "Ends that butt when hot score the bore and break lands: check the gap for heat, and err on the wide side.",
  "Spreading the ring over its piston usually costs more stress than closing it. A held ring stores energy: eye protection.",
];

/**
 * One sheet that tells the whole ring, A4 upright and in mm: free and closed to a standard scale with dimensions, pressure round the ring, the gap
 * enlarged, closing in a band, bending moment and stress along the ring, a table, warnings and cautions. Print it unscaled: the bar at the foot
 * is 50 mm long.
 *
 * @param overview from `ringOverview`
 * @param options title and prefix of the ids
 * @returns an SVG document, the same text on every machine; no scripts, no outside references
 * @throws NotFound when no number of curves comes within what the picture needs
 *
 * @example
 * renderSheet(ringOverview(design)).startsWith("<svg "); // true
 */
export function renderSheet(overview: RingOverview, options: RenderOptions = {}): string {
  const { design } = overview;
  const { spec } = design;
  const id = idPrefix(options.id);
  const { bore, section } = spec;
  const title =
    options.title ??
    `Ring Ø${fixed(bore)} × ${fixed(section.radialThickness)} × ${fixed(section.axialHeight)} mm`;
  const description = `Drawing sheet of a piston ring: free gap ${design.free.gap.toFixed(2)} mm, closed gap ${spec.closedGap.toFixed(2)} mm, tangential force ${design.load.tangentialForce.toFixed(2)} N, largest closing stress ${design.stress.closing.max.toFixed(0)} MPa.`;
  const { width, height, margin } = PAGE;
  const column = (width - 2 * margin - 6) / 2;
  const field = (side: 0 | 1, y: number, high: number): Box => ({
    x: margin + side * (column + 6),
    y,
    width: column,
    height: high,
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${id}" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${escapeText(title)}</title>`,
    `<desc id="${id}-desc">${escapeText(description)}</desc>`,
    styleSheet(id, SHEET_STYLE),
    `<rect class="paper" width="${width}" height="${height}"/>`,
    words(margin, 17, title, { size: 5.5, within: width - 2 * margin }),
    `<path class="strong" d="M${margin},20H${width - margin}"/>`,
    panel("ring", overview, field(0, 24, 98)),
    panel("pressure", overview, field(1, 24, 98)),
    panel("gap", overview, field(0, 126, 58)),
    panel("closing", overview, field(1, 126, 58)),
    panel("moment", overview, field(0, 188, 40)),
    panel("stress", overview, field(1, 188, 40)),
    table(overview, { x: margin, y: 231, width: width - 2 * margin, height: 32 }),
    ...notes(overview, { x: margin, y: 263, width: width - 2 * margin, height: 24 }),
    "</svg>",
    "",
  ].join("\n");
}

/** What stands in no picture, in two columns. */
function table({ design, follows }: RingOverview, box: Box): string {
  const { spec, load, stress, stiffnessParameter, free } = design;
  const { material } = spec;
  const back = free.theta.indexOf(0);
  const [first] = follows.limits;
  const rows: readonly (readonly [string, string])[] = [
    [
      "Material",
      `${material.name ? `${material.name}, ` : ""}E ${(material.youngsModulus / 1000).toFixed(1)} GPa`,
    ],
    ["Tangential force Ft", `${load.tangentialForce.toFixed(2)} N`],
    ["Contact pressure p0", `${load.contactPressure.toPrecision(4)} MPa`],
    ["Stiffness parameter K", stiffnessParameter.toFixed(5)],
    ["Balance e", decimals(load.balance, 5)],
    ["Theory", `${spec.theory} bar, ${spec.stations} stations a half`],
    ["Bend radius at the back", `${(1 / free.curvature[back]).toFixed(3)} mm`],
    ["Bend radius at the ends", `${(1 / free.curvature[0]).toFixed(3)} mm`],
    [
      "Largest closing stress",
      `${stress.closing.max.toFixed(0)} MPa at ${inDegrees(stress.closing.theta, 0)}`,
    ],
    ["Wedge if cut square", `${design.ends.wedgeIfSquare.toFixed(4)} mm`],
    ...(first
      ? [
          [
            `Follows order ${first.order} all round to`,
            `${(1000 * first.fullContact).toFixed(1)} µm`,
          ] as const,
        ]
      : []),
  ];
  const field = inside(box);
  const half = Math.ceil(rows.length / 2);
  const column = field.width / 2;
  return figure(
    box,
    "Data",
    rows.flatMap(([label, value], k) => {
      const x = field.x + (k < half ? 0 : column + 3);
      const y = field.y + 2.4 + (k % half) * LINE;
      return [
        words(x, y, label, { within: 0.48 * column }),
        words(x + 0.5 * column, y, value, { within: 0.44 * column }),
      ];
    }),
  );
}

/** Warnings shown; more are counted. */
const MOST_WARNINGS = 3;

/** Warnings before cautions, and the bar by which a print is checked. */
function notes({ design }: RingOverview, box: Box): string[] {
  const { warnings } = design;
  const more = warnings.length - MOST_WARNINGS;
  const told = warnings.slice(0, MOST_WARNINGS).map(({ message }, k) => {
    const rest = more > 0 && k === MOST_WARNINGS - 1 ? ` (and ${more} more)` : "";
    return `! ${message}${rest}`;
  });
  const line = (text: string, k: number) => words(box.x, box.y + k * LINE, text, { within: box.width });
  const [end, level] = [box.x + box.width, box.y + (MOST_WARNINGS + CAUTIONS.length) * LINE + 2];
  return [
    ...told.map(line),
    ...CAUTIONS.map((caution, k) => line(caution, MOST_WARNINGS + k)),
    `<path class="strong" d="M${fixed(end - 50)},${fixed(level - 1.2)}v2.4m0-1.2h50m0-1.2v2.4"/>`,
    words(end - 53, level + 1, "50 mm long where it is printed unscaled", { anchor: "end" }),
  ];
}
