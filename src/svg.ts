export { type RenderClosureOptions, renderClosure } from "./svg/renderClosure.js";
export { type RenderOptions, renderRing } from "./svg/renderRing.js";
