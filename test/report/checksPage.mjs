import { scaleLog } from "d3-scale";

/** docs/checks.md and its picture, from what the checks reached. */

const shown = (value) => {
  if (value === 0) return "0";
  return value >= 0.01 && value < 1000 ? String(Number(value.toPrecision(3))) : value.toExponential(1);
};

/** The worst figure of each quantity of each case. */
function worst(figures) {
  const rows = new Map();
  for (const figure of figures) {
    const key = JSON.stringify([figure.quantity, figure.of]);
    const before = rows.get(key);
    const count = (before?.count ?? 0) + 1;
    const isWorse = !before || figure.error / figure.limit > before.error / before.limit;
    rows.set(key, { ...(isWorse ? figure : before), count });
  }
  return [...rows.values()];
}

const HEAD = `# Checks from outside

Every comparison with something that we did not write, its source, what it reached and what it is held to. Written by \`npm run report -- checks\`, which
runs the tests named here; a figure above its limit fails them. Shares unless a unit stands in the title. What the figures mean, and where they come from,
is told in [accuracy](accuracy.md). "From memory" says that the source was not at hand.

![What each check reached, and what it is held to](pictures/checks.svg)
`;

export function checksPage(checks, figures) {
  const parts = Object.entries(checks).map(([name, { title, source, test, unit }]) => {
    const rows = worst(figures.filter(({ check }) => check === name));
    if (rows.length === 0)
      throw new Error(`nothing was recorded of the check "${name}": is a program missing?`);
    const table = rows.map(
      ({ quantity, of, error, limit, count }) =>
        `| ${[quantity, of].filter((part) => part !== "").join(", ")} | ${count} | ${shown(error)} | ${shown(limit)} |`,
    );
    const heading = unit === undefined || unit.startsWith("see") ? title : `${title} (${unit})`;
    return [
      `## ${heading}`,
      "",
      `Source: ${source}. Test: [${test}](../${test}).`,
      "",
      "| what | cases | reached, at worst | held to |",
      "|---|---|---|---|",
      ...table,
      "",
    ].join("\n");
  });
  return `${HEAD}\n${parts.join("\n")}`;
}

const FRAME = { width: 760, left: 350, right: 24, top: 52, row: 18, bottom: 44 };
const STYLE =
  "text{font-family:Georgia,serif;font-size:12px;fill:#1f2a30}.title{font-size:14px}.grid{stroke:#cfd6d9}.limit{stroke:#1f2a30;stroke-width:1.5}.reached{fill:#c8702a}.room{stroke:#c8702a;stroke-width:1.5;stroke-opacity:.45}";

/** A dot for what each check reached, a stroke for what it is held to, on one logarithmic scale; shares alone. */
export function checksPicture(checks, figures) {
  const rows = Object.entries(checks)
    .filter(([, { unit }]) => unit === undefined)
    .map(([name, { title }]) => {
      const ofCheck = figures.filter(({ check }) => check === name);
      return {
        title: title.split(/[,:]/)[0],
        error: Math.max(1e-16, ...ofCheck.map(({ error }) => error)),
        limit: Math.max(...ofCheck.map(({ limit }) => limit)),
      };
    });
  const height = FRAME.top + FRAME.row * rows.length + FRAME.bottom;
  const x = scaleLog([1e-16, 1], [FRAME.left, FRAME.width - FRAME.right]);
  const floor = height - FRAME.bottom + 4;
  const at = (value) => x(value).toFixed(1);
  const powers = [-16, -14, -12, -10, -8, -6, -4, -2, 0];
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${FRAME.width} ${height}" role="img" aria-labelledby="checks-title">`,
    '<title id="checks-title">What each check reached, and what it is held to</title>',
    `<style>${STYLE}</style>`,
    `<text class="title" x="${FRAME.width / 2}" y="22" text-anchor="middle">Largest error of each check (dot) and what it is held to (stroke)</text>`,
    ...powers.map(
      (power) =>
        `<path class="grid" d="M${at(10 ** power)},${FRAME.top - 12}V${floor}"/><text x="${at(10 ** power)}" y="${floor + 18}" text-anchor="middle">${power === 0 ? "1" : `1e${power}`}</text>`,
    ),
    ...rows.flatMap(({ title, error, limit }, i) => {
      const y = FRAME.top + FRAME.row * i;
      return [
        `<text x="${FRAME.left - 14}" y="${y + 4}" text-anchor="end">${title}</text>`,
        `<path class="room" d="M${at(error)},${y}H${at(limit)}"/>`,
        `<path class="limit" d="M${at(limit)},${y - 6}v12"/>`,
        `<circle class="reached" cx="${at(error)}" cy="${y}" r="4"/>`,
      ];
    }),
    "</svg>",
  ].join("\n")}\n`;
}
