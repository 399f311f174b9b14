import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { inheritStages, type StageFacts } from "../job/inherit.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { mergeBench } from "../job/merge-bench.ts";
import { parseValveName, type ValveTrainRow as TypedValveRow } from "../job/schema/valve-train.ts";
import type { Metres } from "../units/quantity.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import { buildBench } from "./build-bench.ts";
import { buildPort } from "./build-port.ts";
import { benchFile, buildSets } from "./build-sets.ts";
import { type Port, SIDES, type Side, type Stage, type ValveLayout, type ValveTrainRow } from "./model.ts";
import { hasWorkOnPort, workSensitiveKeys } from "./stale.ts";

/** Builds the stages of a job: dimensions inherited, runs grouped into sets, stale dimensions reported. */
export function buildStages(
  onFile: LoadedJob,
  headlineSet?: string,
): { readonly stages: readonly Stage[]; readonly diagnostics: readonly Diagnostic[] } {
  const { job, shop } = onFile;
  const stated = job.stages ?? [];
  const facts = inheritStages(stated);
  const sets = stated.map((_, index) => buildSets(onFile, index, headlineSet));
  const diagnostics: Diagnostic[] = [];
  const stages: Stage[] = [];
  stated.forEach((stage, index) => {
    const own = facts[index] as StageFacts;
    const ports: { intake?: Port; exhaust?: Port } = {};
    for (const side of SIDES) {
      const port = own[side];
      if (!port) continue;
      const inherited = own.inherited[side];
      const sensitive = own.from === undefined || stage.repeats !== undefined ? [] : workSensitiveKeys(inherited);
      const stale = hasWorkOnPort(job.work, side) ? sensitive : [];
      if (stale.length > 0) diagnostics.push(staleWarning(onFile, index, side, stale));
      const staleIfChanged = stale.length > 0 ? [] : flowedSince(stages, facts, index, side, sensitive);
      ports[side] = buildPort(port, inherited, { stale, ...(staleIfChanged.length > 0 && { staleIfChanged }) });
    }
    const { deck, layout } = own;
    stages.push({
      name: stage.name,
      date: stage.date,
      by: stage.by,
      repeats: stage.repeats,
      bench: buildBench(mergeBench(shop?.bench, job.bench, stage.bench), benchFile(onFile)),
      ports,
      chambers: buildChambers(own),
      chambersNotRemeasured: own.inherited.chambers,
      ...(deck && {
        deck: omitUndefined({
          cut: deck.cut,
          cutBefore: deck.cut_before,
          thickness: deck.thickness,
          flatness: deck.flatness,
          finish: deck.finish,
        }),
      }),
      ...(stage.valve_train && { valveTrain: stage.valve_train.map(buildValveRow) }),
      ...(stage.vacuum_test !== undefined && { vacuumTest: stage.vacuum_test }),
      ...(layout && { layout: buildLayout(layout) }),
      sets: sets[index] ?? [],
    });
  });
  return { stages, diagnostics };
}

/** The inherited dimensions by the first stage flowed on that side in which they held: the one that measured them, or later. */
function flowedSince(
  stages: readonly Stage[],
  facts: readonly StageFacts[],
  index: number,
  side: Side,
  keys: readonly string[],
): NonNullable<Port["staleIfChanged"]> {
  const bySince = new Map<Stage, string[]>();
  for (const key of keys) {
    let since: Stage | undefined;
    for (let at: number | undefined = index; at !== undefined && facts[at]?.inherited[side].includes(key); ) {
      at = facts[at]?.from;
      const stage: Stage | undefined = at === undefined ? undefined : stages[at];
      if (stage?.sets[0]?.runs.some((run) => run.readings[side].length > 0)) since = stage;
    }
    if (since) bySince.set(since, [...(bySince.get(since) ?? []), key]);
  }
  return [...bySince].map(([since, found]) => ({ since, keys: found }));
}

function staleWarning({ job, located }: LoadedJob, index: number, side: Side, stale: readonly string[]): Diagnostic {
  const stage = job.stages?.[index];
  const names = stale.map((key) => `\`${key}\``).join(", ");
  const path = stage?.[side] === undefined ? ["stages", index, "name"] : ["stages", index, side];
  return {
    severity: "warning",
    code: "model/stale-dimension",
    message: `${names} of the ${side} port ${stale.length === 1 ? "was" : "were"} not measured again in \`${stage?.name ?? ""}\``,
    at: stage?.[side] === undefined ? located.span(path) : located.keySpan(path),
    note: `that port carries work, so nothing is made from ${stale.length === 1 ? "it" : "them"}`,
    hint: `measure again, or write \`${stale[0]}: not measured\``,
  };
}

const buildValveRow = ({ valve, ...values }: TypedValveRow): ValveTrainRow => ({
  ...parseValveName(valve)!,
  ...values,
});

const buildChambers = ({ chamber, chambers }: StageFacts): Stage["chambers"] => {
  if (chamber !== undefined) return [{ volume: chamber }];
  return Object.entries(chambers ?? {})
    .map(([number, volume]) => ({ chamber: Number(number), volume }))
    .toSorted((a, b) => a.chamber - b.chamber);
};

const buildLayout = (layout: NonNullable<StageFacts["layout"]>): ValveLayout => ({
  ...omitUndefined({ bore: layout.bore, angle: layout.angle }),
  intake: (layout.intake ?? []).map(toPoint),
  exhaust: (layout.exhaust ?? []).map(toPoint),
});
const toPoint = ([across, along]: readonly Metres[]): readonly [Metres, Metres] => [across as Metres, along as Metres];
