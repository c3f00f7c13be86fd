import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("../../", import.meta.url));

export default defineConfig({
  root,
  resolve: { alias: [{ find: /^camround$/, replacement: `${root}src/index.ts` }] },
  test: {
    include: ["test/finite-element/**/*.test.ts"],
    // The work is the finite-element program's, and it takes one processor a run.
    maxWorkers: 2,
    testTimeout: 120000,
  },
});
