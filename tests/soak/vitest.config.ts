import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/soak/**/*.test.ts"],
    testTimeout: 7_200_000,
    hookTimeout: 600_000,
    // So that what is held can be told from what is only not collected yet.
    execArgv: ["--expose-gc"],
    env: { TZ: "UTC", NO_COLOR: "1" },
  },
});
