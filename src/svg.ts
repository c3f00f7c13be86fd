export { type RenderClosureOptions, renderClosure } from "./svg/renderClosure.js";
export { type RenderGaugeOptions, renderGauge } from "./svg/renderGauge.js";
export { type RenderOutlineOptions, renderOutline } from "./svg/renderOutline.js";
export { type RenderOptions, renderRing } from "./svg/renderRing.js";
export { type RenderTemplateOptions, renderTemplate, templatePages } from "./svg/renderTemplate.js";
export { type RenderTradeOffOptions, renderTradeOff } from "./svg/renderTradeOff.js";
