import { mkdirSync, writeFileSync } from "node:fs";
import { defineConfig } from "tsup";
import { fileSchemas } from "./src/inputSchemas.js";

export default defineConfig([
  {
    // The library: both module kinds. All but `parallel`, which starts threads, do without Node built-ins and run in browsers.
    entry: {
      index: "src/index.ts",
      curves: "src/curves.ts",
      files: "src/files.ts",
      parallel: "src/parallel.ts",
      svg: "src/svg.ts",
    },
    format: ["esm", "cjs"],
    platform: "neutral",
    target: "es2022",
    external: [/^node:/],
    // The worker's place, in CommonJS.
    shims: true,
    // Bundled so that the core's only runtime dependency stays the schema library.
    noExternal: ["fastest-levenshtein", "munkres"],
    dts: { compilerOptions: { ignoreDeprecations: "6.0" } },
    onSuccess: async () => {
      mkdirSync("dist", { recursive: true });
      for (const [name, schema] of Object.entries(fileSchemas()))
        writeFileSync(`dist/${name}.schema.json`, `${JSON.stringify(schema, null, 2)}\n`);
    },
  },
  {
    entry: { cli: "src/cli.ts", variationWorker: "src/parallel/worker.ts" },
    format: ["esm"],
    platform: "node",
    target: "node20",
    noExternal: ["fastest-levenshtein", "munkres"],
  },
]);
