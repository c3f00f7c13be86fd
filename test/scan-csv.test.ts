import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { outlinePoints } from "../src/curves.js";
import { outlineCsv, readScanCsv } from "../src/files.js";
import { designRing, type Point, ringFromScan, SpecError } from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_NAMES, DEMO_RINGS, runs } from "./rings.js";

/** Points from tables, as measuring machines and spreadsheets write them. */

function refusal(text: Loose): SpecError {
  let error: unknown;
  try {
    readScanCsv(text);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

const rows = (count: number, row: (i: number) => string) => Array.from({ length: count }, (_, i) => row(i));

/** Points to rounding: units and angles multiply once, a unit in the last place of some tens of mm. */
function expectPoints(text: string, ...expected: Point[]): void {
  const { points, every } = readScanCsv(text);
  expect(every).toBe(1);
  expect(points).toHaveLength(expected.length);
  for (const [i, [x, y]] of expected.entries()) {
    expect(Math.abs(points[i][0] - x)).toBeLessThan(1e-13);
    expect(Math.abs(points[i][1] - y)).toBeLessThan(1e-13);
  }
}

describe("a table is read", () => {
  test.each<[what: string, text: string, ...points: Point[]]>([
    ["in mm", "x_mm,y_mm\n1,-2\n.5,+4e1\n", [1, -2], [0.5, 40]],
    ["without a last line feed", "x_mm,y_mm\n1,2\n3,4", [1, 2], [3, 4]],
    ["of angle and radius", "angle_deg,radius_mm\n0,2\n90,4\n-180,6\n", [2, 0], [0, 4], [-6, 0]],
    ["in radians", "angle_rad,radius_mm\n0,2\n3.141592653589793,4\n", [2, 0], [-4, 0]],
    ["in degrees by their sign", "angle_°,radius_mm\n90,4\n", [0, 4]],
    ["in inches", "x_in,y_in\n1,2\n", [25.4, 50.8]],
    ["in thou", "x_thou,y_thou\n1000,2\n", [25.4, 0.0508]],
    ["in cm and m", "x_cm,y_m\n1,0.002\n", [10, 2]],
    ["in um", "x_um,y_um\n1000,2\n", [1, 0.002]],
    ["in µm, by the sign or the Greek letter", "x_µm,y_\u03bcm\n1000,2\n", [1, 0.002]],
    ["with columns the other way round", "y_mm,x_mm\n1,2\n", [2, 1]],
    ["with other columns", "n,x_mm,note,y_mm,z_mm\n1,2,a,3,9\n", [2, 3]],
    ["with blanks about", " x_mm , y_mm \n 1 ,\t2 \n", [1, 2]],
    ["with quotes", '"x_mm","y_mm"\n"1","2"\n', [1, 2]],
    ["with commas in quotes", '"no, name",x_mm,y_mm\n"a, b",1,2\n', [1, 2]],
    ["with commas in quotes of the head, among columns alike", '"a, b",x_mm,y_mm,z_mm\n"c",1,2,3\n', [1, 2]],
    ["with both kinds of columns: by x and y", "angle_deg,radius_mm,x_mm,y_mm\n0,9,1,2\n", [1, 2]],
    ["with a byte-order mark", "\ufeffx_mm,y_mm\n1,2\n", [1, 2]],
    ["with returns", "x_mm,y_mm\r\n1,2\r\n3,4\r\n", [1, 2], [3, 4]],
    ["with blank lines", "\n \nx_mm,y_mm\n\n1,2\n  \n,\n3,4\n\n", [1, 2], [3, 4]],
    ["with comments", "# a\nx_mm,y_mm\n# b, c\n1,2\n  # d\n3,4\n#\n", [1, 2], [3, 4]],
    ["with quotes in comments", '#"a\nx_mm,y_mm\n1,2\n#b,"c\n3,4\n5,6\n', [1, 2], [3, 4], [5, 6]],
    ["of semicolons", "x_mm;y_mm\n1.5;2.5\n", [1.5, 2.5]],
    ["of semicolons, with decimal commas", "x_mm;y_mm\n1,5;-2,5e1\n", [1.5, -25]],
    ["of tabs, with decimal commas", "n\tx_mm\ty_mm\n1\t1,5\t2,5\n", [1.5, 2.5]],
    ["of quoted decimal commas", 'x_mm;y_mm\n"1,5";"2,5"\n', [1.5, 2.5]],
    ["with a column that only looks like one", "x_raw,x_mm,y_mm\n1,2,3\n", [2, 3]],
  ])("%s", (_, text, ...points) => {
    expectPoints(text, ...points);
  });

  test("with the line that each point stands on", () => {
    const text = '# a\n\nnote,x_mm,y_mm\r\na,1,2\n\n# b\nc,3,4\n,,\n"d",5,6';
    expect(readScanCsv(text).lines).toEqual([4, 7, 9]);
  });
});

describe("a table is refused by its line:", () => {
  const number = /must have a finite number in column/;
  const names = /must name the columns, as x_mm,y_mm or angle_deg,radius_mm; units/;
  const unit = /must have a known unit.*mm, cm, m, um, µm, in/;
  test.each<[what: string, text: string, line: number, value: string, allowed: RegExp]>([
    ["NaN", "x_mm,y_mm\n1,2\n1,NaN\n", 3, "NaN", number],
    ["infinity", "x_mm,y_mm\n-Infinity,2\n", 2, "-Infinity", number],
    ["too large a number", "x_mm,y_mm\n1,1e999\n", 2, "1e999", number],
    ["a number too large in mm", "x_m,y_m\n1,1e307\n", 2, "1e307", /finite/],
    ["text", "x_mm,y_mm\n1,2\n\n# c\n3,four\n", 5, "four", /in column y_mm/],
    ["two numbers in a cell", "x_mm,y_mm\n1 2,3\n", 2, "1 2", /in column x_mm/],
    ["a unit in a cell", "x_mm,y_mm\n1,2 mm\n", 2, "2 mm", number],
    ["a sign that is none", "x_mm,y_mm\n\u22121,2\n", 2, "\u22121", number],
    ["thousands", "x_mm;y_mm\n1.234,5;2\n", 2, "1.234,5", number],
    ["an empty cell", "# a\nx_mm,y_mm\n1,\n", 3, "", number],
    ["a blank cell", "x_mm,y_mm\n ,2\n", 2, " ", number],
    ["a missing cell", "x_mm,y_mm\n1,2\n3\n", 3, "", number],
    ["a quote that does not end", 'x_mm,y_mm\n1,2\n3,"4\n5,6\n', 3, "4\n5,6\n", number],
    ["no head", "1,2\n3,4\n", 1, "1,2", names],
    ["no units", "x,y\n1,2\n", 1, "x,y", names],
    ["half a point", "# a\n\nx_mm,angle_deg\n1,2\n", 3, "x_mm,angle_deg", names],
    ["an unknown unit", "x_mm,y_parsec\n1,2\n", 1, "y_parsec", unit],
    ["an angle in mm", "angle_mm,radius_mm\n1,2\n", 1, "angle_mm", /known unit.*rad, deg/],
    ["a length in degrees", "x_deg,y_deg\n1,2\n", 1, "x_deg", unit],
    ["a unit from elsewhere", "x_constructor,y_mm\n1,2\n", 1, "x_constructor", unit],
    ["nothing", "", 1, "", names],
    ["blank lines", "\n \n\n", 1, "", names],
    ["comments", "# x_mm,y_mm\n# 1,2\n", 1, "", names],
    ["no table", "{ }", 1, "{ }", names],
    ["a long line", "x".repeat(1e5), 1, "x".repeat(1e5), names],
  ])("%s", (_, text, line, value, allowed) => {
    const error = refusal(text);
    expect([error.field, error.value]).toEqual([`line ${line}`, value]);
    expect(error.allowed).toMatch(allowed);
  });

  test("more numbers than columns: decimal commas between commas, most likely", () => {
    expect(refusal("x_mm,y_mm\n1,5,2,5\n").field).toBe("line 2");
  });

  test.each([[undefined], [null], [5], [["x_mm,y_mm"]], [new Uint8Array(9)]])("no text: %s", (text) => {
    expect(refusal(text)).toMatchObject({ field: "text", value: text, allowed: "must be a table as text" });
  });
});

describe("a long table is thinned", () => {
  const long = `# from a machine\nx_mm,y_mm\n${rows(400_000, (i) => `${i},-${i}`).join("\n")}\n`;

  test("evenly, and says so", () => {
    const { points, lines, every } = readScanCsv(long);
    expect(every).toBe(2);
    expect(points).toHaveLength(200_000);
    for (const i of [0, 1, 99_999, 199_999]) {
      expect(points[i]).toEqual([2 * i, -2 * i]);
      expect(lines[i]).toBe(3 + 2 * i);
    }
  });

  test("by its rows, not by the lines between them", () => {
    const { points, every } = readScanCsv(long.replaceAll("\n", "\n\n"));
    expect(points.length).toBeGreaterThan(90_000);
    expect(points.length * every).toBeGreaterThan(399_000);
  });

  test("only where it must be", () => {
    const { points, every } = readScanCsv(`x_mm,y_mm\n${"1,2\n".repeat(250_000)}`);
    expect([every, points.length]).toEqual([1, 250_000]);
  });
});

describe("speed", () => {
  /** Of the ferry's outer face, in no order, with some 2 µm of noise. */
  const outer = outlinePoints(designRing(DEMO_RINGS["ferry 118 mm"]), { tolerance: 1e-5 }).outer;
  const many = rows(1_000_000, () => "").map((_, i): Point => {
    const place = ((i * 0.6180339887498949) % 1) * (outer.length - 1);
    const [k, noise] = [Math.floor(place), 0.004 * (((i * 0.7548776662466927) % 1) - 0.5)];
    const share = (place - k) * (1 + noise / 59);
    const at = (axis: 0 | 1) => outer[k][axis] + share * (outer[k + 1][axis] - outer[k][axis]);
    return [at(0) * (1 + noise / 59), at(1) * (1 + noise / 59)];
  });
  const timed = <T>(call: () => T): [T, number] => {
    const start = performance.now();
    return [call(), (performance.now() - start) / 1000];
  };

  test("a million rows are read in about a second, a million points scanned in two", () => {
    const text = `x_mm,y_mm\n${many.map(([x, y]) => `${x.toFixed(6)},${y.toFixed(6)}`).join("\n")}\n`;
    const [table, toRead] = timed(() => readScanCsv(text));
    const [ring, toScan] = timed(() => ringFromScan(many, { spec: DEMO_RINGS["ferry 118 mm"] }));
    console.log(
      `a million rows read in ${toRead.toFixed(2)} s, a million points scanned in ${toScan.toFixed(2)} s`,
    );
    expect(table.points.length * table.every).toBe(1_000_000);
    expect(ring.scan.points.given).toBe(1_000_000);
    expect(Math.abs(ring.free.gap - 11.114)).toBeLessThan(0.001);
    // One and two seconds on a quiet machine; ten times that where others work too.
    expect(toRead).toBeLessThan(10);
    expect(toScan).toBeLessThan(20);
  });
});

test.each(DEMO_NAMES)(
  "an outline as written to a file gives force and gap of the design back: %s",
  (name) => {
    const design = designRing(DEMO_RINGS[name]);
    const { points } = readScanCsv(outlineCsv(outlinePoints(design, { tolerance: 0.001 })));
    const { load, free, scan } = ringFromScan(frozen(points), { spec: DEMO_RINGS[name] });
    // Six decimals are written, chords keep within 1 µm; an opening of 0.1 of the bore leaves 1e-4 of it.
    expect(Math.abs(free.gap - design.free.gap)).toBeLessThan(1e-4 * design.free.gap);
    expect(Math.abs(load.tangentialForce / design.load.tangentialForce - 1)).toBeLessThan(2e-3);
    expect(scan.points.inner).toBeGreaterThan(60);
    expect(Math.abs((scan.wall as number) - design.spec.section.radialThickness)).toBeLessThan(0.001);
    expect(scan.points.outliers).toEqual([]);
  },
);

describe("whatever a table holds, it ends in finite points or in a refusal by line:", () => {
  const expectEnd = (text: string): void => {
    let table: ReturnType<typeof readScanCsv>;
    try {
      table = readScanCsv(text);
    } catch (error) {
      expect(error).toBeInstanceOf(SpecError);
      expect((error as SpecError).message).toMatch(/^line \d+ = .{1,290}$/);
      return;
    }
    const { points, lines } = table;
    expect(lines).toHaveLength(points.length);
    expect(points.flat().every(Number.isFinite)).toBe(true);
    const all = text.split("\n").length;
    expect(lines.every((line, i) => line > (lines[i - 1] ?? 1) && line <= all)).toBe(true);
  };

  const cell = fc.oneof(
    fc.double().map(String),
    fc.constantFrom(...`| |1|-2.5|1,5|NaN|"|"a|"1"|#|x_mm|1e400|\ufeff|\r`.split("|")),
    fc.string({ maxLength: 5, unit: "binary" }),
  );
  const head = fc.constantFrom(
    "x_mm,y_mm",
    "y_in;n;x_um",
    "angle_deg\tradius_mm",
    '"x_mm","a,b",y_m',
    "x_°,y_mm",
  );

  const expectAll = (texts: fc.Arbitrary<string>) => fc.assert(fc.property(texts, expectEnd), runs(1000));

  test("any text", () => {
    expectAll(fc.string({ unit: "binary", maxLength: 200 }));
  });

  test("cells of all kinds under a good head", () => {
    const row = fc.tuple(fc.array(cell, { maxLength: 4 }), fc.constantFrom(",", ";", "\t"));
    const body = fc.array(row, { maxLength: 6 });
    expectAll(
      fc
        .tuple(head, body, fc.constantFrom("\n", "\r\n", "\n\n"))
        .map(([first, all, feed]) => [first, ...all.map(([cells, by]) => cells.join(by))].join(feed)),
    );
  });

  test("a good table with pieces cut out, put in and changed", () => {
    const good = `# scan\nx_mm,y_mm,note\n${rows(20, (i) => `${i}.5,-${i},"a"`).join("\n")}\n`;
    const edits = fc.array(fc.tuple(fc.nat(good.length), fc.nat(9), cell), { minLength: 1, maxLength: 3 });
    const edited = (text: string, [at, out, put]: [number, number, string]) =>
      text.slice(0, at) + put + text.slice(at + out);
    expectAll(edits.map((all) => all.reduce(edited, good)));
  });
});
