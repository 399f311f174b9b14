import { compareSweeps } from "../../figures/comparison/comparison.ts";
import type { Comparison, Figures } from "../../figures/figures.ts";
import { reportLifts } from "../../figures/side/report-lifts.ts";
import { readStageSweeps } from "../../figures/sweep/read-all-sweeps.ts";
import { type Model, SIDES, type Side, type Stage } from "../../model/model.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import { averageVerdict, verdictWords } from "../../sheet/words/verdicts.ts";
import { headerChanges } from "./header-changes.ts";
import type { JobDiff, OwnChange, StageDiff, VerdictChange } from "./job-diff.ts";
import { lineChanges } from "./line-changes.ts";
import { readingChanges } from "./reading-changes.ts";
import { engineChanges, stageChanges } from "./size-changes.ts";

type Drawable = NonNullable<Evaluation["drawable"]>;

/** What changed between two jobs that were worked out, at the second one's reference. */
export function diffJobs(a: Drawable, b: Drawable): JobDiff {
  const same = a.model.identity.kind === b.model.identity.kind && a.model.identity.number === b.model.identity.number;
  const pairs = pairStages(a.model.stages, b.model.stages);
  const { added, removed } = lineChanges(a.model.text, b.model.text);
  const paired = (stage: Stage) => pairs.some((pair) => pair.includes(stage));
  return {
    from: about(a.model),
    to: about(b.model),
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

const about = ({ identity: { number, revision, title } }: Model) => ({ number, revision, title });

/** Stages of one name belong together, case apart; and if that leaves out how the heads were finished, these two as well. */
function pairStages(a: readonly Stage[], b: readonly Stage[]): [Stage, Stage][] {
  const plain = ({ name }: Stage) => name.trim().toLowerCase();
  const named = b.flatMap((y): [Stage, Stage][] => {
    const x = a.find((one) => plain(one) === plain(y));
    return x ? [[x, y]] : [];
  });
  const [x, y] = [a, b].map((stages) => stages.findLast((stage) => stage.repeats === undefined));
  const free = x && y && !named.some(([p, q]) => p === x || q === y);
  return free ? [...named, [x, y]] : named;
}

function stageDiff(x: Stage, y: Stage, a: Model, b: Model, same: boolean): StageDiff {
  const figures = SIDES.flatMap((side) => compared(x, y, side, b, labels(a, b, same)) ?? []);
  return {
    from: x.name,
    to: y.name,
    unlike: [...new Set(figures.flatMap(({ differences }) => differences))],
    readings: same ? readingChanges(x.sets[0], y.sets[0]) : [],
    figures,
  };
}

const labels = (a: Model, b: Model, same: boolean) => {
  const label = ({ identity }: Model) => (same ? `revision ${identity.revision}` : identity.number);
  return { from: label(a), to: label(b) };
};

function compared(
  x: Stage,
  y: Stage,
  side: Side,
  model: Model,
  label: { readonly from: string; readonly to: string },
): Comparison | undefined {
  const { reference } = model;
  const [from, to] = [readStageSweeps("a", x, reference)[side], readStageSweeps("b", y, reference)[side]];
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

/** What each revision says of its own stages: a verdict that is another now, came, or went. */
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
    const [was, is] = [x && ownChange(x), y && ownChange(y)];
    if (was?.verdict === is?.verdict) return [];
    return [{ side, from_stage: from.stage, to_stage: to.stage, ...(was && { from: was }), ...(is && { to: is }) }];
  });
}

function ownChange(pair: Comparison): OwnChange | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const uncertainty = pair.mean_change_uncertainty_ratio;
  return {
    verdict: verdictWords(verdict, pair).text,
    ratio: pair.mean_change_ratio as number,
    ...(uncertainty === undefined ? {} : { uncertainty_ratio: uncertainty }),
  };
}
