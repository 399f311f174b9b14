import { computeFigures } from "../../src/figures/compute-figures.ts";
import { isClear } from "../../src/model/verdict.ts";
import { otherHeadComparisons } from "../../src/sheet/context.ts";
import { createContext } from "../../src/sheet/make-context.ts";
import { sideHeads } from "../../src/sheet/side-by-side/heads.ts";
import { highestWords, ribbonRuns } from "../../src/sheet/side-by-side/ribbon.ts";
import { claimableVerdict } from "../../src/sheet/words/verdicts.ts";
import { createRandom, type Random } from "../claims/random.ts";
import { modelOf, type Row } from "../figures/model-fixture.ts";
import { theme } from "./sheet-fixture.ts";

/** Two heads whose curves differ by a level, a tilt and scatter; at times other lifts or another pressure. */
export function pairModel(random: Random) {
  const lifts = Array.from({ length: Math.round(random.uniform(4, 11)) }, (_, i) => 0.05 * (i + 1));
  const [level, tilt, scatter] = [random.normal(0.04), random.normal(0.06), random.uniform(0.001, 0.012)];
  const curve = (x: number) => 220 * Math.tanh(x / 0.28);
  const sweep = (other: boolean) => {
    const share = (x: number) => (other ? 1 + level + tilt * (x / lifts.at(-1)! - 0.5) : 1);
    return {
      rows: lifts.flatMap((x): Row[] => {
        const skipped = other && random.uniform(0, 1) < 0.06;
        const flow = (side: number) => side * curve(x) * share(x) * (1 + random.normal(scatter));
        return skipped ? [] : [[x, flow(1), flow(0.75)]];
      }),
    };
  };
  const unlike = random.uniform(0, 1) < 0.1;
  const sweeps = Math.round(random.uniform(1, 3));
  const runs = (other: boolean) => Array.from({ length: sweeps }, () => sweep(other));
  return modelOf({
    engine: { cams: { intake: { netLift: 0.011 as never } } },
    stages: [{ name: "Finished", runs: runs(false) }],
    compared: [
      {
        label: "other",
        stage: {
          name: "Finished",
          runs: runs(true),
          ...(unlike ? { bench: { intakeEntry: "sharp edge" } as never } : {}),
        },
      },
    ],
  });
}

/** Where ribbon or sentence says other than the verdicts do, over so many generated pairs. */
export function ribbonFaults(count: number, seed: number) {
  const random = createRandom(seed);
  const faults: string[] = [];
  const seen = { clear: 0, within: 0, unjudged: 0 };
  for (let n = 0; n < count; n++) {
    const model = pairModel(random);
    const context = createContext({ model, figures: computeFigures(model), mark: "0f1e2d3c", theme });
    const heads = sideHeads(context);
    for (const side of ["intake", "exhaust"] as const) {
      const [pair] = otherHeadComparisons(context, side);
      const runs = ribbonRuns(context, heads, side);
      const measured = pair!.changes.filter(({ interpolated }) => !interpolated);
      for (const { lift_m: lift, change_m3_s: change, verdict, uncertainty_m3_s: u } of measured) {
        const claimed = claimableVerdict(verdict, u);
        const wanted = isClear(claimed)
          ? change > 0
            ? 0
            : 1
          : claimed === "too few repeats"
            ? "not judged"
            : "within";
        const own = runs.filter(({ first, last }) => lift >= first - 1e-9 && lift <= last + 1e-9);
        if (own.length !== 1 || own[0]!.highest !== wanted)
          faults.push(`pair ${n}, ${side} at ${lift}: ${own.map(({ highest }) => highest)} for ${wanted}`);
        if (typeof wanted === "number") seen.clear++;
        else if (wanted === "within") seen.within++;
        else seen.unjudged++;
      }
      runs.slice(1).forEach((run, i) => {
        if (run.highest === runs[i]!.highest || Math.abs(run.from - runs[i]!.to) > 1e-12)
          faults.push(`pair ${n}, ${side}: runs do not join`);
      });
      const words = highestWords(context, heads, side, runs) ?? "";
      for (const [i, letter] of ["A", "B"].entries())
        if (
          words.includes(`head ${letter} `) !==
          (runs.some(({ highest }) => highest === i) && !words.includes("see the bar"))
        )
          faults.push(`pair ${n}, ${side}: ${words}`);
    }
  }
  return { faults, seen };
}
