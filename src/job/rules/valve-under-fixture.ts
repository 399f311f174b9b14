import { error } from "../../diagnostics/build.ts";
import { valvesOf } from "../inherit.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule } from "./rule.ts";
import { showLength } from "./show-length.ts";

/** A valve cannot open into a bore that is no wider than itself. */
export const valveUnderFixture: JobRule = (inHand) => {
  const { job, located, units, shopBench, inherited } = inHand;
  return (job.stages ?? []).flatMap((stage, index) => {
    const fixtures = [
      { value: stage.bench?.bore_fixture ?? job.bench?.bore_fixture ?? shopBench?.bore_fixture, run: undefined },
      ...(stage.runs ?? []).map((run, at) => ({ value: run.bench?.bore_fixture, run: at as number | undefined })),
    ];
    return fixtures.flatMap(({ value, run }) =>
      SIDES.flatMap((side) => {
        const port = inherited[index]?.[side];
        const valve = Math.max(...(port ? valvesOf(port, 1) : []).map((one) => one.head ?? 0));
        if (value === undefined || !(valve >= value)) return [];
        const place =
          run !== undefined
            ? ["stages", index, "runs", run, "bench", "bore_fixture"]
            : stage.bench?.bore_fixture !== undefined
              ? ["stages", index, "bench", "bore_fixture"]
              : stage[side]?.valve !== undefined
                ? ["stages", index, side, "valve", ...headKey(stage[side]?.valve)]
                : undefined;
        if (!place) return [];
        return [
          error(
            "job/valve-over-fixture",
            `the ${side} valve of ${showLength(valve, units)} does not fit the bore fixture of ${showLength(value, units)}`,
            located.span(place),
            { hint: "bore_fixture is the bore of the tube under the head" },
          ),
        ];
      }),
    );
  });
};

/** A valve stated as a map is pointed at by its head. */
const headKey = (valve: unknown): readonly string[] =>
  typeof valve === "object" && valve !== null && "head" in valve ? ["head"] : [];
