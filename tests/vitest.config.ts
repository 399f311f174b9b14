import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/slow/**", "tests/soak/**", "tests/**/*.slow.test.ts"],
    testTimeout: 60_000,
    // Files share what they import: loading the chart and font libraries once a worker halves the run.
    isolate: false,
    pool: "forks",
    // By default vitest leaves one core to itself: on two cores, one worker.
    maxWorkers: "100%",
    env: { TZ: "UTC", NO_COLOR: "1" },
  },
});
