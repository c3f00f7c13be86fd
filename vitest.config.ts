import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const source = (name: string) => fileURLToPath(new URL(`./src/${name}`, import.meta.url));

export default defineConfig({
  resolve: {
    alias: [
      { find: /^camround$/, replacement: source("index.ts") },
      { find: /^camround\/curves$/, replacement: source("curves.ts") },
      { find: /^camround\/files$/, replacement: source("files.ts") },
      { find: /^camround\/svg$/, replacement: source("svg.ts") },
    ],
  },
  test: {
    include: ["test/**/*.test.ts"],
    exclude: ["test/finite-element/**", "test/outside/**"],
    // The tests share no state; importing the libraries once instead of once a file saves most of the time.
    isolate: false,
    // As many as the machine runs at once; one fewer, the usual, is one on a machine of two.
    maxWorkers: availableParallelism(),
    testTimeout: 60000,
    coverage: {
      provider: "v8",
      include: ["src/**"],
      // The command line is tested as a program of its own, where coverage does not see it.
      exclude: ["src/cli.ts", "src/cli/**"],
      reporter: ["text-summary"],
      thresholds: { lines: 98, branches: 93 },
    },
  },
});
