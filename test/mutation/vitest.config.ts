import { defineConfig, mergeConfig } from "vitest/config";
import base from "../../vitest.config.js";
import { JUDGES } from "./judges.js";

const judges = JUDGES[process.env.MUTATED ?? ""];
if (!judges) throw new Error(`MUTATED must be one of ${Object.keys(JUDGES).join(", ")}`);

const config = mergeConfig(base, defineConfig({ test: { maxWorkers: 1 } }));
config.test.include = judges.map((name) => `test/${name}.test.ts`);
export default config;
