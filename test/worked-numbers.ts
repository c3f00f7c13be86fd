import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { factorsOf } from "../src/batch/factors.js";
import { variantsOf } from "../src/batch/variants.js";
import { closedGeometry } from "../src/forces/geometry.js";
import {
  closeInBore,
  coiling,
  conformability,
  curvatureAfter,
  curvatureBefore,
  describePressure,
  describeSection,
  designRing,
  diametralTest,
  endsInBand,
  fullContactAmplitude,
  gapCutting,
  grooveFit,
  heatSet,
  hotRing,
  mandrelCurvature,
  pressureOf,
  proveClosure,
  type RingSpecInput,
  ringFromScan,
  ringOfCurvature,
  semiEmpiricalAmplitude,
  spreadRing,
  tapeTest,
} from "../src/index.js";
import { normalQuantile } from "../src/numeric/normalQuantile.js";
import { curvedSecondMoment, secondMoment } from "../src/section/rectangle.js";
import { crackRotation, slotShare } from "../src/section/slots.js";
import { taperShare } from "../src/section/wall.js";
import { backOf } from "./rings.js";

/**
 * The worked numbers of the theory manual, docs/theory/: block, then name, then its value by every way there is, the library's and that of
 * the formulas written out once more here. All of them must be the number printed.
 */
type Ways = readonly number[];
export type WorkedBlock = () => Readonly<Record<string, Ways>>;

const { PI, cos, sin, asin, sqrt, tan } = Math;

const example = (name: string): RingSpecInput =>
  parse(readFileSync(new URL(`../examples/${name}.json`, import.meta.url), "utf8"));
const ferrySpec = example("ferry-118");
const ferry = designRing(ferrySpec);
const ferryThin = designRing({ ...ferrySpec, theory: "thin" });
/** Without a gap every formula is in closed form. */
const ferryPlain = designRing({ ...ferrySpec, theory: "thin", closedGap: 0 });
const motorcycle = designRing(example("motorcycle-54"));
const gasSpec = example("gas-engine-340");
const gas = designRing(gasSpec);

/** Simpson's rule; the integrands are smooth. */
function integral(from: number, to: number, f: (x: number) => number, panels = 2000): number {
  const step = (to - from) / (2 * panels);
  let sum = f(from) + f(to);
  for (let k = 1; k < 2 * panels; k++) sum += (k % 2 === 1 ? 4 : 2) * f(from + k * step);
  return (sum * step) / 3;
}

const degrees = (angle: number) => (angle * 180) / PI;
const atBack = (values: readonly number[]) => values[(values.length - 1) / 2];

// The ferry ring by hand.
const E = 205000;
const [d, s, a, h, p0] = [118, 0.45, 4.4, 2, 0.15];
const [R, r] = [d / 2, (d - a) / 2];
const A = a * h;
const I = (h * a ** 3) / 12;
const thetaC = PI - asin(s / (2 * r));
const thetaL = PI - asin(s / (2 * R));
const delta = asin(s / (2 * r));
const Ft = p0 * h * R;
const K = (Ft * r * r) / (E * I);
const e = (-2 * sin(thetaL)) / (thetaL + sin(thetaL) * cos(thetaL));
const C = -(1 + 0.5 * e * thetaL * sin(thetaL)) / cos(thetaL);
const momentAt = (theta: number) => Ft * r * (1 + C * cos(theta) + 0.5 * e * theta * sin(theta));
const shearAt = (theta: number) => -Ft * (-C * sin(theta) + 0.5 * e * (sin(theta) + theta * cos(theta)));
const M = momentAt(0);
const N = -M / r;
const pressureAtBack = p0 * (1 + e);
const m = ferry.free.gap;

/** The curved bar's law backwards, by plain repetition. */
function curvedBack() {
  const shearRate = (12 / (5 * E * A)) * (M / r - h * R * pressureAtBack);
  const kappa = (1 - shearRate) / r;
  const gain = 1 + (a / r) ** 2 / 10;
  let kappa0 = 1 / r - M / (E * I);
  let [Z2, stretch, turn] = [0, 0, 0];
  for (let round = 0; round < 30; round++) {
    const x = (kappa0 * a) / 2;
    Z2 = I * (1 + (3 / 5) * x ** 2 + (3 / 7) * x ** 4);
    stretch = (N + kappa0 * M) / (E * A);
    turn = gain * (M / (E * Z2) + kappa0 * stretch);
    kappa0 = (1 + stretch) * kappa - turn;
  }
  return { shearRate, gain, kappa0, Z2, stretch, turn };
}

// The motorcycle ring: less at the gap, strength 0.6.
const bump = [2, 3, 4, 5, 6].map((i) => ({ i, c: (-0.6 * (i % 2 === 0 ? 1 : -1) * (7 - i)) / 15 }));
const small = { R: 27, r: 25.9, h: 1.5, a: 2.2, E: 169000, p0: 0.12, s: 0.2 };
const smallFt = small.p0 * small.h * small.R;
const smallK = (smallFt * small.r ** 2) / (small.E * ((small.h * small.a ** 3) / 12));
const smallLimit = PI - asin(small.s / (2 * small.R));
const wantedSmall = (theta: number) => 1 + bump.reduce((sum, { i, c }) => sum + c * cos(i * theta), 0);
const smallE =
  -integral(-smallLimit, smallLimit, (x) => wantedSmall(x) * cos(x)) /
  (smallLimit + sin(smallLimit) * cos(smallLimit));
const overBump = (weight: (i: number) => number) => bump.reduce((sum, { i, c }) => sum + c * weight(i), 0);
const sign = (i: number) => (i % 2 === 0 ? 1 : -1);

// The gas engine ring and its slots.
const big = { R: 170, r: 164.5, a: 11, h: 6, E: 169000, p0: 0.05, depth: 3.5, width: 1.5 };

export const WORKED: Readonly<Record<string, WorkedBlock>> = {
  "closed ring": () => {
    const geometry = closedGeometry(d, a, s);
    const { centroidRadius, outerRadius, theta } = ferry.installed;
    return {
      R: [R, outerRadius],
      r: [r, centroidRadius],
      "a/r": [a / r],
      A: [A],
      I: [I, secondMoment(a, h)],
      θC: [thetaC, theta[theta.length - 1]],
      θL: [thetaL, geometry.loadLimit],
      δ: [degrees(delta), degrees(ferry.ends.faceToNormal)],
    };
  },

  "uniform pressure": () => ({
    Ft: [Ft, ferry.load.tangentialForce],
    e: [
      e,
      ferry.load.balance,
      -integral(-thetaL, thetaL, cos) / integral(-thetaL, thetaL, (x) => cos(x) ** 2),
    ],
    "−s/(π·R)": [-s / (PI * R)],
    "p at the back": [pressureAtBack, atBack(ferry.installed.pressure)],
    "p at the gap": [p0 * (1 + e * cos(thetaL)), ferry.installed.pressure[0]],
    "mean over p₀": [1 + (e * sin(thetaL)) / thetaL, describePressure(ferry).mean / p0],
  }),

  "less at the gap": () => {
    const { relative } = describePressure(motorcycle);
    const { pressure } = motorcycle.installed;
    const over = (value: number) => value / small.p0;
    return {
      ...Object.fromEntries(bump.map(({ i, c }) => [`c${i}`, [c]])),
      e: [smallE, motorcycle.load.balance],
      "p/p₀ at the gap": [wantedSmall(smallLimit) + smallE * cos(smallLimit), over(pressure[0])],
      "p/p₀ at the back": [wantedSmall(0) + smallE, over(atBack(pressure))],
      "highest p/mean": [relative && describePressure(motorcycle).highest.relative],
      "and where": [degrees(Math.abs(describePressure(motorcycle).highest.theta))],
    };
  },

  "uniform forces": () => {
    const { moment, normal, shear, theta } = ferry.installed;
    const quarter = backOf(ferry) + 90;
    return {
      C: [C],
      "M at the back": [M, atBack(moment)],
      "2·Ft·r": [2 * Ft * r],
      "N at the back": [N, atBack(normal)],
      "M at θC/2": [momentAt(thetaC / 2), moment[quarter], momentAt(theta[quarter])],
      "V at θC/2": [shearAt(thetaC / 2), shear[quarter]],
      K: [K, ferry.stiffnessParameter],
    };
  },

  "harmonic forces": () => {
    const unit = smallFt * small.r;
    return {
      Ft: [smallFt, motorcycle.load.tangentialForce],
      Ft·r: [unit],
      "M at the back, no gap": [unit * (2 + overBump((i) => (1 + sign(i)) / (1 - i * i)))],
      "M at the back": [
        atBack(motorcycle.installed.moment),
        integral(0, smallLimit, (x) => unit * (wantedSmall(x) + smallE * cos(x)) * sin(x)),
      ],
      K: [smallK, motorcycle.stiffnessParameter],
    };
  },

  "curvature at the back": () => {
    const { shearRate, gain, kappa0, Z2, stretch, turn } = curvedBack();
    const thin = 1 / r - M / (E * I);
    const library = atBack(ferry.free.curvature);
    return {
      "1/r": [1 / r],
      "M/(E·I)": [M / (E * I)],
      "κ₀ thin": [thin, atBack(ferryThin.free.curvature)],
      "γ′": [shearRate],
      "1 + (a/r)²/10": [gain],
      "Z₂/I": [Z2 / I, curvedSecondMoment(I, a, library) / I],
      "λ − 1": [stretch],
      "λκ − κ₀": [turn],
      "κ₀": [kappa0, library],
      "1/κ₀": [1 / kappa0, 1 / library],
      "1/κ₀ thin": [1 / thin],
    };
  },

  "free gap": () => {
    const J = integral(0, PI, (x) => cos((1 - K) * x - K * sin(x))) / PI;
    const height = integral(0, PI, (x) => sin((1 - K) * x - K * sin(x))) / PI;
    const { gap, y } = ferryPlain.free;
    return {
      "3π·K·r": [3 * PI * K * r],
      "series to K³": [r * (3 * PI * K + 2.5 * PI * K ** 2 - 10.9216 * K ** 3)],
      J: [J],
      "2π·r·J": [2 * PI * r * J, gap],
      π·r·E: [PI * r * height, y[0] - y[backOf(ferryPlain)]],
      "thin, with s": [ferryThin.free.gap],
      m: [m],
    };
  },

  "end faces": () => {
    const opened = (5 - s) / (m - s);
    return {
      "−π·K": [-PI * K, ferryPlain.ends.turn],
      Ω: [ferry.ends.turn],
      "Ω in degrees": [degrees(ferry.ends.turn)],
      "a·s/r": [(a * s) / r, ferry.ends.wedgeIfSquare],
      "held at 5 mm, by proportion": [degrees(-ferry.ends.turn * opened)],
      "held at 5 mm": [degrees(endsInBand(ferry, 5).faceToAxis)],
      "pull at 5 mm": [endsInBand(ferry, 5).pull],
    };
  },

  "closing stress": () => {
    const { kappa0, Z2 } = curvedBack();
    const S0 = (N + kappa0 * M) / A;
    const S1 = M / Z2 + kappa0 * S0;
    const at = (y: number) => (S0 + S1 * y) / (1 + kappa0 * y);
    const { closing } = ferry.stress;
    return {
      "6·M/(h·a²)": [(6 * M) / (h * a * a), ferryThin.stress.closing.max],
      "S₀": [S0],
      "S₁": [S1],
      "σ outside": [at(a / 2), closing.outer],
      "σ inside": [at(-a / 2), closing.inner],
      "from the gap": [((4 / (3 * PI)) * E * (m / a)) / (d / a - 1) ** 2],
    };
  },

  "proof of closure": () => {
    const proof = proveClosure(ferry);
    return {
      "mean radius": [R + proof.meanRadiusError],
      "closed gap": [proof.closedGap],
      "out of round": [proof.outOfRound],
    };
  },

  "inner slots": () => {
    const pitch = 12;
    const count = Math.floor((2 * ((160 * PI) / 180) * big.r) / pitch);
    const zone = (count * pitch) / (2 * big.r);
    const x = big.depth / big.a;
    const S = crackRotation(x);
    const netExcess = (1 - x) ** -3 - 1;
    const L = (2 * big.a * S) / netExcess;
    const u = (pitch - big.width) / L;
    const f = (big.width + L * (1 - Math.exp(-u - 0.3 * u * u))) / pitch;
    const weight = (t: number) => 1.5 * t + 2 * sin(t) + sin(2 * t) / 4;
    const limit = PI - asin(1.3 / (2 * big.r));
    const plain = (big.p0 * big.h * big.R * big.r ** 2) / (big.E * ((big.h * big.a ** 3) / 12));
    return {
      slots: [count, gas.outline.slots?.length ?? 0],
      "zone ends at": [degrees(zone), degrees(gas.spec.section.slots?.to ?? 0)],
      x: [x],
      S: [S, (x / (1 - x)) ** 2 * ((5.927 - 2.326 * x) / (1 + 3.226 * x - 0.429 * x ** 2 + 1.673 * x ** 3))],
      L: [L],
      u: [u],
      "w/p": [big.width / pitch],
      f: [f, slotShare(big.a, big.depth, big.width, pitch), Math.max(...(gas.wall?.netShare ?? []))],
      "(1 − x)⁻³": [(1 - x) ** -3],
      softer: [1 + f * netExcess],
      "K unslotted": [
        plain,
        designRing({ ...gasSpec, section: { radialThickness: 11, axialHeight: 6 } }).stiffnessParameter,
      ],
      K: [plain * (1 + f * netExcess * (weight(zone) / weight(limit))), gas.stiffnessParameter],
    };
  },

  "varying wall": () => {
    const relative = (fromGap: number) => Math.max(0.3, sin(fromGap / 2) ** (2 / 3));
    const design = designRing({
      ...ferrySpec,
      theory: "thin",
      closedGap: 0,
      section: {
        radialThickness: a,
        axialHeight: h,
        wall: (theta: number) => relative(PI - Math.abs(theta)),
      },
    });
    const back = backOf(design);
    const wall = (x: number) => a * sin((PI - x) / 2) ** (2 / 3);
    // a = a₀·cos^(2/3)(θ/2): a′/a = −tan(θ/2)/3 and a″/a = tan²(θ/2)/9 − 1/(6·cos²(θ/2)) over the angle.
    const slope = -wall(PI / 2) / (3 * r);
    const bend = (wall(PI / 2) * (1 / 9 - 1 / 3)) / r ** 2;
    return {
      "a at 90°": [wall(PI / 2), design.wall?.thickness[back + 90] ?? 0],
      "1/κ₀ at the back": [1 / (1 / r - (2 * Ft * r) / (E * I)), 1 / design.free.curvature[back]],
      "1/κ₀ at 90°": [
        1 / (1 / r - (Ft * r) / ((E * h * wall(PI / 2) ** 3) / 12)),
        1 / design.free.curvature[back + 90],
      ],
      "taper share at 90°": [
        taperShare(wall(PI / 2), slope, bend),
        (wall(PI / 2) * bend) / 10 + 0.6 * slope ** 2,
      ],
    };
  },

  "round when free": () => {
    const rho = 62;
    const couple = E * I * (1 / r - 1 / rho);
    const { pressure, ends } = pressureOf(
      ringOfCurvature(
        {
          bore: d,
          closedGap: s,
          section: { radialThickness: a, axialHeight: h },
          material: { youngsModulus: E },
          theory: "thin",
        },
        1 / rho,
      ),
    );
    return {
      M: [couple, ends.right.couple],
      p: [couple / (h * R * r), pressure[0]],
    };
  },

  "in a tape": () => {
    const { tape } = describePressure(motorcycle);
    return {
      "1 − Σ": [1 - overBump((i) => sign(i) / (3 * (i * i - 1)))],
      "T, no gap": [smallFt * (1 - overBump((i) => sign(i) / (3 * (i * i - 1))))],
      "T, with the gap": [tape.tangentialForce],
      "T, exact": [tapeTest(motorcycle).force],
      "ovality, no gap": [
        smallK *
          small.r *
          overBump(
            (i) =>
              (1 + sign(i) - 2 * cos((i * PI) / 2)) / (i * i - 1) ** 2 + ((PI / 3) * sign(i)) / (i * i - 1),
          ),
      ],
      "ovality, with the gap": [tape.ovality],
      "ovality, exact": [tapeTest(motorcycle).ovality],
    };
  },

  conformability: () => {
    const { limits } = conformability(ferry, [2, 3, 4]);
    const micro = (value: number) => 1000 * value;
    return {
      ...Object.fromEntries(
        [2, 3, 4].flatMap((i, k) => [
          [
            `order ${i}`,
            [
              micro((K * r) / (i * i - 1) ** 2),
              micro(limits[k].uniform),
              micro(fullContactAmplitude(K, r, i)),
            ],
          ],
          [
            `order ${i}, at the back`,
            [micro(((1 + e) * K * r) / (i * i - 1) ** 2), micro(limits[k].fullContact)],
          ],
        ]),
      ),
      "order 4, looser": [micro((K * r) / (20 * 15)), micro(semiEmpiricalAmplitude(K, r, 4))],
    };
  },

  "contact in a bore": () => {
    const wide = closeInBore(ferry, { diameter: 118.05 });
    const lobed = (amplitude: number) =>
      closeInBore(ferry, { harmonics: [{ order: 4, amplitude }] }, { stations: 360 });
    const limit = (K * r) / 225;
    return {
      "gap, by π": [s + PI * 0.05],
      gap: [wide.closedGap],
      "p at the back, by hand": [p0 * (1 + e - 0.8 / (1 + (16 / 5) * (a / r) ** 2))],
      "p at the back": [atBack(lobed(0.8 * limit).pressure)],
      "clearance at 2, µm": [1000 * atBack(lobed(2 * limit).clearance)],
    };
  },

  gauges: () => {
    const { force } = tapeTest(ferry);
    return {
      Ft: [Ft],
      tape: [force],
      "1 − s/(2π·d)": [1 - s / (2 * PI * d)],
      "(4 + π)/π": [(4 + PI) / PI],
      "Fd/Ft": [diametralTest(ferry).force / force],
      "6π/(4 + π)": [(6 * PI) / (4 + PI)],
      "Fd/Ft to the gap": [diametralTest(ferry, { gap: s }).force / force],
    };
  },

  "bevelled section": () => {
    const bevel = 0.5;
    const design = designRing({
      ...ferrySpec,
      section: {
        radialThickness: a,
        axialHeight: h,
        inner: { shape: "bevel", side: "top", depth: bevel, height: bevel },
      },
    });
    const { properties, twist } = describeSection(design);
    // A rectangle less a right triangle whose legs lie on the inner face and the top side.
    const cut = bevel ** 2 / 2;
    const [tx, ty] = [h - bevel / 3, -a / 2 + bevel / 3];
    const area = A - cut;
    const x = (A * (h / 2) - cut * tx) / area;
    const y = (-cut * ty) / area;
    const own = bevel ** 4 / 36;
    const Jx = I + A * y ** 2 - own - cut * (ty - y) ** 2;
    const Jy = (a * h ** 3) / 12 + A * (h / 2 - x) ** 2 - own - cut * (tx - x) ** 2;
    // The triangle's own product is bevel⁴/72: its legs run to −x and to +y from the right angle.
    const Jxy = A * (h / 2 - x) * -y - bevel ** 4 / 72 - cut * (tx - x) * (ty - y);
    return {
      A: [area, properties.area],
      "centroid outward": [y, properties.centroid.y],
      Jx: [Jx, properties.inPlane],
      Jy: [Jy, properties.lateral],
      Jxy: [Jxy, properties.product],
      "twist in degrees": [degrees((r * r * Ft * Jxy) / (E * (Jx * Jy - Jxy ** 2))), degrees(twist.angle)],
      "softer by": [Jxy ** 2 / (Jx * Jy), twist.softening],
    };
  },

  "worn taper": () => {
    const angle = PI / 180;
    const design = designRing({
      ...ferrySpec,
      section: { radialThickness: a, axialHeight: h, face: { shape: "taper", angle } },
    });
    const [{ land, pressure }] = describeSection(design, [0.01]).face;
    return { land: [0.01 / tan(angle), land], pressure: [(p0 * h * tan(angle)) / 0.01, pressure] };
  },

  spreading: () => {
    const by = (way: "hand" | "plates" | "pliers") => spreadRing(ferry, { diameter: 117.4, by: way });
    const printed = (3.9 * E * (1 - m / (3 * PI * a))) / (d / a - 1) ** 2;
    return {
      "by hand, printed": [printed],
      "by hand": [by("hand").stress.max],
      "tips apart": [by("hand").tipGap],
      "on plates, printed": [printed / 1.57],
      "on plates": [by("plates").stress.max],
      "by pliers, printed": [printed / 2],
      "by pliers": [by("pliers").stress.max],
    };
  },

  heat: () => {
    const warm = designRing({ ...ferrySpec, material: "1.4112" });
    const hot = hotRing(warm, {
      ring: { temperature: 180 },
      bore: { material: "EN-GJL-250", temperature: 120 },
    });
    const [ring, bore] = [160 * 10.72e-6, 100 * 11.7e-6];
    const radius = R * (1 + bore) - (a / 2) * (1 + ring);
    const open = 2 * PI - (2 * thetaC * r * (1 + ring)) / radius;
    return {
      "ring grows": [1 + ring, hot.growth.ring],
      "bore grows": [1 + bore, hot.growth.bore],
      "gap lost, rule of thumb": [PI * d * (ring - bore)],
      "hot gap": [2 * radius * sin(open / 2), hot.closedGap],
      "E hot over cold": [(212000 - 0.8 * 7000) / 215000],
      "force hot over cold": [hot.forceShare ?? 0],
    };
  },

  groove: () => {
    const fit = grooveFit(
      ferry.spec,
      { diameter: 117.4, groove: { width: [2.04, 2.06], depth: 5.2 } },
      { tolerance: { wall: 0.05, height: 0.01 } },
    );
    return {
      "axial, least": [2.04 - 2.01, fit.axialClearance[0]],
      "axial, most": [2.06 - 1.99, fit.axialClearance[1]],
      "back, least": [(d - (117.4 - 10.4)) / 2 - 4.45, fit.backClearance[0]],
      "back, most": [(d - (117.4 - 10.4)) / 2 - 4.35, fit.backClearance[1]],
      "sink, least": [5.2 - 4.45, fit.sink[0]],
    };
  },

  springback: () => {
    const Y = 1400;
    const yielding = (2 * Y) / (E * a);
    const wanted = atBack(ferry.free.curvature);
    const p = (2 * wanted) / yielding + 3;
    const q = 2 * sqrt(p / 3) * sin(asin((3 / p) ** 1.5) / 3);
    const tool = yielding / q;
    const { back } = coiling(ferry, { yieldStress: Y });
    return {
      "1/κf": [1 / wanted, back.radius],
      "1/κe": [1 / yielding],
      p: [p],
      q: [q],
      "1/κt": [1 / tool, back.bendRadius ?? 0, 1 / curvatureBefore(wanted, yielding)],
      "and back": [
        1 / (tool - 1.5 * yielding + yielding ** 3 / (2 * tool ** 2)),
        1 / curvatureAfter(tool, yielding),
      ],
    };
  },

  "wire and mandrel": () => {
    const wanted = atBack(ferry.free.curvature);
    const set = heatSet(ferry, { remaining: 0.1, before: 58 });
    const mandrel = (wanted - 0.1 / 58) / 0.9;
    return {
      "2·r·θL": [2 * r * thetaL],
      "developed length": [coiling(ferry).developedLength],
      "mandrel radius": [1 / mandrel, 1 / mandrelCurvature(wanted, 1 / 58, 0.1), 1 / atBack(set.curvature)],
    };
  },

  "cutting the gap": () => {
    const { faceLength, setups } = gapCutting(ferry);
    const free = setups[0];
    const wedge = 2 * faceLength * tan(-ferry.ends.turn);
    return {
      "face length": [faceLength, sqrt(R ** 2 - s ** 2 / 4) - sqrt((R - a) ** 2 - s ** 2 / 4)],
      "gap outside": [free.gapOuter, m + faceLength * sin(-ferry.ends.turn)],
      "gap inside": [free.gapInner, m - faceLength * sin(-ferry.ends.turn)],
      "to file": [wedge, free.parallelCutter.toFile],
      "bore 0.01 mm larger": [PI * 0.01, closeInBore(ferry, { diameter: 118.01 }).closedGap - s],
    };
  },

  scan: () => {
    const { outer } = ferry.outline;
    const c = thetaC;
    const ring = ringFromScan(outer, { spec: ferrySpec, noise: 0.001 });
    return {
      c: [c],
      "c₀": [1 - K],
      "c₁": [-K],
      "ω₃₉": [(39 * PI) / (2 * c)],
      "Δp/p₀ at order 3": [(0.001 * 64) / (K * r), 0.001 / fullContactAmplitude(K, r, 3)],
      "Δp/p₀ at order 8": [(0.001 * 63 ** 2) / (K * r), 0.001 / fullContactAmplitude(K, r, 8)],
      "force of the scan": [ring.load.tangentialForce, tapeTest(ferry).force],
      "gap of the scan": [ring.free.gap, m],
    };
  },

  "force and wall": () => {
    const vary = variantsOf(
      ferrySpec,
      factorsOf({ radialThickness: 0.03, bendRadius: [], lobes: [] }),
      0.002,
    );
    const forceAt = (off: number) => (vary([off]) as readonly number[])[0];
    const step = 0.01;
    const opening = a / (3 * r * K);
    return {
      "from E·I": [3],
      "from the radius": [opening],
      "from the lever": [a / (2 * r)],
      "exponent by hand": [3 + opening + a / (2 * r)],
      exponent: [Math.log(forceAt(step) / forceAt(-step)) / Math.log((a + step) / (a - step))],
    };
  },

  "spread of the force": () => {
    const exponent = 3 + a / (3 * r * K) + a / (2 * r);
    const shares = {
      wall: (exponent * 0.01) / a,
      modulus: 5000 / 3 / E,
      opening: 0.4 / 3 / (m - s),
    };
    const whole = Math.hypot(...Object.values(shares));
    return {
      "σ by wall": [100 * shares.wall],
      "σ by modulus": [100 * shares.modulus],
      "σ by opening": [100 * shares.opening],
      "σ in all": [100 * whole],
      "σ in N": [whole * Ft],
      "owed to the opening": [(shares.opening / whole) ** 2],
      "past three deviations": [200 * (1 - 0.9986501019683699), 200 * tailPast(3)],
    };
  },

  "what is left out": () => {
    const alpha = 10.8e-6;
    const bend = (alpha * 10) / a;
    return {
      "thin less curved": [ferryThin.free.gap - m],
      "K·a/r": [(K * a) / r],
      "K·(a/r)²": [K * (a / r) ** 2],
      "h²/(r·a)": [h ** 2 / (r * a)],
      "1/(1 − ν²)": [1 / (1 - 0.3 ** 2)],
      "e^(−μ·π)": [Math.exp(-0.1 * PI)],
      "Δκ of 10 K": [bend],
      "gap by 10 K": [2 * PI * r * r * bend, integral(-PI, PI, (x) => bend * (1 + cos(x)) * r * r)],
      "couple of 10 K": [E * I * bend],
      "gap by a layer": [(2 * PI * r * r * 6 * 100 * 0.02) / (E * a * a)],
      "gap by wear": [PI * 0.05, 2 * PI * 0.025],
      "force by wear": [(-100 * 0.05 * (3 + a / (3 * r * K) + a / (2 * r))) / a],
      "1 g as a pressure": [7850e-9 * a * 9.81],
    };
  },
};

/** Share of normal deviates past so many standard deviations, from the library's quantile. */
function tailPast(deviations: number): number {
  let [low, high] = [0.9, 0.9999];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (normalQuantile(middle) < deviations) low = middle;
    else high = middle;
  }
  return 1 - low;
}
