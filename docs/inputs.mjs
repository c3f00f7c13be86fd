import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/** Writes docs/reference/inputs.md. */
const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const { outputFiles } = await build({
  entryPoints: [here("inputs.ts")],
  bundle: true,
  format: "esm",
  platform: "node",
  write: false,
});
const [{ text }] = outputFiles;
const { inputsPage } = await import(`data:text/javascript,${encodeURIComponent(text)}`);
writeFileSync(here("reference/inputs.md"), inputsPage());
