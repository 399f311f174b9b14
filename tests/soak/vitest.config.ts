import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/soak/**/*.test.ts"],
    testTimeout: 7_200_000,
    env: { TZ: "UTC", NO_COLOR: "1" },
  },
});
