import { describe, expect, test } from "vitest";
import {
  describeSection,
  designRing,
  type Point,
  type RingDesign,
  type RingSpecInput,
  SpecError,
  type Spread,
  type SpreadBy,
  spreadRing,
} from "../src/index.js";
import { reached } from "./reached.js";
import type { Loose } from "./refusals.js";
import { DEMO_RINGS, PLAIN_100, relativeError, type UnloadedSpec, withK } from "./rings.js";
import { smallLoadLimit } from "./statics.js";

/** Rings spread over a piston, against closed forms and against statics and geometry done anew on the returned line. */

const FERRY: RingSpecInput = { ...DEMO_RINGS["ferry 118 mm"], stations: 48 };
const WAYS: readonly SpreadBy[] = ["hand", "pliers", "plates"];

/** A ring of d/a = `slenderness`, practically round when free unless K says otherwise. */
function slit(slenderness: number, theory: "thin" | "curved" = "thin", K = 1e-11): RingDesign {
  const a = 100 / slenderness;
  const body: UnloadedSpec = { ...PLAIN_100, section: { radialThickness: a, axialHeight: 2 }, theory };
  return designRing({ ...withK(body, K), stations: 48 });
}

/** Slope of f over s at station i, of the polynomial through the seven nearest stations between `first` and `last`. */
function slopeAt(
  s: readonly number[],
  f: readonly number[],
  i: number,
  first = 0,
  last = s.length - 1,
): number {
  const start = Math.max(first, Math.min(i - 3, last - 6));
  let slope = 0;
  for (let k = start; k < start + 7; k++) {
    let weight = 0;
    for (let m = start; m < start + 7; m++) {
      if (m === k) continue;
      let product = 1 / (s[k] - s[m]);
      for (let n = start; n < start + 7; n++)
        if (n !== k && n !== m) product *= (s[i] - s[n]) / (s[k] - s[n]);
      weight += product;
    }
    slope += weight * f[k];
  }
  return slope;
}

/** Stretch, tangent and curvature of the spread line per unit of free length, from its points alone. */
function lineOf({ free }: RingDesign, { x, y }: Pick<Spread, "x" | "y">) {
  const s = free.arcLength;
  const dx = s.map((_, i) => slopeAt(s, x, i));
  const dy = s.map((_, i) => slopeAt(s, y, i));
  const tangent = dx.map((_, i) => Math.atan2(dy[i], dx[i]));
  for (let i = 1; i < tangent.length; i++) {
    while (tangent[i] - tangent[i - 1] > Math.PI) tangent[i] -= 2 * Math.PI;
    while (tangent[i] - tangent[i - 1] < -Math.PI) tangent[i] += 2 * Math.PI;
  }
  const turn = 2 * Math.PI * Math.round(tangent[(s.length - 1) / 2] / (2 * Math.PI));
  const level = tangent.map((angle) => angle - turn);
  return {
    stretch: dx.map((_, i) => Math.hypot(dx[i], dy[i])),
    tangent: level,
    curvature: s.map((_, i) => slopeAt(s, level, i)),
  };
}

/** Inner face of the spread ring: points across from the line, and the corners of the free body carried along with its ends. */
function innerFace(design: RingDesign, spread: Spread, tangent: readonly number[]): Point[] {
  const { free, outline, spec, wall } = design;
  const a = spec.section.radialThickness;
  const last = free.theta.length - 1;
  const face = spread.x.map((x, i): Point => {
    const out = a / 2 - (wall?.thickness[i] ?? a);
    return [x + out * Math.sin(tangent[i]), spread.y[i] - out * Math.cos(tangent[i])];
  });
  for (const i of [0, last]) {
    const angle = tangent[i] - free.tangent[i];
    const [dx, dy] = [outline.inner[i][0] - free.x[i], outline.inner[i][1] - free.y[i]];
    face[i] = [
      spread.x[i] + dx * Math.cos(angle) - dy * Math.sin(angle),
      spread.y[i] + dx * Math.sin(angle) + dy * Math.cos(angle),
    ];
  }
  return face;
}

/**
 * Largest circle among points: of all circles through three of them, with the centre between the three, the largest that holds none of the
 * others.
 */
function largestCircle(points: readonly Point[]): { centre: Point; radius: number } {
  let best: { centre: Point; radius: number } = { centre: [0, 0], radius: 0 };
  const between = (one: Point, other: Point, [x, y]: Point) =>
    (other[0] - one[0]) * (y - one[1]) - (other[1] - one[1]) * (x - one[0]);
  for (const [i, p] of points.entries()) {
    for (const [j, q] of points.slice(0, i).entries()) {
      for (const o of points.slice(0, j)) {
        const [bx, by, cx, cy] = [q[0] - p[0], q[1] - p[1], o[0] - p[0], o[1] - p[1]];
        const area = 2 * (bx * cy - by * cx);
        const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
        const [x, y] = [(cy * bb - by * cc) / area, (bx * cc - cx * bb) / area];
        const radius = Math.hypot(x, y);
        if (!(radius > best.radius)) continue;
        const centre: Point = [p[0] + x, p[1] + y];
        const sides = [between(p, q, centre), between(q, o, centre), between(o, p, centre)];
        if (!(sides.every((side) => side >= 0) || sides.every((side) => side <= 0))) continue;
        const holdsOne = points.some(
          // On an arc all lie on the circle, but for rounding.
          ([px, py]) => Math.hypot(px - centre[0], py - centre[1]) < radius - 1e-10,
        );
        if (!holdsOne) best = { centre, radius };
      }
    }
  }
  return best;
}

/** Room between the inner face's points and the piston, centred where it fits best; mm. */
function clearanceOf(design: RingDesign, spread: Spread) {
  const { tangent } = lineOf(design, spread);
  const face = innerFace(design, spread, tangent);
  const { centre, radius } = largestCircle(face);
  const distances = face.map(([x, y]) => Math.hypot(x - centre[0], y - centre[1]) - spread.diameter / 2);
  return { face, centre, fits: radius - spread.diameter / 2, distances };
}

/** Moment (closing positive) and normal force that the returned load gives at each station, by plain statics. */
function staticsOf(design: RingDesign, spread: Spread, tangent: readonly number[]) {
  const { x, y, by } = spread;
  const last = x.length - 1;
  let [fx, fy, couple] = [0, 0, 0];
  let point: Point = [x[last], y[last]];
  if (by === "pliers") couple = -(spread.couple as number);
  else if (by === "hand") {
    // The pulls act at mid wall of the end faces, which stand at δ to the sections; the line runs at half the nominal wall.
    const nominal = design.spec.section.radialThickness;
    const middle = (at: number, side: 1 | -1): Point => {
      const offset = (nominal - (design.wall?.thickness[at] ?? nominal)) / 2;
      const face = tangent[at] + side * design.ends.faceToNormal;
      const along = offset / Math.cos(design.ends.faceToNormal);
      return [x[at] + along * Math.sin(face), y[at] - along * Math.cos(face)];
    };
    const [left, right] = [middle(0, -1), middle(last, 1)];
    point = right;
    const force = spread.force as number;
    const length = Math.hypot(right[0] - left[0], right[1] - left[1]);
    [fx, fy] = [(force * (right[0] - left[0])) / length, (force * (right[1] - left[1])) / length];
  } else {
    // Square to the cylinder, whose centre lies half the diameter above the back's inner face.
    const face = innerFace(design, spread, tangent);
    point = face[last];
    const centre = [0, face[last / 2][1] + spread.diameter / 2];
    const distance = Math.hypot(point[0] - centre[0], point[1] - centre[1]);
    const force = spread.force as number;
    [fx, fy] = [(force * (point[0] - centre[0])) / distance, (force * (point[1] - centre[1])) / distance];
  }
  const half = last / 2;
  // On plates the left half is held by a force of its own; it is the right one in the mirror.
  const across = (i: number) => by === "plates" && i < half;
  return x.map((_, i) => {
    const k = across(i) ? last - i : i;
    return {
      moment: couple + (point[0] - x[k]) * fy - (point[1] - y[k]) * fx,
      normal: fx * Math.cos(tangent[k]) + fy * Math.sin(tangent[k]),
    };
  });
}

describe("a slit ring spread a little", () => {
  // Opening 3π·P·r³/(E·I) under tangential pulls P, bending moment P·r·(1 + cos θ) (S. Timoshenko, Strength of Materials,
  // Part II, the piston ring that is pulled open; from memory, and worked by Castigliano). Couples M: each element turns by
  // M·ds/(E·I), so the ends part by 2π·r²·M/(E·I) (worked). Thin theory, no gap.
  const body = { ...PLAIN_100, closedGap: 0 };
  const [a, h, r] = [3, 2, 48.5];
  const EI = (160000 * h * a ** 3) / 12;
  const design = designRing({ ...withK(body, 1e-11), stations: 48 });
  const inside = 100 - 2 * a;

  /** A quantity's limit for small openings, of Δ = 0.04, 0.02 and 0.01 mm. */
  function limits(by: SpreadBy) {
    const widened = (share: number) => 0.01 * share;
    const spreads = new Map(
      [4, 2, 1].map((share) => [share, spreadRing(design, { diameter: inside + 2 * widened(share), by })]),
    );
    return (read: (spread: Spread, widened: number) => number) =>
      smallLoadLimit((share) => read(spreads.get(share) as Spread, widened(share)));
  }

  // The limit leaves the third order of an opening of a thousandth of the ring; solved to 1e-12 of the diameter, 1e-8 of Δ.
  const within = 1e-6;

  test("opens by 3π·P·r³/(E·I) where its tips are pulled apart, under M = P·r·(1 + cos θ)", () => {
    const limit = limits("hand");
    const opening = limit(({ opened, force = 0 }) => (opened * EI) / (force * r ** 3));
    expect(relativeError(opening, 3 * Math.PI)).toBeLessThan(within);
    const largest = limit(({ stress, force = 0 }) => (stress.max * h * a * a) / (6 * force * r));
    expect(relativeError(largest, 2)).toBeLessThan(within);
    for (const i of [12, 32, 48, 60, 80]) {
      const moment = limit((spread) => {
        const bent = lineOf(design, spread).curvature[i] - design.free.curvature[i];
        return (-EI * bent) / ((spread.force as number) * r);
      });
      // Second slopes of seven points 3 mm apart find a bending of some 1e-5/mm to 1e-9/mm.
      expect(Math.abs(moment - (1 + Math.cos(design.free.theta[i])))).toBeLessThan(1e-4);
    }
  });

  test("opens by 2π·r²·M/(E·I) where its ends are bent apart by couples, M the same all round", () => {
    const limit = limits("pliers");
    const opening = limit(({ opened, couple = 0 }) => (opened * EI) / (couple * r ** 2));
    expect(relativeError(opening, 2 * Math.PI)).toBeLessThan(within);
    const largest = limit(({ stress, couple = 0 }) => (stress.max * h * a * a) / (6 * couple));
    expect(relativeError(largest, 1)).toBeLessThan(within);
    for (const i of [12, 32, 48, 60, 80]) {
      const moment = limit((spread) => {
        const bent = lineOf(design, spread).curvature[i] - design.free.curvature[i];
        return (-EI * bent) / (spread.couple as number);
      });
      expect(Math.abs(moment - 1)).toBeLessThan(1e-4);
    }
  });

  test("is pushed by 4/π·E·I·Δ/r³ at its tips on plates that widen it by Δ, under M = Q·r·sin θ", () => {
    // w″ + w = r³·Q·sin θ/(E·I) with w(0) = w(π) = Δ gives Q = 4·E·I·Δ/(π·r³) (worked).
    const limit = limits("plates");
    const push = limit(({ force = 0 }, widened) => (force * r ** 3) / (EI * widened));
    expect(relativeError(push, 4 / Math.PI)).toBeLessThan(within);
    const largest = limit(({ stress, force = 0 }) => (stress.max * h * a * a) / (6 * force * r));
    expect(relativeError(largest, 1)).toBeLessThan(within);
  });

  test("bends the most at its back by hand, at a right angle from it on plates", () => {
    expect(spreadRing(design, { diameter: inside + 0.02 }).stress.theta).toBe(0);
    const { theta } = spreadRing(design, { diameter: inside + 0.02, by: "plates" }).stress;
    expect(Math.abs(Math.abs(theta) - Math.PI / 2)).toBeLessThan(1e-9);
  });

  test("is in tension inside and in compression outside", () => {
    for (const by of WAYS) {
      const { outer, inner, max } = spreadRing(design, { diameter: 100, by }).stress;
      expect(inner).toBe(max);
      expect(outer).toBe(-max);
    }
  });
});

describe("thin walls without a free gap over a piston of the bore's size", () => {
  // From the limits above with Δ = a, r = (d − a)/2: 4, 4/(π/2) and 4/2 times E/(d/a − 1)² (worked).
  const LIMIT = { hand: 4, plates: 8 / Math.PI, pliers: 2 };

  test.each(WAYS)("are stressed by 4, 4/(π/2), 4/2 times E/(d/a − 1)² in the limit: %s", (by) => {
    for (const theory of ["thin", "curved"] as const) {
      const factor = smallLoadLimit((share) => {
        const slenderness = 1000 / share;
        const { stress } = spreadRing(slit(slenderness, theory), { diameter: 100, by });
        return (stress.max * (slenderness - 1) ** 2) / 160000;
      });
      // Of the third order of Δ/r = 2·a/d = 1/500, with large numbers by hand, as the tips then part by 3π·Δ (measured 1.4e-5, 4e-7, 1e-6).
      reached(
        "spreading limit",
        "stress factor",
        relativeError(factor, LIMIT[by]),
        by === "hand" ? 3e-5 : 3e-6,
        by,
      );
    }
  });

  test("open by pliers to an arc of exactly the piston's radius, whatever the wall", () => {
    // κ changes from 2/(d − a) to 2/(d + a): σ = E·a/2·4a/(d² − a²) = 2·E/((d/a)² − 1) (worked, thin theory).
    for (const slenderness of [12, 20, 40, 100]) {
      const { stress } = spreadRing(slit(slenderness), { diameter: 100, by: "pliers" });
      // Solved to 1e-12 of the diameter, against an opening of a hundredth of it.
      expect(relativeError(stress.max, (2 * 160000) / (slenderness ** 2 - 1))).toBeLessThan(1e-9);
    }
  });

  // Printed: 3.9·E·[1 − m/(3π·a)]/(d/a − 1)², over 1.57 on plates and 2 by pliers, m the free gap (Zeynetdinov, Dyakov &
  // Yarygin, p. 90, eq. (4.80)). It is the theory of small openings, 3.9 for 4; what the large opening takes off grows
  // with Δ/r = 2a/(d − a). The curved theory counts the hyperbolic distribution as well, which adds some a/d to the stress.
  const printed = (design: RingDesign, by: SpreadBy) => {
    const { bore, section, material } = design.spec;
    const a = section.radialThickness;
    const full = 3.9 * material.youngsModulus * (1 - design.free.gap / (3 * Math.PI * a));
    return full / (bore / a - 1) ** 2 / { hand: 1, plates: 1.57, pliers: 2 }[by];
  };
  const over = (design: RingDesign, by: SpreadBy) =>
    spreadRing(design, { diameter: design.spec.bore, by }).stress.max / printed(design, by) - 1;

  test("agree with the printed formula as far as openings are small", () => {
    // No free gap, curved. Measured at d/a = 20, 40, 100: hand −20.5, −11.6, −4.0 %; plates −4.2, −0.5, +1.4 %; pliers −3.8,
    // −0.7, +1.2 %. The formula errs on the safe side for real walls.
    for (const slenderness of [40, 60, 100]) {
      const design = slit(slenderness, "curved");
      for (const by of ["pliers", "plates"] as const) {
        expect(Math.abs(over(design, by))).toBeLessThan(0.05);
      }
    }
    const byHand = [20, 24, 30, 40, 60, 100].map((slenderness) => over(slit(slenderness, "curved"), "hand"));
    expect(byHand[0]).toBeGreaterThan(-0.22);
    expect(byHand[0]).toBeLessThan(-0.19);
    expect(Math.abs(byHand[byHand.length - 1])).toBeLessThan(0.05);
    for (let k = 1; k < byHand.length; k++) expect(byHand[k]).toBeGreaterThan(byHand[k - 1]);
  });

  test("need the less, the wider they are when free, as the printed formula says", () => {
    // d/a = 24, free gaps of 0 to 1.7 walls. The share 1 − m/(3π·a) is that of small openings: the free ring is flatter at
    // its back than at its tips, so that the piston fits into it less well than its gap says.
    for (const by of WAYS) {
      const found = [1e-11, 0.005, 0.01, 0.02].map((K) => {
        const design = slit(24, "curved", K);
        return { share: over(design, by), stress: spreadRing(design, { diameter: 100, by }).stress.max };
      });
      for (let k = 1; k < found.length; k++) {
        expect(found[k].stress).toBeLessThan(found[k - 1].stress);
        // Measured: from the ring without a gap to m/a = 2.2 it goes from −17.9 to −22.4 % by hand, −2.9 to −8.1 % on plates.
        expect(Math.abs(found[k].share - found[0].share)).toBeLessThan(0.06);
      }
    }
  });
});

describe("a split ring of a textbook", () => {
  // D. L. Logan, A First Course in the Finite Element Method, problem 5–64: radii 1.85 and 2.15 in, depth 0.2 in, E = 18e6 psi,
  // opened by 0.1 in. Force 10.743 lbf by F = E·I·δ/(3π·r³); by Winkler's bar 15 075 psi inside and 13 638 psi outside under
  // the couple 2·F·r alone (worked).
  const inch = 25.4;
  const psi = 4.4482216152605 / inch ** 2;
  const lbf = 4.4482216152605;
  const spec: RingSpecInput = {
    bore: "4.3 in",
    closedGap: 0,
    section: { radialThickness: "0.3 in", axialHeight: "0.2 in" },
    material: { youngsModulus: "18e6 psi" },
    load: { contactPressure: 1e-7 },
    stations: 48,
  };
  /** Spread by hand until it is opened that far, in inches. */
  const openedBy = (opening: number, theory: "thin" | "curved") => {
    const design = designRing({ ...spec, theory });
    const at = (diameter: number) => spreadRing(design, { diameter, by: "hand" });
    // By secants: the opening grows with the diameter by 3π/2 of it, nearly.
    let [before, diameter] = [3.7 * inch, 3.7 * inch + (opening * inch) / 4.7];
    let [miss, spread] = [-opening * inch, at(diameter)];
    for (let turn = 0; turn < 6 && Math.abs(spread.opened / inch - opening) > 1e-10; turn++) {
      const off = spread.opened - opening * inch;
      const next = diameter - (off * (diameter - before)) / (off - miss);
      [before, miss, diameter] = [diameter, off, next];
      spread = at(diameter);
    }
    const { force = 0, stress, opened } = spread;
    expect(Math.abs(opened / inch - opening)).toBeLessThan(1e-9);
    return { force: force / lbf, inner: stress.inner / psi, outer: stress.outer / psi };
  };
  // The pull adds F/A, which the couple alone leaves out.
  const PULL = 10.743 / (0.3 * 0.2);

  test("is opened 0.1 in by 10.743 lbf, stressed as Winkler's bar, but for what the opening changes", () => {
    // The opening moves tips and back apart, by 1.5·Δ = 1.5·δ/(3π), 0.8 % of 2·r, so that less force does (measured: −1.46 % of
    // the force, of which 0.17 % are the curved bar's, and −0.95 % of the stresses).
    const { force, inner, outer } = openedBy(0.1, "curved");
    reached("split ring", "force", relativeError(force, 10.743), 0.016);
    reached("split ring", "stress inside", relativeError(inner, 15075 + PULL), 0.011);
    reached("split ring", "stress outside", relativeError(-outer, 13638 - PULL), 0.011);
  });

  test("meets the printed figures where it is opened a hundred times less", () => {
    // Thin theory, F by its own formula: what the opening changes is then 0.013 %.
    expect(relativeError(100 * openedBy(0.001, "thin").force, 10.743)).toBeLessThan(2e-4);
    // Curved: softer by some (a/r)²/12 (measured 0.17 %); stress over force to the printed digits and the opening's 0.01 %.
    const { force, inner, outer } = openedBy(0.001, "curved");
    reached("split ring", "force, small opening", relativeError(100 * force, 10.743), 0.0023);
    reached(
      "split ring",
      "stress inside over force, small opening",
      relativeError(inner / force, (15075 + PULL) / 10.743),
      2e-4,
    );
    reached(
      "split ring",
      "stress outside over force, small opening",
      relativeError(-outer / force, (13638 - PULL) / 10.743),
      2e-4,
    );
  });
});

/** Simpson's rule; 400 steps leave (π/400)⁴·f⁗/180, 1e-10 or so of these integrands. */
function integral(f: (at: number) => number, from: number, to: number, steps = 400): number {
  const step = (to - from) / steps;
  let sum = f(from) + f(to);
  for (let k = 1; k < steps; k++) sum += (k % 2 ? 4 : 2) * f(from + k * step);
  return (sum * step) / 3;
}

describe("a ring that is round when free", () => {
  test("is pulled open as the first integral of its elastica says, however far", () => {
    // Thin theory, no gap, worked. With p = P/(E·I) and the ends' line at y = H: κ = κ₀ − p·(H − y), so κ² + 2p·cos ψ is the
    // same all along, κ = κ₀ at the end ψₑ. The piston touches the inner face at the back and both inner corners.
    const [a, r] = [3, 48.5];
    const EI = (160000 * 2 * a ** 3) / 12;
    const design = slit(100 / 3);
    for (const pull of [2, 10, 30]) {
      const p = pull / EI;
      const along = (end: number) => {
        const kappa = (psi: number) => Math.sqrt(1 / r ** 2 - 2 * p * (Math.cos(psi) - Math.cos(end)));
        return (g: (psi: number) => number) => integral((psi) => g(psi) / kappa(psi), 0, end);
      };
      let [low, high] = [1.5, Math.PI];
      for (let turn = 0; turn < 60; turn++) {
        const middle = (low + high) / 2;
        if (along(middle)(() => 1) > Math.PI * r) high = middle;
        else low = middle;
      }
      const over = along(low);
      const [x, height] = [over(Math.cos), over(Math.sin)];
      const corner = [x - (a / 2) * Math.sin(low), height + (a / 2) * Math.cos(low)];
      const up = corner[1] - a / 2;
      const diameter = (corner[0] ** 2 + up ** 2) / up;
      const found = spreadRing(design, { diameter });
      // Simpson's rule as above, over openings of Δ/r = 0.007 and more.
      expect(relativeError(found.force as number, pull)).toBeLessThan(1e-6);
      expect(relativeError(found.tipGap, 2 * x)).toBeLessThan(1e-6);
      expect(relativeError(found.stress.max, (6 * pull * height) / (2 * a * a))).toBeLessThan(1e-6);
    }
  });
});

describe("the line of a spread ring", () => {
  const THIN: RingSpecInput = { ...FERRY, theory: "thin" };
  const cases = WAYS.flatMap((by) =>
    (["thin", "curved"] as const).map((theory) => [by, theory, theory === "thin" ? THIN : FERRY] as const),
  );

  test.each(cases)("keeps its length and is bent by the returned load: %s, %s theory", (by, theory, spec) => {
    const design = designRing(spec);
    const spread = spreadRing(design, { diameter: 117.4, by });
    const { radialThickness: a, axialHeight: h } = design.spec.section;
    const E = design.spec.material.youngsModulus;
    const [area, I, r] = [a * h, (h * a ** 3) / 12, design.installed.centroidRadius];
    const { stretch, tangent, curvature } = lineOf(design, spread);
    const loads = staticsOf(design, spread, tangent);
    const most = Math.max(...loads.map(({ moment }) => Math.abs(moment)));
    for (const [i, { moment, normal }] of loads.entries()) {
      const kappa0 = design.free.curvature[i];
      let expected = { stretch: 1, turned: kappa0 + moment / (E * I) };
      if (theory === "curved") {
        // docs/theory/04-curvature.md: Z₂ by the rectangle's logarithm, shear with 12·V/(5·E·A).
        const Z2 =
          (h / kappa0 ** 3) * (Math.log((1 + (kappa0 * a) / 2) / (1 - (kappa0 * a) / 2)) - kappa0 * a);
        const lambda = 1 + (normal + kappa0 * moment) / (E * area);
        const turn = (moment / (E * Z2) + kappa0 * (lambda - 1)) * (1 + (a / r) ** 2 / 10);
        const shear = 1 + (2.4 * normal) / (E * area);
        expected = { stretch: lambda, turned: (kappa0 + turn) / shear };
      }
      // Seven points 0.065 rad apart: (0.065)⁶/140 = 5e-10, and twenty times as much at the ends, where they stand to one side.
      const atEnd = i < 3 || i > loads.length - 4;
      // The plates' back carries a force: the moment has a kink there, which no smooth curve through seven points follows.
      const kink = by === "plates" && Math.abs(i - (loads.length - 1) / 2) < 7;
      if (kink) continue;
      expect(Math.abs(stretch[i] - expected.stretch)).toBeLessThan(atEnd ? 1e-7 : 1e-8);
      if (atEnd) continue;
      expect(Math.abs(curvature[i] - expected.turned) * E * I).toBeLessThan(1e-6 * most);
    }
  });

  test.each([
    ["hand", 0.15],
    ["pliers", 0.15],
    ["hand", 0.3],
    ["pliers", 0.3],
    ["plates", 0.3],
  ] as const)(
    "lies round the piston and touches it with both inner corners and its back: %s, %d MPa",
    (by, contactPressure) => {
      const design = designRing({ ...FERRY, load: { contactPressure } });
      const { fits, distances } = clearanceOf(design, spreadRing(design, { diameter: 117.4, by }));
      const last = distances.length - 1;
      // Corners turned by slopes at the ends, good to 1e-8 of a wall.
      expect(Math.abs(fits)).toBeLessThan(1e-6);
      for (const i of [0, last / 2, last]) expect(Math.abs(distances[i])).toBeLessThan(1e-6);
    },
  );

  test.each(WAYS)(
    "lies round the piston also where the ring is hardly wider than its bore when free: %s",
    (by) => {
      // Pushing at tips and back alone narrows a ring at its sides, by 0.36·Δ where it is round when free: they come to lie on the piston.
      for (const contactPressure of [0.002, 0.15]) {
        const design = designRing({ ...FERRY, load: { contactPressure } });
        const spread = spreadRing(design, { diameter: 117.4, by });
        // On plates the sides come to lie on the piston, which the result tells and does not compute.
        expect(clearanceOf(design, spread).fits).toBeGreaterThan(-(spread.overlap ?? 0) - 1e-6);
        if (by === "plates") expect(spread.overlap).toBeLessThan(0.36 * 2.5);
      }
    },
  );

  test("lies round the piston with thin plates under its tips and its back alone", () => {
    const design = designRing(FERRY);
    const plate = 0.1;
    const spread = spreadRing(design, { diameter: 117.4, by: "plates", plate });
    const { tangent } = lineOf(design, spread);
    const face = innerFace(design, spread, tangent);
    const last = face.length - 1;
    const centre = face[last / 2][1] + 117.4 / 2 + plate;
    const distances = face.map(([x, y]) => Math.hypot(x, y - centre) - 117.4 / 2);
    for (const i of [0, last / 2, last]) expect(Math.abs(distances[i] - plate)).toBeLessThan(1e-6);
    expect(Math.min(...distances)).toBeGreaterThan(0);
  });

  test("tells its tips' distance and how much that is more than free", () => {
    for (const by of WAYS) {
      const design = designRing(FERRY);
      const { x, y, tipGap, opened } = spreadRing(design, { diameter: 117.4, by });
      const last = x.length - 1;
      expect(Math.abs(tipGap - Math.hypot(x[last] - x[0], y[last] - y[0]))).toBeLessThan(1e-9);
      expect(Math.abs(opened - (tipGap - design.free.gap))).toBeLessThan(1e-12);
      expect([x[last / 2], y[last / 2]].map((value) => Number(value.toFixed(9)))).toEqual([0, -56.8]);
    }
  });
});

describe("spreading further", () => {
  test.each(WAYS)("takes more force, more opening and more stress: %s", (by) => {
    for (const K of [1e-6, 0.02]) {
      const design = slit(24, "curved", K);
      const found = [0.96, 0.98, 1, 1.03, 1.08, 1.15].map((share) =>
        spreadRing(design, { diameter: share * 100, by }),
      );
      for (let k = 1; k < found.length; k++) {
        expect(found[k].opened).toBeGreaterThan(found[k - 1].opened);
        expect(found[k].stress.max).toBeGreaterThan(found[k - 1].stress.max);
        const load = ({ force, couple }: Spread) => force ?? couple ?? 0;
        expect(load(found[k])).toBeGreaterThan(load(found[k - 1]));
      }
    }
  });

  test("costs nothing where the ring passes as it is", () => {
    const design = designRing(FERRY);
    for (const by of WAYS) {
      const spread = spreadRing(design, { diameter: 111.5, by, yieldStress: 500 });
      expect(spread.stress).toMatchObject({ outer: 0, inner: 0, max: 0 });
      expect(spread.force).toBeUndefined();
      expect(spread.couple).toBeUndefined();
      expect(spread.yield).toEqual({ share: 0, set: 0 });
      // Marched again between 48 stations.
      expect(Math.abs(spread.opened)).toBeLessThan(1e-9);
      for (const [i, x] of design.free.x.entries()) expect(Math.abs(spread.x[i] - x)).toBeLessThan(1e-9);
    }
  });

  test("opens by exactly nothing where the ring passes as it is, so that a program can ask", () => {
    expect(spreadRing(designRing(FERRY), { diameter: 100 }).opened).toBe(0);
  });

  test("starts from nothing where the piston just does not pass", () => {
    const design = designRing(FERRY);
    const free = largestCircle(innerFace(design, design.free as Loose, design.free.tangent));
    for (const by of WAYS) {
      const { opened, stress } = spreadRing(design, { diameter: 2 * free.radius + 1e-3, by });
      expect(opened).toBeGreaterThan(0);
      // 3π·0.0005 mm by hand, which takes the most; 4 MPa a tenth of a millimetre (measured).
      expect(opened).toBeLessThan(0.005);
      expect(stress.max).toBeLessThan(0.2);
    }
  });

  test("counts the plates' thickness where the bare piston passes, too", () => {
    // Inside it is 111.545 mm wide: plates of 0.2 mm do not pass with a piston of 111.5 mm, 0.355 mm wider in all.
    const design = designRing(FERRY);
    const [before, after] = [111.54, 111.55].map((diameter) =>
      spreadRing(design, { diameter, by: "plates", plate: 0.2 }),
    );
    expect(after.opened).toBeGreaterThan(1);
    expect(before.opened).toBeGreaterThan(1);
  });

  test("on plates of a thickness is as over a piston wider by two of them", () => {
    const design = designRing(FERRY);
    const plated = spreadRing(design, { diameter: 117, by: "plates", plate: 0.25 });
    const bare = spreadRing(design, { diameter: 117.5, by: "plates" });
    // Solved to 1e-9 of the ring.
    expect(plated.tipGap).toBeCloseTo(bare.tipGap, 6);
    expect(plated.force as number).toBeCloseTo(bare.force as number, 6);
  });
});

describe("a ring that yields", () => {
  const spread = (
    yieldStress: number,
    spec: RingSpecInput = { ...FERRY, theory: "thin" },
    by: SpreadBy = "hand",
  ) => spreadRing(designRing(spec), { diameter: 117.4, by, yieldStress });

  test("keeps no set up to its yield stress, and some beyond it", () => {
    for (const by of WAYS) {
      const { max } = spread(1, undefined, by).stress;
      expect(spread(1.0001 * max, undefined, by).yield?.set).toBe(0);
      expect(spread(0.99 * max, undefined, by).yield?.set).toBeGreaterThan(0);
      expect(spread(2 * max, undefined, by).yield?.share).toBe(0.5);
    }
  });

  test("keeps the more, the softer it is and the wider it is spread", () => {
    const bySoftness = [600, 500, 400, 300].map((yieldStress) => spread(yieldStress).yield?.set as number);
    const design = designRing(FERRY);
    const byDiameter = [116, 117, 118, 119].map(
      (diameter) => spreadRing(design, { diameter, yieldStress: 450 }).yield?.set as number,
    );
    for (const sets of [bySoftness, byDiameter]) {
      expect(sets[0]).toBeGreaterThan(0);
      for (let k = 1; k < sets.length; k++) expect(sets[k]).toBeGreaterThan(sets[k - 1]);
    }
  });

  test.each([500, 350])(
    "keeps what the stress blocks of a rectangle leave of each place's bending, %d MPa",
    (Y) => {
      // A place bent by Δκ carries M = Y·h·a²/4·[1 − (Δκe/Δκ)²/3] once Δκ passes Δκe = 2Y/(E·a), and springs back by M/(E·I) (R. Hill,
      // The Mathematical Theory of Plasticity, plastic bending of a beam; from memory). What is left is put on the free line
      // and that is integrated anew; thin theory, whose ring bends as the beam does.
      const design = designRing({ ...FERRY, theory: "thin" });
      const found = spread(Y);
      const { radialThickness: a, axialHeight: h } = design.spec.section;
      const E = design.spec.material.youngsModulus;
      const { arcLength: s, curvature: kappa0, theta } = design.free;
      const tangent = lineOf(design, found).tangent;
      const loads = staticsOf(design, found, tangent);
      const yielding = (2 * Y) / (E * a);
      const left = loads.map(({ moment }) => {
        const bent = (12 * moment) / (E * h * a ** 3);
        if (Math.abs(bent) <= yielding) return 0;
        const carried = ((Y * h * a * a) / 4) * (1 - (yielding / bent) ** 2 / 3) * Math.sign(bent);
        return bent - (12 * carried) / (E * h * a ** 3);
      });
      const gapOf = (kappa: (i: number) => number) => {
        // Trapezoids of 1.85 mm; both gaps have the same error.
        const angle = [0];
        for (let i = 1; i < s.length; i++) {
          angle.push(angle[i - 1] + ((kappa(i - 1) + kappa(i)) / 2) * (s[i] - s[i - 1]));
        }
        let [x, y] = [0, 0];
        for (let i = 1; i < s.length; i++) {
          const middle = (angle[i - 1] + angle[i]) / 2;
          x += Math.cos(middle) * (s[i] - s[i - 1]);
          y += Math.sin(middle) * (s[i] - s[i - 1]);
        }
        return Math.hypot(x, y);
      };
      const set = gapOf((i) => kappa0[i] + left[i]) - gapOf((i) => kappa0[i]);
      expect(theta.length).toBe(s.length);
      expect(set).toBeGreaterThan(0.05);
      // The library adds up small turns, so it is off by set/r or so; trapezoids by 1e-4.
      expect(relativeError(found.yield?.set as number, set)).toBeLessThan(0.02 + set / 56.8);
    },
  );

  test("takes its material's yield stress unless another is given, and none where neither is", () => {
    const design = designRing({ ...FERRY, material: { youngsModulus: 205000, yieldStress: 600 } });
    const own = spreadRing(design, { diameter: 117.4 });
    expect(own.yield?.share).toBe(own.stress.max / 600);
    expect(spreadRing(design, { diameter: 117.4, yieldStress: "1000 MPa" }).yield?.share).toBe(
      own.stress.max / 1000,
    );
    expect(spreadRing(designRing(FERRY), { diameter: 117.4 })).not.toHaveProperty("yield");
  });
});

describe("rings that are not plain, spread", () => {
  const section = FERRY.section;
  const tapered: RingSpecInput = {
    ...FERRY,
    theory: "thin",
    section: {
      ...section,
      face: { shape: "taper", angle: "1 deg" },
      inner: { shape: "bevel", side: "top", depth: 0.5, height: 0.5 },
    },
  };
  const walled: RingSpecInput = {
    ...FERRY,
    theory: "thin",
    section: { ...section, wall: (theta: number) => 0.9 + 0.1 * Math.cos(theta + 0.4) },
  };
  const leaning: RingSpecInput = {
    ...FERRY,
    theory: "thin",
    pressure: { shape: "harmonics", cosine: [0.1], sine: [0.25] },
  };
  const slotted: RingSpecInput = {
    ...FERRY,
    theory: "thin",
    section: { ...section, slots: { count: 40, depth: 1.2, width: 0.8, from: "-150 deg", to: "120 deg" } },
  };

  test.each([
    ["bevelled and tapered", tapered],
    ["of a wall thinner on one side", walled],
    ["of a pressure stronger on one side", leaning],
  ] as const)("are bent by the returned load, place by place: %s", (_, spec) => {
    const design = designRing(spec);
    const E = design.spec.material.youngsModulus;
    const h = design.spec.section.axialHeight;
    const { inPlane } = describeSection(design).properties;
    for (const by of ["hand", "pliers"] as const) {
      const spread = spreadRing(design, { diameter: 117.4, by });
      const { stretch, tangent, curvature } = lineOf(design, spread);
      const loads = staticsOf(design, spread, tangent);
      const most = Math.max(...loads.map(({ moment }) => Math.abs(moment)));
      for (const [i, { moment }] of loads.entries()) {
        const thickness = design.wall?.thickness[i];
        const I = thickness === undefined ? inPlane : (h * thickness ** 3) / 12;
        // As for plain rings; that the wall varies between the stations costs another digit.
        const atEnd = i < 3 || i > loads.length - 4;
        expect(Math.abs(stretch[i] - 1)).toBeLessThan(atEnd ? 1e-7 : 1e-8);
        if (atEnd) continue;
        expect(Math.abs((curvature[i] - design.free.curvature[i]) * E * I - moment)).toBeLessThan(
          1e-5 * most,
        );
      }
      const { fits, distances } = clearanceOf(design, spread);
      expect(Math.abs(fits)).toBeLessThan(1e-6);
      // The piston may lean on one tip only, and on a place opposite.
      expect(Math.abs(Math.min(distances[0], distances[distances.length - 1]))).toBeLessThan(1e-6);
    }
  });

  test("pass the piston between the stations as well, but for micrometres", () => {
    for (const spec of [walled, leaning]) {
      const design = designRing({ ...spec, stations: 96 });
      const spread = spreadRing(design, { diameter: 117.4 });
      const { face, centre } = clearanceOf(design, spread);
      // The corners apart, the face between two points is a curve through them and their neighbours. The library asks at the stations
      // only: between two that are 1.9 mm apart a face half as curved as the piston comes (1/59 − 1/118)·1.9²/8 = 4 µm nearer at most.
      for (let i = 2; i < face.length - 3; i++) {
        for (const share of [0.25, 0.5, 0.75]) {
          const at = [0, 1].map((k) => {
            const [before, one, other, after] = [-1, 0, 1, 2].map((off) => face[i + off][k]);
            const straight = one + share * (other - one);
            return straight - (share * (1 - share) * (after - other - one + before)) / 4;
          });
          const room = Math.hypot(at[0] - centre[0], at[1] - centre[1]) - 117.4 / 2;
          expect(room).toBeGreaterThan(-0.004);
        }
      }
    }
  });

  test("are pulled at the middle of their end faces, also where the wall is thinner there", () => {
    const wall = (theta: number) => 0.85 + 0.15 * Math.cos(theta);
    const design = designRing({ ...FERRY, theory: "thin", section: { ...section, wall } });
    const spread = spreadRing(design, { diameter: 117.4 });
    const { tangent, curvature } = lineOf(design, spread);
    const { free, spec } = design;
    const last = free.theta.length - 1;
    const [a, t] = [spec.section.radialThickness, spec.section.radialThickness * wall(free.theta[last])];
    // The face is square to the line but for the closed gap's 0.004 rad.
    const middle = spread.y[last] - ((a - t) / 2) * Math.cos(tangent[last]);
    const moment = (i: number) =>
      ((curvature[i] - free.curvature[i]) *
        spec.material.youngsModulus *
        2 *
        (a * wall(free.theta[i])) ** 3) /
      12;
    for (const i of [last / 2, last / 2 + 20]) {
      // The middle lies 0.66 mm outside the line, some 0.6 % of the lever arm.
      expect(relativeError(-moment(i), (spread.force as number) * (middle - spread.y[i]))).toBeLessThan(1e-4);
    }
  });

  test("bend more where they are slotted, and are stressed in their net section", () => {
    const design = designRing(slotted);
    const { netShare = [], thickness = [], slotDepth = 0 } = design.wall ?? {};
    const E = design.spec.material.youngsModulus;
    const spread = spreadRing(design, { diameter: 117.4 });
    const s = design.free.arcLength;
    const { x, y } = spread;
    const last = s.length - 1;
    const [pull, length] = [spread.force as number, Math.hypot(x[last] - x[0], y[last] - y[0])];
    const momentAt = (i: number) =>
      (-pull * ((x[last] - x[0]) * (y[last] - y[i]) - (y[last] - y[0]) * (x[last] - x[i]))) / length;
    // Inside one zone a station stands once; where it stands twice the section jumps.
    const bounds = [0, ...s.flatMap((at, i) => (i > 0 && at === s[i - 1] ? [i - 1, i] : [])), last];
    let compared = 0;
    for (let run = 0; run < bounds.length; run += 2) {
      const [first, end] = [bounds[run], bounds[run + 1]];
      if (end - first < 14) continue;
      const slopes = (f: readonly number[]) =>
        s.map((_, i) => (i < first || i > end ? 0 : slopeAt(s, f, i, first, end)));
      const [dx, dy] = [slopes(x), slopes(y)];
      const [ddx, ddy] = [slopes(dx), slopes(dy)];
      for (let i = first + 6; i <= end - 6; i++) {
        const bending = dx[i] * ddy[i] - dy[i] * ddx[i] - design.free.curvature[i];
        const I = (depth: number) => (2 * (thickness[i] - depth) ** 3) / 12;
        const flexibility = (1 - netShare[i]) / I(0) + netShare[i] / I(slotDepth);
        expect(relativeError(bending, (momentAt(i) * flexibility) / E)).toBeLessThan(1e-4);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(40);
    // The thin theory's 6·M/(h·a²), with the net wall, largest of all stations.
    const stresses = x.map((_, i) => {
      const wall = thickness[i] - (netShare[i] > 0 ? slotDepth : 0);
      return Math.abs(6 * momentAt(i)) / (2 * wall * wall);
    });
    expect(relativeError(spread.stress.max, Math.max(...stresses))).toBeLessThan(1e-6);
  });

  test("take their piston on plates where their halves are alike", () => {
    const symmetric: RingSpecInput = {
      ...FERRY,
      section: { ...section, slots: { count: 40, depth: 1.2, width: 0.8, from: "-150 deg", to: "150 deg" } },
    };
    const [plain, soft] = [FERRY, symmetric].map((spec) =>
      spreadRing(designRing({ ...spec, load: { freeGap: 11 } }), { diameter: 117.4, by: "plates" }),
    );
    expect(soft.force as number).toBeLessThan(plain.force as number);
    expect(soft.tipGap).toBeGreaterThan(20);
  });

  test("are refused on plates where their halves differ", () => {
    for (const spec of [walled, leaning, slotted]) {
      const error = refused(designRing(spec), { diameter: 117.4, by: "plates" });
      expect(error.field).toBe("by");
      expect(error.allowed).toMatch(/"hand" or "pliers".*halves differ/);
    }
  });

  test("are refused on plates where their halves differ and yet their ends turn alike", () => {
    // The ends' turn from sines of order 2 and 3 cancels for one ratio of the two, found by the secant of two trials; thin theory, so
    // that it is a straight line.
    const with3 = (third: number) =>
      designRing({
        ...FERRY,
        theory: "thin",
        pressure: { shape: "harmonics", cosine: [], sine: [0.2, third] },
      });
    const differ = (third: number) => {
      const { left, right } = with3(third).ends;
      return left.turn - right.turn;
    };
    const [none, some] = [differ(0), differ(0.3)];
    const design = with3((0.3 * none) / (none - some));
    const { curvature } = design.free;
    expect(Math.abs(design.ends.left.turn - design.ends.right.turn)).toBeLessThan(1e-9);
    expect(Math.abs(curvature[40] / curvature[curvature.length - 41] - 1)).toBeGreaterThan(1e-3);
    expect(refused(design, { diameter: 117.4, by: "plates" }).field).toBe("by");
  });
});

function refused(design: RingDesign, options: Loose): SpecError {
  let error: unknown;
  try {
    spreadRing(design, options);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

describe("spreadRing refuses", () => {
  const cases: [what: string, options: Loose, field: string, allowed: RegExp][] = [
    ["no options", undefined, "options", /must be an object/],
    ["nothing for options", null, "options", /must be an object/],
    ["no diameter", {}, "diameter", /must be given/],
    ["NaN for a diameter", { diameter: Number.NaN }, "diameter", /above 0 mm/],
    ["no diameter at all", { diameter: 0 }, "diameter", /above 0 mm/],
    ["a negative diameter", { diameter: -117 }, "diameter", /above 0 mm/],
    ["an endless diameter", { diameter: Number.POSITIVE_INFINITY }, "diameter", /above 0 mm/],
    ["a diameter without unit", { diameter: "117" }, "diameter", /"118 mm"/],
    ["a diameter in newtons", { diameter: "117 N" }, "diameter", /"N" is not a length unit/],
    ["a piston a half wider than the bore", { diameter: 177 }, "diameter", /at most 135\.7 mm/],
    ["a piston just too wide", { diameter: 135.8 }, "diameter", /at most 135\.7 mm/],
    ["a way of no name", { diameter: 117, by: "teeth" }, "by", /"hand", "pliers" or "plates"/],
    ["plates of less than nothing", { diameter: 117, by: "plates", plate: -0.1 }, "plate", /from 0 to 10 mm/],
    ["plates as thick as a wall", { diameter: 117, by: "plates", plate: 11 }, "plate", /from 0 to 10 mm/],
    ["NaN for a plate", { diameter: 117, plate: Number.NaN }, "plate", /from 0 to 10 mm/],
    ["no yield stress", { diameter: 117, yieldStress: 0 }, "yieldStress", /above 0 MPa/],
    ["a yield stress in mm", { diameter: 117, yieldStress: "5 mm" }, "yieldStress", /not a pressure unit/],
    ["a field misspelt", { diameter: 117, dia: 5 }, "dia", /nearest is "diameter"/],
  ];
  const design = designRing(FERRY);

  test.each(cases)("%s", (_, options, field, allowed) => {
    const error = refused(design, options);
    expect(error.field).toBe(field);
    expect(error.allowed).toMatch(allowed);
  });

  test("nothing that a hand could do within its range", () => {
    // Up to the widest diameter allowed, 135.7 mm.
    for (const diameter of [124, 130, 135.7]) {
      for (const by of WAYS) expect(spreadRing(design, { diameter, by }).stress.max).toBeGreaterThan(700);
    }
  });
});
