/**
 * `camround/parallel`: studies on worker threads. Node alone.
 *
 * @packageDocumentation
 */

export { sliceInParallel, type ThreadOptions, variationInParallel } from "./parallel/variationInParallel.js";
