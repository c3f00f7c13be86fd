import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("../../", import.meta.url));

export default defineConfig({
  root,
  test: {
    include: ["test/outside/**/*.test.ts"],
    // The work is that of other programs, one or two processors each.
    maxWorkers: 2,
    testTimeout: 60000,
    hookTimeout: 60000,
  },
});
