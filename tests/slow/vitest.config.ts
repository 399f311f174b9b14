import { defineConfig } from "vitest/config";

const shared = { testTimeout: 600_000, hookTimeout: 600_000, env: { TZ: "UTC", NO_COLOR: "1" } };

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...shared,
          name: "slow",
          include: ["tests/**/*.slow.test.ts"],
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...shared,
          name: "alone",
          include: ["tests/slow/**/*.test.ts"],
          // One at a time: kills, clones, clocks and second programs want the machine to themselves.
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
