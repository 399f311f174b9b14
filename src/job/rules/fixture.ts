import { error } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { valvesOf } from "../inherit.ts";
import { SIDES } from "../schema/port.ts";
import { type JobRule, type RuleInput, showLength } from "./rule.ts";
import { typedSize } from "./typed.ts";
import { hasImpossibleValve } from "./valve-size.ts";

type Fixture = { readonly bore: number; readonly stage: number; readonly path: Path | undefined };

/** Every fixture with the stages that it was used in: of a run, of a stage, of the job, or of the shop without a place in the job. */
function fixturesOf({ job, shopBench }: RuleInput): readonly Fixture[] {
  return (job.stages ?? []).flatMap((stage, index): Fixture[] => {
    const ofStage = stage.bench?.bore_fixture;
    const bore = ofStage ?? job.bench?.bore_fixture ?? shopBench?.bore_fixture;
    const path =
      ofStage !== undefined
        ? ["stages", index, "bench"]
        : job.bench?.bore_fixture !== undefined
          ? ["bench"]
          : undefined;
    const runs = (stage.runs ?? []).flatMap((run, at): Fixture[] => {
      const own = run.bench?.bore_fixture;
      const place: Path = ["stages", index, "runs", at, "bench"];
      return own === undefined ? [] : [{ bore: own, stage: index, path: place }];
    });
    return [...(bore === undefined ? [] : [{ bore, stage: index, path }]), ...runs];
  });
}

/** A valve cannot open into a bore that is no wider than itself. Reported once a fixture, at the fixture; one of the shop's at the valve. */
export const valveUnderFixture: JobRule = (input) => {
  const reported = new Set<string>();
  return fixturesOf(input).flatMap(({ bore, stage, path }) => {
    const valves = SIDES.flatMap((side) => {
      const port = input.inherited[stage]?.[side];
      const heads = port && !hasImpossibleValve(port) ? valvesOf(port, 1).flatMap((one) => one.head ?? []) : [];
      return heads.length === 0 ? [] : [{ side, head: Math.max(...heads) }];
    });
    const [widest] = valves.toSorted((a, b) => b.head - a.head);
    if (!widest || widest.head < bore) return [];
    const place = path ? [...path, "bore_fixture"] : ["stages", stage, widest.side, "valve"];
    const key = path ? place.join(" ") : "shop";
    if (reported.has(key)) return [];
    reported.add(key);
    const valve = showLength(widest.head, input.units);
    const said = typedSize(path ? place : [], bore, "length", input);
    const message = `the ${widest.side} valve of ${valve} does not fit the bore fixture of ${said}`;
    const hint = "bore_fixture is the bore of the tube under the head: check it and the valve";
    return [error("job/valve-over-fixture", message, input.located.span(place), { hint })];
  });
};
