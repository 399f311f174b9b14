import { compareSweeps } from "../../figures/comparison/comparison.ts";
import type { Comparison, Figures } from "../../figures/figures.ts";
import { reportLifts } from "../../figures/side/report-lifts.ts";
import { readHeadSweeps } from "../../figures/sweep/read-all-sweeps.ts";
import { deliveredStage } from "../../model/delivered-stage.ts";
import { type Model, SIDES, type Side, type Stage } from "../../model/model.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import { evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { averageVerdict } from "../../sheet/words/average-change.ts";
import { verdictWords } from "../../sheet/words/verdicts.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { fitLines } from "../fit-width.ts";
import { report } from "../report.ts";
import { formatDiff } from "./diff-text.ts";
import type { JobDiff, StageDiff, StageVerdict, VerdictChange } from "./job-diff.ts";
import { readingChanges } from "./reading-changes.ts";
import { engineChanges, stageChanges } from "./size-changes.ts";
import { headerChanges, lineChanges } from "./text-changes.ts";

/** Prints what changed between two jobs, or two revisions of one. */
export function showDiff(
  a: string,
  b: string,
  form: "text" | "json",
  overrides: Overrides,
  environment: Environment,
): ExitCode {
  const [first, second] = [a, b].map((job) =>
    evaluateJob(job, { ...overrides, pictures: false }, environment.io, environment.cwd),
  );
  for (const { drawable, diagnostics, sources } of [first!, second!])
    if (!drawable) report(diagnostics, sources, environment);
  if (!first?.drawable || !second?.drawable) return 1;
  const changes = diffJobs(first.drawable, second.drawable);
  environment.out(
    form === "json"
      ? `${JSON.stringify(changes, null, 2)}\n`
      : fitLines(formatDiff(changes, second.drawable.model.units), environment.width),
  );
  return 0;
}

type Drawable = NonNullable<Evaluation["drawable"]>;

/** Compares two evaluated jobs at the second one's reference. */
function diffJobs(a: Drawable, b: Drawable): JobDiff {
  const same = a.model.identity.kind === b.model.identity.kind && a.model.identity.number === b.model.identity.number;
  const pairs = pairStages(a.model.stages, b.model.stages);
  const { added, removed } = lineChanges(a.model, b.model);
  const paired = (stage: Stage) => pairs.some((pair) => pair.includes(stage));
  return {
    from: jobLabel(a.model),
    to: jobLabel(b.model),
    same_job: same,
    test_pressure_Pa: b.model.reference.testPressure,
    header: headerChanges(a.project.located.value, b.project.located.value),
    sizes: [...engineChanges(a.model, b.model), ...pairs.flatMap(([x, y]) => stageChanges(x, y))],
    stages: pairs.map(([x, y]) => stageDiff(x, y, a.model, b.model, same)),
    stages_added: b.model.stages.filter((stage) => !paired(stage)).map(({ name }) => name),
    stages_removed: a.model.stages.filter((stage) => !paired(stage)).map(({ name }) => name),
    verdicts: same ? verdictChanges(a.figures, b.figures) : [],
    lines_added: added,
    lines_removed: removed,
  };
}

const jobLabel = ({ identity: { number, revision, title } }: Model) => ({ number, revision, title });

/** Pairs stages by name without regard to case, and the finished stages where neither has a pair. */
function pairStages(a: readonly Stage[], b: readonly Stage[]): [Stage, Stage][] {
  const plain = ({ name }: Stage) => name.trim().toLowerCase();
  const named = b.flatMap((y): [Stage, Stage][] => {
    const x = a.find((one) => plain(one) === plain(y));
    return x ? [[x, y]] : [];
  });
  const [x, y] = [a, b].map(deliveredStage);
  const free = x && y && !named.some(([p, q]) => p === x || q === y);
  return free ? [...named, [x, y]] : named;
}

function stageDiff(x: Stage, y: Stage, a: Model, b: Model, same: boolean): StageDiff {
  const figures = SIDES.flatMap((side) => compareSide([a, x], [b, y], side, comparisonLabels(a, b, same)) ?? []);
  return {
    from: x.name,
    to: y.name,
    unlike: [...new Set(figures.flatMap(({ differences }) => differences))],
    readings: same ? readingChanges(x.sets[0], y.sets[0]) : [],
    figures,
  };
}

const comparisonLabels = (a: Model, b: Model, same: boolean) => {
  const label = ({ identity }: Model) => (same ? `revision ${identity.revision}` : identity.number);
  return { from: label(a), to: label(b) };
};

function compareSide(
  [a, x]: readonly [Model, Stage],
  [model, y]: readonly [Model, Stage],
  side: Side,
  label: { readonly from: string; readonly to: string },
): Comparison | undefined {
  const { reference } = model;
  const read = (head: string, { stages }: Model, stage: Stage) =>
    readHeadSweeps(head, stages, reference)[stages.indexOf(stage)]?.[side];
  const [from, to] = [read("a", a, x), read("b", model, y)];
  if (!from?.good.length || !to?.good.length) return undefined;
  const netLift = model.engine?.cams[side]?.netLift;
  return compareSweeps(
    { from, to, side, same: false, fromLabel: label.from, toLabel: label.to },
    {
      units: model.units,
      lifts: reportLifts(model, side, [from, to]),
      ...(netLift === undefined ? {} : { netLift }),
    },
  );
}

/** Verdicts between the stages of one job that differ from those of the other. */
function verdictChanges(a: Figures, b: Figures): VerdictChange[] {
  const own = ({ comparisons }: Figures) =>
    comparisons.filter(({ from, to }) => (from.label ?? to.label) === undefined);
  const keyOf = ({ side, from, to }: Comparison) => JSON.stringify([side, from.stage, to.stage]);
  const [before, after] = [own(a), own(b)].map((pairs) => new Map(pairs.map((pair) => [keyOf(pair), pair]))) as [
    Map<string, Comparison>,
    Map<string, Comparison>,
  ];
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((key) => {
    const [x, y] = [before.get(key), after.get(key)];
    const { side, from, to } = (x ?? y)!;
    const [was, is] = [x && stageVerdict(x), y && stageVerdict(y)];
    if (was?.verdict === is?.verdict) return [];
    return [{ side, from_stage: from.stage, to_stage: to.stage, ...(was && { from: was }), ...(is && { to: is }) }];
  });
}

function stageVerdict(pair: Comparison): StageVerdict | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const uncertainty = pair.mean_change_uncertainty_ratio;
  return {
    verdict: verdictWords(verdict, pair).text,
    ratio: pair.mean_change_ratio as number,
    ...(uncertainty === undefined ? {} : { uncertainty_ratio: uncertainty }),
  };
}
