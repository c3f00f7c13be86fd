import { coilingCsv } from "../../src/files/csv.js";
import {
  type Closure,
  closeInBore,
  coiling,
  describePressure,
  designRing,
  type RingDesign,
  ringOverview,
} from "../../src/index.js";
import { renderClosure, renderPanel, renderRing, renderSheet } from "../../src/svg.js";
import {
  boreOf,
  digitsOf,
  FIELDS,
  type Field,
  GROUPS,
  type Shared,
  START,
  specOf,
  type Values,
  valuesOf,
} from "./fields.js";

/** The page: fields on one side, what the library makes of them on the other. */

const INCH = 25.4;
let values: Values = START;
let inches = false;
let shown: { design: RingDesign; closure: Closure; values: Values } | undefined;

const byId = <T extends HTMLElement = HTMLElement>(id: string) => document.getElementById(id) as T;

/** Size of a field's unit on the page in the library's. */
const sizeOf = ({ unit }: Field) => (unit === "length" && inches ? INCH : 1);
const unitOf = ({ unit }: Field) => (unit === "length" ? (inches ? "in" : "mm") : unit);
const written = (field: Field) => {
  const size = sizeOf(field);
  return (values[field.id] / size).toFixed(digitsOf(field.step / size));
};

function makeFields(): void {
  byId("fields").innerHTML = GROUPS.map(
    ({ title, fields }) =>
      `<fieldset><legend>${title}</legend>${fields
        .map(
          ({ id, label }) =>
            `<div class="field"><label for="${id}">${label} <span id="${id}-unit"></span></label>` +
            `<input type="range" id="${id}-range" aria-label="${label}"><input type="number" id="${id}" inputmode="decimal"></div>`,
        )
        .join("")}</fieldset>`,
  ).join("");
  for (const field of FIELDS) {
    for (const id of [field.id, `${field.id}-range`]) {
      byId<HTMLInputElement>(id).addEventListener("input", ({ target }) => {
        const value = (target as HTMLInputElement).valueAsNumber * sizeOf(field);
        values = { ...values, [field.id]: value };
        showFields(target as HTMLInputElement);
        ask();
      });
    }
  }
}

/** Writes the values into all fields but the one that is being typed in. */
function showFields(but?: HTMLInputElement): void {
  for (const field of FIELDS) {
    const size = sizeOf(field);
    byId(`${field.id}-unit`).textContent = unitOf(field);
    for (const input of [byId<HTMLInputElement>(field.id), byId<HTMLInputElement>(`${field.id}-range`)]) {
      const digits = digitsOf(field.step / size);
      input.min = (field.min / size).toFixed(digits);
      input.max = (field.max / size).toFixed(digits);
      input.step = String(10 ** -digits);
      if (input !== but && Number.isFinite(values[field.id])) input.value = written(field);
    }
  }
}

let asked = false;
/** Computes once before the next frame, however many fields moved. */
function ask(): void {
  if (asked) return;
  asked = true;
  requestAnimationFrame(() => {
    asked = false;
    update();
  });
}

function update(): void {
  const start = performance.now();
  const message = byId("message");
  try {
    const empty = FIELDS.find(({ id }) => !Number.isFinite(values[id]));
    if (empty) throw new Error(`${empty.label} needs a number`);
    const design = designRing(specOf(values));
    const closure = closeInBore(design, boreOf(values));
    shown = { design, closure, values };
    draw(design, closure);
    message.textContent = design.warnings.map((warning) => `Warning: ${warning.message}.`).join(" ");
    byId("results").classList.remove("stale");
    remember();
  } catch (error) {
    message.textContent = `${(error as Error).message}. What is shown is the last ring that can be.`;
    byId("results").classList.add("stale");
  }
  performance.measure("update", { start });
}

function draw(design: RingDesign, closure: Closure): void {
  byId("ring").innerHTML = renderPanel("ring", { design }, { id: "drawn-ring" });
  byId("contact").innerHTML = renderClosure(closure, {
    id: "drawn-contact",
    title: "Contact pressure in this bore, light gaps marked",
  });
  const length = (value: number) => (inches ? `${(value / INCH).toFixed(4)} in` : `${value.toFixed(3)} mm`);
  const { tape } = describePressure(design, 2);
  const rows = {
    force: `${design.load.tangentialForce.toFixed(2)} N`,
    tape: `${tape.tangentialForce.toFixed(2)} N`,
    "free-gap": length(design.free.gap),
    stiffness: design.stiffnessParameter.toFixed(5),
    stress: `${design.stress.closing.max.toFixed(0)} MPa`,
    "gap-there": length(closure.closedGap),
    tight: `${(100 * closure.contactShare).toFixed(2)} %`,
    lowest: `${Math.min(...closure.pressure).toFixed(4)} MPa`,
  };
  for (const [id, text] of Object.entries(rows)) byId(id).textContent = text;
}

let timer = 0;
/** Puts the ring into the address once the fields rest. */
function remember(): void {
  clearTimeout(timer);
  timer = window.setTimeout(() => history.replaceState(null, "", `#${linked()}`), 300);
}

/** Of the ring that is shown, whatever the fields hold by now. */
function linked(): string {
  const of = shown?.values ?? START;
  return encodeURIComponent(JSON.stringify({ spec: specOf(of), bore: boreOf(of) } satisfies Shared));
}

/** The ring in the address; the demo ring where there is none, or a broken one, and then a message. */
function fromAddress(): void {
  const text = location.hash.slice(1);
  byId("link-message").textContent = "";
  if (text === "") return;
  try {
    const shared = JSON.parse(decodeURIComponent(text)) as Shared;
    const read = valuesOf(shared);
    closeInBore(designRing(specOf(read)), boreOf(read));
    values = read;
  } catch (error) {
    values = START;
    byId("link-message").textContent =
      `The link does not hold a ring for this page (${(error as Error).message}); this is the demo ring.`;
  }
}

const FILES: Readonly<
  Record<string, (design: RingDesign, values: Values) => readonly [name: string, type: string, text: string]>
> = {
  "save-ring": (design) => ["ring.svg", "image/svg+xml", renderRing(design)],
  "save-sheet": (design) => ["ring-sheet.svg", "image/svg+xml", renderSheet(ringOverview(design))],
  "save-spec": (_, of) => ["ring.json", "application/json", `${JSON.stringify(specOf(of), null, 2)}\n`],
  "save-coiling": (design) => ["coiling.csv", "text/csv", coilingCsv(coiling(design).table)],
};

function makeButtons(): void {
  for (const [id, make] of Object.entries(FILES)) {
    byId(id).addEventListener("click", () => {
      if (!shown) return;
      const [name, type, text] = make(shown.design, shown.values);
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([text], { type }));
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    });
  }
  byId("units").addEventListener("click", ({ currentTarget }) => {
    inches = !inches;
    (currentTarget as HTMLElement).setAttribute("aria-pressed", String(inches));
    showFields();
    update();
  });
  byId("reset").addEventListener("click", () => {
    values = START;
    byId("link-message").textContent = "";
    showFields();
    update();
  });
  addEventListener("hashchange", () => {
    fromAddress();
    showFields();
    update();
  });
}

makeFields();
makeButtons();
fromAddress();
showFields();
update();
