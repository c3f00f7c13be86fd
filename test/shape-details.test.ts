import { describe, expect, test } from "vitest";
import type { BarLaw } from "../src/curvature/law.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { joinedBy } from "../src/forces/mirror.js";
import type { Halves } from "../src/forces/relativeForces.js";
import { halfStations, type Stations } from "../src/forces/stations.js";
import type { Point } from "../src/numeric/point.js";
import type { Wall } from "../src/section/wall.js";
import { joinHalves } from "../src/shape/freeRing.js";
import { freeHalfRing, freeHalves, type HalfRing, halfRingOf } from "../src/shape/halfRing.js";
import { cutAngle, freeGap, freeOutline, pointOnEnd } from "../src/shape/outline.js";
import { slotOutlines } from "../src/shape/slotOutlines.js";
import { integral } from "./statics.js";

/** The free shape of rings that are arcs of circles, and so known; and what the law is asked for at each station. */

const near = (found: number, expected: number, tolerance = 1e-12) =>
  expect(Math.abs(found - expected)).toBeLessThan(tolerance);

function nearPoint(found: Point, expected: readonly number[], tolerance = 1e-12): void {
  near(found[0], expected[0], tolerance);
  near(found[1], expected[1], tolerance);
}

const r = 20;

/** Half a ring that is an arc of radius rho when free, `length` of it to a radian of the closed ring. */
const arc = (stations: Stations, rho: number, length = r) =>
  halfRingOf(
    r,
    stations,
    stations.theta.map(() => 1 / rho),
    stations.theta.map(() => length - r),
  );

describe.each([
  ["at equal steps", halfStations(3, 40)],
  ["with a break", halfStations(3, 40, [1])],
])("a half ring with stations %s", (_, stations) => {
  test("of one curvature is an arc from (0, −r) on", () => {
    const [rho, length] = [25, 19.5];
    const half = arc(stations, rho, length);
    for (const [i, theta] of stations.theta.entries()) {
      const tangent = (length * theta) / rho;
      near(half.tangent[i], tangent);
      near(half.arcLength[i], length * theta);
      near(half.cosTangent[i], Math.cos(tangent));
      near(half.sinTangent[i], Math.sin(tangent));
      // The integration, of degree 7 at steps of 0.075, leaves some 1e-11 of the radius.
      near(half.x[i], rho * Math.sin(tangent), 1e-9);
      near(half.y[i], rho * (1 - Math.cos(tangent)) - r, 1e-9);
    }
    expect(half.curvature).toEqual(stations.theta.map(() => 1 / rho));
  });

  test("under uniform pressure has the tangent θ − K·(θ + sin θ)", () => {
    // Thin ring without a gap, M = Ft·r·(1 + cos θ), K = Ft·r²/(E·I): here 5·400·1e-4 = 0.2.
    const [force, flexibility, K] = [5, 1e-4, 0.2];
    const law: BarLaw = {
      flexibility,
      shearCompliance: 0,
      freeCurvature: (M, _N, kappa) => kappa - M * flexibility,
      turn: (M) => M * flexibility,
      stretch: () => 1,
    };
    const { theta, cosine, sine } = stations;
    const forces = { pressure: theta.map(() => 1), moment: cosine.map((c) => 1 + c), shear: sine };
    const bar = { walls: [], laws: theta.map(() => law) };
    const half = freeHalfRing(closedGeometry(44, 4, 0), stations, forces, bar, force);
    const tangent = (t: number) => t - K * (t + Math.sin(t));
    for (const i of [0, 3, 20, theta.length - 1]) {
      near(half.curvature[i], (1 - K * (1 + cosine[i])) / r);
      near(half.tangent[i], tangent(theta[i]), 1e-10);
      near(half.x[i], r * integral((t) => Math.cos(tangent(t)), 0, theta[i]), 1e-9);
      near(half.y[i], r * integral((t) => Math.sin(tangent(t)), 0, theta[i]) - r, 1e-9);
      near(half.arcLength[i], r * theta[i]);
    }
  });
});

test("freeHalfRing asks the law with M, N and the sections' curvature (1 − γ′)/r, and guesses along a parabola", () => {
  const stations = halfStations(3, 20);
  const { theta, cosine, sine } = stations;
  // Shear angle γ = c·V with V = F·sin θ, c = c₀·(1 + θ/10).
  const [F, c0] = [5, 0.002];
  const compliance = (t: number) => c0 * (1 + t / 10);
  const rate = (t: number) => F * (compliance(t) * Math.cos(t) + (c0 / 10) * Math.sin(t));
  const free = (i: number) => 0.04 + 0.001 * i + 0.0002 * i * i;
  const asked: number[][] = [];
  const stretched: number[][] = [];
  const laws = theta.map(
    (t, i): BarLaw => ({
      flexibility: 1e-4,
      shearCompliance: compliance(t),
      freeCurvature(...forces) {
        asked.push(forces);
        return free(i);
      },
      turn: () => Number.NaN,
      stretch(...forces) {
        stretched.push(forces);
        return 1.25;
      },
    }),
  );
  const forces = { pressure: theta.map(() => 1), moment: cosine.map((c) => 1 + c), shear: sine };
  const geometry = closedGeometry(44, 4, 0);
  const half = freeHalfRing(
    geometry,
    stations,
    forces,
    { walls: [], laws, shearSlope: theta.map(() => c0 / 10) },
    F,
  );
  for (const [i, t] of theta.entries()) {
    const [M, N] = [F * r * (1 + Math.cos(t)), -F * (1 + Math.cos(t))];
    near(asked[i][0], M);
    near(asked[i][1], N);
    near(asked[i][2], (1 - rate(t)) / r, 1e-15);
    near(stretched[i][0], M);
    near(stretched[i][1], N);
    expect(stretched[i][2]).toBe(free(i));
    if (i > 2) near(asked[i][3], free(i), 1e-15);
    // λ = 5/4, so the free arc is 4/5 of the closed one.
    near(half.arcLength[i], 0.8 * r * t);
  }
  // The thin ring's κ − M/(E·I) at the back, and the station before until there are three.
  near(asked[0][3], 1 / r - 2 * F * r * 1e-4, 1e-15);
  expect([asked[1][3], asked[2][3]]).toEqual([free(0), free(1)]);
  expect(half.curvature).toEqual(theta.map((_, i) => free(i)));
  // Without a slope of the compliance only V′ counts.
  asked.length = 0;
  freeHalfRing(geometry, stations, forces, { walls: [], laws }, F);
  near(asked[7][2], (1 - F * compliance(theta[7]) * cosine[7]) / r, 1e-15);
});

test("freeHalves are one object only where forces and bars are", () => {
  const stations = halfStations(3, 20);
  const law: BarLaw = {
    flexibility: 1e-4,
    shearCompliance: 0,
    freeCurvature: (M, _N, kappa) => kappa - M * 1e-4,
    turn: () => 0,
    stretch: () => 1,
  };
  const forces = (moment: number) => ({
    pressure: stations.theta.map(() => 1),
    moment: stations.theta.map(() => moment),
    shear: stations.theta.map(() => 0),
  });
  const bar = () => ({ walls: [], laws: stations.theta.map(() => law) });
  const [one, other, oneBar, otherBar] = [forces(1), forces(2), bar(), bar()];
  const halves = (f: Halves<typeof one>, b: Halves<typeof oneBar>) =>
    freeHalves(closedGeometry(44, 4, 0), stations, f, b, 5);
  const alike = halves({ left: one, right: one }, { left: oneBar, right: oneBar });
  expect(alike.left).toBe(alike.right);
  const bars = halves({ left: one, right: one }, { left: oneBar, right: otherBar });
  expect(bars.left).not.toBe(bars.right);
  const { left, right } = halves({ left: one, right: other }, { left: oneBar, right: oneBar });
  near(left.curvature[0], 1 / r - 0.01, 1e-15);
  near(right.curvature[0], 1 / r - 0.02, 1e-15);
});

/** Halves of different radii, from the same back. */
const stations = halfStations(3, 40);
const uneven = { left: arc(stations, 22), right: arc(stations, 25, 19) };

test("joinHalves runs from the left end, where the arc length is 0, over the back", () => {
  const theta = joinedBy({ left: stations, right: stations }, (half) => half.theta, -1);
  const ring = joinHalves(uneven, theta, 7);
  expect([ring.gap, ring.theta]).toEqual([7, theta]);
  const last = 2 * 40;
  expect(ring.x.length).toBe(last + 1);
  for (const i of [0, 10, 40, 70, last]) {
    const t = theta[i];
    const [rho, length] = t < 0 ? [22, 20] : [25, 19];
    const tangent = (length * t) / rho;
    near(ring.tangent[i], tangent);
    near(ring.x[i], rho * Math.sin(tangent), 1e-9);
    near(ring.y[i], rho * (1 - Math.cos(tangent)) - r, 1e-9);
    near(ring.curvature[i], 1 / rho);
    near(ring.arcLength[i], 3 * 20 + length * t);
  }
});

describe("a cut through the end of the line", () => {
  const delta = 0.2;

  test("meets a face as far off as the law of sines says", () => {
    // Centre, end of the line and corner make a triangle with sides ρ and ρ + o and the angle π − δ at the end.
    for (const offset of [-2, -0.5, 0.5, 2]) {
      const angle = cutAngle(25, offset, delta);
      // Along the cut from the end: the corner is at ρ·(cos, sin) + t·(cos δ, sin δ), seen from the centre.
      const corner = [(25 + offset) * Math.cos(angle) - 25, (25 + offset) * Math.sin(angle)];
      near(Math.atan2(corner[1] * Math.sign(offset), corner[0] * Math.sign(offset)), delta);
    }
    near(cutAngle(25, 0, delta), 0);
  });

  test("has its corners on the faces, in line with the end of the line", () => {
    const { right } = uneven;
    const last = right.x.length - 1;
    const end = [right.x[last], right.y[last]];
    const centre = [0, 25 - r];
    expect(pointOnEnd(right, 0, delta)).toEqual(end);
    for (const offset of [-2, 2]) {
      const [x, y] = pointOnEnd(right, offset, delta);
      near(Math.hypot(x - centre[0], y - centre[1]), 25 + offset, 1e-9);
      // Outward normal is the tangent less a right angle; the cut leads it by δ.
      const direction = right.tangent[last] - Math.PI / 2 + delta;
      const [dx, dy] = [(x - end[0]) * Math.sign(offset), (y - end[1]) * Math.sign(offset)];
      near(dx * Math.sin(direction) - dy * Math.cos(direction), 0, 1e-9);
      expect(dx * Math.cos(direction) + dy * Math.sin(direction)).toBeGreaterThan(1.9);
    }
  });

  test("leaves between the ends their distance, halves alike or not", () => {
    const { left, right } = uneven;
    const last = right.x.length - 1;
    // Seen from the right, the left end stands in the mirror.
    const apart = (one: HalfRing, other: HalfRing) =>
      Math.sqrt((one.x[last] + other.x[last]) ** 2 + (one.y[last] - other.y[last]) ** 2);
    near(freeGap({ left: right, right }, { left: 0, right: 0 }, delta), 2 * right.x[last]);
    near(freeGap(uneven, { left: 0, right: 0 }, delta), apart(left, right));
    const [[leftX, leftY], [rightX, rightY]] = [pointOnEnd(left, 1, delta), pointOnEnd(right, -1, delta)];
    near(
      freeGap(uneven, { left: 1, right: -1 }, delta),
      Math.sqrt((leftX + rightX) ** 2 + (leftY - rightY) ** 2),
    );
    near(freeGap({ left: right, right }, { left: -1, right: -1 }, delta), 2 * rightX);
  });
});

describe("the faces of a ring that is round when free", () => {
  // d = 44, a = 4, s = 20: closed and free are the same circle, so the cuts stand at x = ±10.
  const geometry = closedGeometry(44, 4, 20);
  const round = halfStations(geometry.centroidLimit, 200);
  const { theta } = round;
  const half = arc(round, r);
  const wallOf = (thickness: (t: number) => number) => theta.map((t): Wall => ({ thickness: thickness(t) }));

  /** Faces of one half, from the back. */
  function expectFaces(outer: Point[], inner: Point[], thickness: (t: number) => number, side: 1 | -1): void {
    expect(outer.length).toBe(201);
    const last = outer.length - 1;
    for (let i = 0; i < last; i++)
      nearPoint(outer[i], [side * 22 * Math.sin(theta[i]), -22 * Math.cos(theta[i])], 1e-9);
    nearPoint(outer[last], [side * 10, Math.sqrt(22 ** 2 - 10 ** 2)], 1e-9);
    const end = 22 - thickness(theta[200]);
    // Stations before the inner corner, at asin(10/inner radius) from the gap, and the corner.
    const before = theta.filter((t) => t < Math.PI - Math.asin(10 / end)).length;
    // Some stations fall away.
    expect(before).toBeLessThan(198);
    expect(inner.length).toBe(before + 1);
    for (let i = 0; i < before; i++) {
      const radius = 22 - thickness(theta[i]);
      nearPoint(inner[i], [side * radius * Math.sin(theta[i]), -radius * Math.cos(theta[i])], 1e-9);
    }
    nearPoint(inner[before], [side * 10, Math.sqrt(end ** 2 - 10 ** 2)], 1e-9);
  }

  /** The halves of a face, both from the back, which stands in the middle of as many points as the right half has. */
  const halvesOf = (points: Point[], right: number) => [
    points.slice(0, -right + 1).reverse(),
    points.slice(-right),
  ];

  test("are circles, the inner one cut short by the parallel faces", () => {
    const walls = wallOf(() => 4);
    const { outer, inner } = freeOutline(
      { left: half, right: half },
      { left: walls, right: walls },
      theta,
      geometry,
      20,
      geometry.faceToNormal,
    );
    expect([outer.length, inner.length % 2]).toEqual([401, 1]);
    const count = (inner.length + 1) / 2;
    const [left, right] = [halvesOf(outer, 201), halvesOf(inner, count)];
    expectFaces(left[1], right[1], () => 4, 1);
    expectFaces(left[0], right[0], () => 4, -1);
  });

  test("follow a wall that is another one on either side", () => {
    const [onLeft, onRight] = [
      (t: number) => 4 + 1.5 * Math.sin(t / 2),
      (t: number) => 4 - 0.5 * Math.sin(t / 2),
    ];
    // Another object, as halves that differ are.
    const { outer, inner } = freeOutline(
      { left: { ...half }, right: half },
      { left: wallOf(onLeft), right: wallOf(onRight) },
      theta,
      geometry,
      20,
      geometry.faceToNormal,
    );
    const end = 22 - onRight(theta[200]);
    const right = theta.filter((t) => t < Math.PI - Math.asin(10 / end)).length + 1;
    const [outers, inners] = [halvesOf(outer, 201), halvesOf(inner, right)];
    expectFaces(outers[1], inners[1], onRight, 1);
    expectFaces(outers[0], inners[0], onLeft, -1);
  });
});

describe("the slots of a ring that is round when free", () => {
  const slots = { count: 25, depth: 1.5, width: 0.8, from: -0.5, to: 2 };

  test.each([
    ["one run", halfStations(3, 60)],
    ["runs that end where the slots do", halfStations(3, 60, [0.5, 2])],
  ])("stand square to the line at equal angles, over %s", (_, round) => {
    const half = arc(round, r);
    const halves = { left: half, right: half };
    const theta = joinedBy({ left: round, right: round }, ({ theta: angles }) => angles, -1);
    const thickness = (t: number) => 4 + 0.2 * t;
    const found = slotOutlines(slots, joinHalves(halves, theta, 0), thickness, 2);
    expect(found.length).toBe(25);
    for (const [k, corners] of found.entries()) {
      // Pitches of 0.1 rad, the slot in the middle of each.
      const t = -0.45 + 0.1 * k;
      const root = 22 - thickness(t) + 1.5;
      const local = [
        [-0.4, root - 1.5],
        [-0.4, root],
        [0.4, root],
        [0.4, root - 1.5],
      ];
      for (const [i, [along, radius]] of local.entries()) {
        nearPoint(
          corners[i],
          [along * Math.cos(t) + radius * Math.sin(t), along * Math.sin(t) - radius * Math.cos(t)],
          1e-9,
        );
      }
    }
  });
});
