import { defineConfig } from "tsup";

const dts = { compilerOptions: { ignoreDeprecations: "6.0" } };

export default defineConfig([
  {
    // The library: both module kinds, no Node built-ins, runs in browsers.
    entry: { index: "src/index.ts", svg: "src/svg.ts" },
    format: ["esm", "cjs"],
    platform: "neutral",
    target: "es2022",
    // Bundled so that the core's only runtime dependency stays the schema library.
    noExternal: ["fastest-levenshtein"],
    dts,
    clean: true,
  },
  {
    entry: { cli: "src/cli.ts" },
    format: ["esm"],
    platform: "node",
    target: "node20",
    noExternal: ["fastest-levenshtein"],
  },
]);
