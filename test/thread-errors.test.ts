import { describe, expect, test } from "vitest";
import { NoContact, NotFound, SpecError } from "../src/index.js";
import { errorOf, type Refusal } from "../src/parallel/refusal.js";
import work, { type Task } from "../src/parallel/worker.js";

/** What goes wrong within a thread comes out of it as what it is. On real threads, of the built package: `parallel.test.ts`. */

/** What a thread answers whose study comes to this error, copied as it is on its way out. */
function answerTo(error: Error): Refusal {
  const plan = {
    get spec() {
      throw error;
    },
  } as unknown as Task["plan"];
  return structuredClone(work({ plan, from: 0, to: 1 }) as Refusal);
}

describe("Out of a thread comes", () => {
  test("NotFound, by which a command tells bad input from its own failure", () => {
    const error = errorOf(answerTo(new NotFound("contact not found: residual 3")));
    expect(error).toBeInstanceOf(NotFound);
    expect([error.name, error.message]).toEqual(["NotFound", "contact not found: residual 3"]);
  });

  test.each(["butts", "loose"] as const)("NoContact, with its reason: %s", (reason) => {
    const original = new NoContact(reason, "118 mm", "must be wider");
    const error = errorOf(answerTo(original));
    expect(error).toBeInstanceOf(NoContact);
    expect({ ...error, message: error.message }).toEqual({ ...original, message: original.message });
  });

  test("SpecError, and no NoContact", () => {
    const original = new SpecError("bore.harmonics", [Number.NaN], "must be less");
    const error = errorOf(answerTo(original));
    expect(error).toBeInstanceOf(SpecError);
    expect(error).not.toBeInstanceOf(NoContact);
    expect({ ...error, message: error.message }).toEqual({ ...original, message: original.message });
  });

  test("a failure of the library itself as it is", () => {
    expect(() => answerTo(new RangeError("out of memory"))).toThrow(RangeError);
  });
});
