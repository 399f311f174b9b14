import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/slow/**", "tests/soak/**"],
    testTimeout: 20_000,
    env: { TZ: "UTC", NO_COLOR: "1" },
  },
});
