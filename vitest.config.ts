import { defineConfig } from "vitest/config";

/** Fast tests only: `npm test` takes them. The slow ones are vitest.slow.config.ts, which `npm run check` takes too. */
export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/**/*.slow.test.ts"],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // No test changes a module, so one import of the source serves many files.
    isolate: false,
    pool: "threads",
    maxWorkers: "100%",
  },
});
