export { type RenderOptions, renderRing } from "./svg/renderRing.js";
