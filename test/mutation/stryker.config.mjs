const step = process.env.MUTATED;

export default {
  testRunner: "vitest",
  vitest: { configFile: "test/mutation/vitest.config.ts", related: false },
  plugins: ["@stryker-mutator/vitest-runner"],
  mutate: [`src/${step}/**/*.ts`],
  coverageAnalysis: "perTest",
  ignoreStatic: true,
  ignorePatterns: ["dist", "coverage", "docs/reference", "examples/explorer/explorer.html"],
  reporters: ["json"],
  jsonReporter: { fileName: `coverage/mutation/${step}.json` },
  tempDirName: "coverage/stryker",
  concurrency: 2,
  timeoutMS: 20_000,
  dryRunTimeoutMinutes: 20,
};
