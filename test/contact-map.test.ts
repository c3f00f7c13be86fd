import { expect, test } from "vitest";
import {
  closeInBore,
  contactMap,
  designRing,
  fullContactAmplitude,
  lightTest,
  ringOfCurvature,
  SpecError,
} from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

/** The map over harmonics and amplitudes, and the light gauge: many closures, one verdict each. */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const design = designRing(FERRY);

test("each cell of the map is that bore's closure, and progress is told after each", () => {
  const told: string[] = [];
  const map = contactMap(design, [2, 5], [0.001, 0.004, 0.02], {
    phase: 0.3,
    onProgress: (done, all) => told.push(`${done}/${all}`),
  });
  expect(told).toEqual(["1/6", "2/6", "3/6", "4/6", "5/6", "6/6"]);
  const bore = { harmonics: [{ order: 5, amplitude: 0.004, phase: 0.3 }] };
  const { contactShare, pressure } = closeInBore(design, bore);
  expect(map.contactShare[1][1]).toBe(contactShare);
  expect(map.smallestPressure[1][1]).toBe(Math.min(...pressure.slice(5, -5)));
});

test("along an order the pressure only falls, and vanishes where the conformability limit is passed", () => {
  const limit = fullContactAmplitude(design.stiffnessParameter, design.installed.centroidRadius, 3);
  const shares = [0, 0.25, 0.5, 0.75, 1.05, 2];
  const [smallest] = contactMap(
    design,
    [3],
    shares.map((share) => share * limit),
  ).smallestPressure;
  for (let k = 1; k < smallest.length; k++) expect(smallest[k]).toBeLessThanOrEqual(smallest[k - 1] + 1e-12);
  expect(smallest[0]).toBeGreaterThan(0.99 * 0.15 * (1 - 0.0025));
  expect(smallest[4]).toBeLessThan(1e-9);
});

test("the light gauge passes a designed ring and fails a round one, by the limit asked for", () => {
  expect(lightTest(design)).toMatchObject({ passes: true, limit: 1 });
  const { load: _, ...body } = FERRY;
  const round = ringOfCurvature(body, 1 / 58);
  const reading = lightTest(round);
  expect(reading.passes).toBe(false);
  const { contactShare } = reading.closure;
  expect(lightTest(round, { limit: contactShare + 0.001 }).passes).toBe(false);
  expect(lightTest(round, { limit: contactShare - 0.001 }).passes).toBe(true);
  // A coarser eye sees less light.
  expect(lightTest(round, { sensitivity: 0.05 }).closure.contactShare).toBeGreaterThan(contactShare);
  // In a gauge 0.05 mm larger the gap opens by π·0.05.
  const wider = lightTest(design, { diameter: 118.05 }).closure.closedGap;
  expect(wider - 0.45).toBeCloseTo(Math.PI * 0.05, 3);
});

test.each([0, -1, 1.001, Number.NaN])("a limit of %s is refused", (limit) => {
  expect(() => lightTest(design, { limit })).toThrow(SpecError);
  expect(() => lightTest(design, { limit })).toThrow(/limit = .* above 0 to 1/);
});
