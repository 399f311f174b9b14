import { defineConfig } from "vitest/config";

/** Kills, clones, clocks and races want the machine to themselves. */
const ALONE = ["bad-disks", "fresh-clone", "interrupted", "killed", "live-load", "many-jobs", "two-at-once"].map(
  (name) => `tests/slow/${name}.test.ts`,
);

const shared = { testTimeout: 600_000, hookTimeout: 600_000, env: { TZ: "UTC", NO_COLOR: "1" } };

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...shared,
          name: "slow",
          include: ["tests/**/*.slow.test.ts", "tests/slow/**/*.test.ts"],
          exclude: ALONE,
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...shared,
          name: "alone",
          include: ALONE,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
