/**
 * `camround/svg`: pictures as text, SVG documents, the same on every machine, without scripts and outside references.
 *
 * @packageDocumentation
 */

export type { RenderOptions } from "./svg/chart.js";
export type { PageSize } from "./svg/page.js";
export { renderClosure } from "./svg/renderClosure.js";
export { renderComparison } from "./svg/renderComparison.js";
export { renderConformability } from "./svg/renderConformability.js";
export { renderDeviation } from "./svg/renderDeviation.js";
export { type RenderGaugeOptions, renderGauge } from "./svg/renderGauge.js";
export { type RenderOutlineOptions, renderOutline } from "./svg/renderOutline.js";
export { type PanelName, type PanelNeeds, renderPanel } from "./svg/renderPanel.js";
export { renderRing } from "./svg/renderRing.js";
export { renderSheet } from "./svg/renderSheet.js";
export { type RenderTemplateOptions, renderTemplate, templatePages } from "./svg/renderTemplate.js";
export { renderTradeOff } from "./svg/renderTradeOff.js";
export { renderVariation } from "./svg/renderVariation.js";
