// Draws the pictures of the theory manual, theory-*.svg, beside this file: `npm run build && node docs/pictures/draw.mjs`.
// The same text on every machine; test/theory-manual.test.ts holds the committed files to it.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { parse } from "jsonc-parser";
import { closeInBore, conformability, designRing, ringOfCurvature } from "../../dist/index.js";
import { renderClosure, renderConformability, renderPanel, renderRing } from "../../dist/svg.js";

const example = (name) =>
  parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));
const degrees = (angle) => (angle * 180) / Math.PI;

// Colours are the custom properties of all drawings, as the README names them; the plain value comes first.
const COLOURS = { ink: "#1b2a33", paper: "#fff", free: "#c8742c", closed: "#b9c7ce" };
const colour = (property, name) =>
  `${property}:${COLOURS[name]};${property}:var(--ring-${name},${COLOURS[name]})`;
const stroke = (name, width, dashes) =>
  `fill:none;${colour("stroke", name)};stroke-width:${width}${dashes ? `;stroke-dasharray:${dashes}` : ""}`;
const KINDS = {
  heavy: stroke("free", 2.25),
  plain: stroke("ink", 1.5),
  dashed: stroke("ink", 1.5, "7 4"),
  dotted: stroke("free", 1.75, "1.5 4"),
};

const FRAME = { width: 720, height: 380, left: 64, right: 28, top: 68, bottom: 58 };
const number = (value) => String(Number(value.toFixed(2)));

/** A picture of curves over a common abscissa, each with its kind of line and its words. */
function chart({ id, title, across, from, to, ticks, low, high, curves, marks = [] }) {
  const { width, height, left, right, top, bottom } = FRAME;
  const x = scaleLinear([from, to], [left, width - right]);
  const y = scaleLinear([low, high], [height - bottom, top]);
  const text = (at, level, words, anchor = "middle") =>
    `<text x="${number(at)}" y="${number(level)}" text-anchor="${anchor}">${words}</text>`;
  const level = y.tickFormat(6);
  const path = line()
    .x(([at]) => x(at))
    .y(([, value]) => y(value))
    .digits(1);
  const key = curves.map(({ kind, words }, i) => {
    const at = left + ((width - left - right) / curves.length) * i;
    return `<path class="${kind}" d="M${number(at)},44h26"/>${text(at + 32, 48, words, "start")}`;
  });
  const rules = {
    ".paper": colour("fill", "paper"),
    ".grid": stroke("closed", 0.75),
    text: `font-family:Georgia,'DejaVu Serif',serif;${colour("fill", "ink")};font-size:13px`,
    ...Object.fromEntries(Object.entries(KINDS).map(([kind, rule]) => [`.${kind}`, rule])),
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${id}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-title">`,
    `<title id="${id}-title">${title}</title>`,
    `<style>\n${Object.entries(rules)
      .map(([selector, rule]) => `#${id} ${selector}{${rule}}`)
      .join("\n")}</style>`,
    `<rect class="paper" width="${width}" height="${height}"/>`,
    text(width / 2, 22, title),
    ...key,
    ...y
      .ticks(6)
      .flatMap((tick) => [
        `<path class="grid" d="M${left},${number(y(tick))}H${width - right}"/>`,
        text(left - 8, y(tick) + 4, level(tick), "end"),
      ]),
    ...ticks.map(
      ([at, words]) =>
        `<path class="grid" d="M${number(x(at))},${height - bottom}v6"/>${text(x(at), height - bottom + 20, words)}`,
    ),
    ...curves.map(({ kind, points }) => `<path class="${kind}" d="${path(points)}"/>`),
    ...marks.map(
      ([at, value, words, dx, dy]) =>
        `<circle cx="${number(x(at))}" cy="${number(y(value))}" r="3.5"/>${text(x(at) + dx, y(value) + dy, words, "start")}`,
    ),
    text(width / 2, height - 12, across),
    "</svg>",
    "",
  ].join("\n");
}

const TURNS = {
  across: "angle from the back",
  from: -180,
  to: 180,
  ticks: [-180, -90, 0, 90, 180].map((angle) => [angle, `${angle}°`.replace("-", "−")]),
};
const along = (theta, values) => theta.map((angle, i) => [degrees(angle), values[i]]);

/** All pictures: file name to SVG. */
export function pictures() {
  const ferrySpec = example("ferry-118");
  const motorcycleSpec = example("motorcycle-54");
  const gasSpec = example("gas-engine-340");
  const [ferry, motorcycle, gas] = [ferrySpec, motorcycleSpec, gasSpec].map((spec) => designRing(spec));

  const { theta, pressure, moment, shear, centroidRadius: r } = ferry.installed;
  const { tangentialForce: Ft, contactPressure: p0 } = ferry.load;
  const over = (values, unit) => values.map((value) => value / unit);

  const shapes = [
    ["plain", "uniform", { shape: "uniform" }],
    ["heavy", "more at gap, 0.5", { shape: "moreAtGap", strength: 0.5 }],
    ["dashed", "less at gap, 0.6", { shape: "lessAtGap", strength: 0.6 }],
    [
      "dotted",
      "seven samples",
      {
        shape: "sampled",
        angle: [0, 30, 60, 90, 120, 150, 180].map((angle) => `${angle} deg`),
        relative: [1.051, 1.047, 1.137, 0.896, 0.454, 0.676, 2.861],
      },
    ],
  ];

  const freeCurvature = ({ free, installed }) =>
    along(free.theta, over(free.curvature, 1 / installed.centroidRadius));

  const thin = { ...ferrySpec, theory: "thin", closedGap: 0 };
  const gapAt = (K) => {
    const force = (K * Ft) / ferry.stiffnessParameter;
    return designRing({ ...thin, load: { tangentialForce: force }, stations: 90 }).free.gap / r;
  };
  const openings = Array.from({ length: 50 }, (_, k) => 0.01 * (k + 1) - (k === 49 ? 1e-9 : 0));

  const { radialThickness: wall, axialHeight, slots } = gasSpec.section;
  const softer = (pitch) => {
    const ring = { ...gasSpec, stations: 30, pressure: { shape: "uniform" } };
    const plain = designRing({ ...ring, section: { radialThickness: wall, axialHeight } });
    // All round: what a pitch does not fill is left at the ends, which bend the least.
    const section = {
      radialThickness: wall,
      axialHeight,
      slots: { depth: slots.depth, width: slots.width, pitch },
    };
    return designRing({ ...ring, section }).stiffnessParameter / plain.stiffnessParameter;
  };
  const net = (1 - slots.depth / wall) ** -3;
  const pitches = Array.from({ length: 46 }, (_, k) => 2 + k);

  const round = ringOfCurvature(
    { bore: 118, closedGap: 0.45, section: ferrySpec.section, material: ferrySpec.material },
    1 / 62,
  );

  return {
    "theory-free-closed.svg": renderRing(motorcycle, {
      title: "A ring with less pressure at the gap, free and closed",
      id: "theory-free-closed",
    }),
    "theory-families.svg": chart({
      id: "theory-families",
      title: "Pressure over p₀, balanced",
      ...TURNS,
      low: 0,
      high: 3,
      curves: shapes.map(([kind, words, shape]) => {
        const ring = designRing({ ...ferrySpec, pressure: shape, stations: 90 });
        return { kind, words, points: along(ring.installed.theta, over(ring.installed.pressure, p0)) };
      }),
    }),
    "theory-forces.svg": chart({
      id: "theory-forces",
      title: "The closed ferry ring: pressure, moment and shear",
      ...TURNS,
      low: -1,
      high: 2,
      curves: [
        { kind: "plain", words: "p/p₀", points: along(theta, over(pressure, p0)) },
        { kind: "heavy", words: "M/(Ft·r)", points: along(theta, over(moment, Ft * r)) },
        { kind: "dashed", words: "V/Ft", points: along(theta, over(shear, Ft)) },
      ],
    }),
    "theory-curvature.svg": chart({
      id: "theory-curvature",
      title: "Free curvature times r: 1 is the closed circle",
      ...TURNS,
      low: 0.94,
      high: 1.01,
      curves: [
        { kind: "heavy", words: "ferry, uniform", points: freeCurvature(ferry) },
        { kind: "plain", words: "motorcycle, less at gap", points: freeCurvature(motorcycle) },
        { kind: "dashed", words: "gas engine, slotted", points: freeCurvature(gas) },
      ],
    }),
    "theory-free-gap.svg": chart({
      id: "theory-free-gap",
      title: "Free gap over r of the thin ring without a closed gap",
      across: "K = Ft·r²/(E·I)",
      from: 0,
      to: 0.5,
      ticks: [0, 0.1, 0.2, 0.3, 0.4, 0.5].map((K) => [K, String(K)]),
      low: 0,
      high: 6,
      curves: [
        { kind: "heavy", words: "exact", points: [[0, 0], ...openings.map((K) => [K, gapAt(K)])] },
        {
          kind: "dashed",
          words: "small openings, 3π·K",
          points: [
            [0, 0],
            [0.5, 1.5 * Math.PI],
          ],
        },
      ],
      marks: [
        [ferry.stiffnessParameter, gapAt(ferry.stiffnessParameter), "ferry ring", 26, 4],
        [0.5, gapAt(0.5 - 1e-9), "back straight when free", -150, -10],
      ],
    }),
    "theory-ends.svg": renderPanel("gap", { design: ferry }, { id: "theory-ends" }),
    "theory-slots.svg": chart({
      id: "theory-slots",
      title: "How much softer slots make the wall, 3.5 mm deep and 1.5 mm wide in 11 mm",
      across: "pitch of the slots, mm",
      from: 0,
      to: 48,
      ticks: [0, 12, 24, 36, 48].map((pitch) => [pitch, String(pitch)]),
      low: 1,
      high: 3.5,
      curves: [
        { kind: "heavy", words: "model", points: pitches.map((pitch) => [pitch, softer(pitch)]) },
        {
          kind: "dashed",
          words: "net section everywhere",
          points: [
            [slots.width, net],
            [48, net],
          ],
        },
        {
          kind: "plain",
          words: "in the slots only",
          points: [slots.width, ...pitches].map((pitch) => [pitch, 1 + (slots.width / pitch) * (net - 1)]),
        },
      ],
      marks: [[12, softer(12), "gas engine ring", 10, -6]],
    }),
    "theory-contact.svg": renderClosure(closeInBore(round, {}, { stations: 240 }), {
      title: "A ring that is round when free, 62 mm at mid wall, in the ferry's bore",
      id: "theory-contact",
    }),
    "theory-conformability.svg": renderConformability(conformability(gas), {
      title: "Lobes that the gas engine ring follows, order by order",
      id: "theory-conformability",
    }),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, svg] of Object.entries(pictures())) writeFileSync(new URL(name, import.meta.url), svg);
}
