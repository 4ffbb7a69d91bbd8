import { defineConfig } from "vitest/config";

/** The tests that take long: whole cruises by the dozen, fuzzed files, a browser. */
export default defineConfig({
  test: {
    globalSetup: "tests/cli/build.ts",
    include: ["tests/**/*.slow.test.ts"],
    testTimeout: 900_000,
    hookTimeout: 900_000,
    isolate: false,
    maxWorkers: "100%",
  },
});
