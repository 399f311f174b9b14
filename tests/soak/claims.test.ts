import { expect, test } from "vitest";
import { countClaims } from "../claims/count-claims.ts";
import { GOOD, LIFTS, type LiftCount, SLOPPY } from "../claims/simulated-bench.ts";

/** Of each number of lifts: three times as many a bench. */
const JOBS = 2000;
const STATES = [["repeatability", "remount"], ["repeatability"], ["remount"], []] as const;
const COUNTS = Object.keys(LIFTS).map(Number) as LiftCount[];
const most = (share: number) => share + 3.5 * Math.sqrt((share * (1 - share)) / JOBS);

const CASES = [GOOD, SLOPPY].flatMap((scatter) =>
  STATES.flatMap((states) =>
    [1, 2, 3, 4, 5].flatMap((sweeps) =>
      [1, 2, 3].flatMap((mounts) => {
        const isJudged = sweeps * mounts > 1 || states.some((one) => one === "repeatability");
        const name = `${scatter === GOOD ? "good" : "sloppy"}, ${sweeps} × ${mounts}, stated: ${states.join(", ") || "nothing"}`;
        return isJudged ? [{ name, scatter, states, sweeps, mounts }] : [];
      }),
    ),
  ),
);

test.each(CASES)("claims where nothing changed: $name", ({ name, ...bench }) => {
  for (const lifts of COUNTS) {
    const counts = countClaims({ ...bench, dialZero: true }, "none", JOBS, 5, [lifts]);
    const share = (what: Exclude<keyof typeof counts, "jobs">) => counts[what] / JOBS;
    process.stdout.write(
      `| ${name} | ${lifts} | ${[share("meanCalled"), share("anyLiftCalled"), share("peakCalled"), share("covered"), share("flatSpots")].map((one) => (100 * one).toFixed(1)).join(" | ")} |\n`,
    );
    expect(share("meanCalled"), `${lifts} lifts`).toBeLessThanOrEqual(most(0.05));
    expect(share("anyLiftCalled"), `${lifts} lifts`).toBeLessThanOrEqual(most(0.07));
    expect(share("covered"), `${lifts} lifts`).toBeGreaterThanOrEqual(1 - most(0.06));
    expect(share("flatSpots"), `${lifts} lifts`).toBeLessThanOrEqual(most(0.05));
  }
});
