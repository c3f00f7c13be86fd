/** How often a benchmark measures: its usual number, or fewer where `BENCH_ROUNDS` says so, for a quick look. */
export const rounds = (usual) => Math.min(usual, Number(process.env.BENCH_ROUNDS ?? usual));
