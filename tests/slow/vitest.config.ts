import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/slow/**/*.test.ts", "tests/**/*.slow.test.ts"],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // One at a time: kills, clones and second programs want the machine to themselves.
    fileParallelism: false,
    env: { TZ: "UTC", NO_COLOR: "1" },
  },
});
