// Studies on worker threads. Node only.
export { sliceInParallel, type ThreadOptions, variationInParallel } from "./parallel/variationInParallel.js";
