// To be bundled: npx esbuild ring-page.js --bundle --minify --outfile=bundle.js. The page is bundled.html.
import { designRing, SpecError } from "camround";
import { renderRing } from "camround/svg";

const field = document.querySelector("#pressure");
const answer = document.querySelector("#answer");

function show() {
  try {
    const ring = designRing({
      bore: 118,
      closedGap: 0.45,
      section: { radialThickness: 4.4, axialHeight: 2 },
      material: { youngsModulus: "205 GPa" },
      load: { contactPressure: Number(field.value) },
    });
    answer.textContent = `Free gap ${ring.free.gap.toFixed(2)} mm`;
    // The drawing is made by the library of numbers alone; nothing that was typed gets into it.
    document.querySelector("#drawing").innerHTML = renderRing(ring, { title: "The ferry's ring" });
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    answer.textContent = error.message;
  }
}
field.addEventListener("input", show);
show();
