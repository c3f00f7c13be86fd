import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("../../", import.meta.url));

export default defineConfig({
  root,
  resolve: { alias: [{ find: /^camround$/, replacement: `${root}src/index.ts` }] },
  test: {
    include: ["test/finite-element/**/*.test.ts"],
    testTimeout: 120000,
  },
});
