export type { RenderOptions } from "./svg/chart.js";
export { renderClosure } from "./svg/renderClosure.js";
export { renderComparison } from "./svg/renderComparison.js";
export { type RenderGaugeOptions, renderGauge } from "./svg/renderGauge.js";
export { type RenderOutlineOptions, renderOutline } from "./svg/renderOutline.js";
export { renderRing } from "./svg/renderRing.js";
export { type RenderTemplateOptions, renderTemplate, templatePages } from "./svg/renderTemplate.js";
export { renderTradeOff } from "./svg/renderTradeOff.js";
export { renderVariation } from "./svg/renderVariation.js";
