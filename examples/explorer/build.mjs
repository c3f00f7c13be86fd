// Builds the page into one file that needs nothing else, examples/explorer/explorer.html; with --serve also serves it.
import { readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const bundled = await build({
  entryPoints: [here("explorer.ts")],
  bundle: true,
  format: "esm",
  minify: true,
  write: false,
  logLevel: "warning",
});
// A script in a page must not hold its own end.
const script = bundled.outputFiles[0].text.replaceAll("</script", "<\\/script").trim();
const page = readFileSync(here("page.html"), "utf8")
  .replace("/* style */", () => readFileSync(here("page.css"), "utf8").trim())
  .replace("/* script */", () => script);
writeFileSync(here("explorer.html"), page);
console.log(`examples/explorer/explorer.html, ${(page.length / 1024).toFixed(0)} kB`);

if (process.argv.includes("--serve")) {
  const port = Number(process.env.PORT ?? 8118);
  createServer((_, response) => {
    response.setHeader("content-type", "text/html; charset=utf-8");
    response.end(page);
  }).listen(port, "127.0.0.1", () => console.log(`http://127.0.0.1:${port}/ serves it; Ctrl-C ends`));
}
