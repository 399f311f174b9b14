import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { linesOf, placeOf } from "../../diagnostics/line-counter.ts";
import type { Comparison, Figures } from "../../figures/figures.ts";
import { curtainCoefficientAt } from "../../figures/side/curtain-coefficient-at.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import type { Bench, Model, Side, Stage } from "../../model/model.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import { averageVerdict } from "../../sheet/words/verdicts.ts";
import type { ShelfChange, ShelfConditions, ShelfEntry, ShelfSide } from "./shelf-entry.ts";

/** Lift ÷ diameter at which heads with valves of any size are set side by side. */
const QUARTER = 0.25;
/** Valves of one size, as a micrometer tells [m]. */
const ALIKE = 1e-5;

/** What the shelf keeps of a job that was worked out. */
export function buildEntry(file: string, { drawable, diagnostics, sources }: Evaluation): ShelfEntry {
  if (!drawable) return { file, refused: firstFault(diagnostics, sources) };
  const { project, model, figures } = drawable;
  const { identity, text } = model;
  const stage = model.stages.findLast((stage) => stage.repeats === undefined);
  const { holdBack } = model.report;
  const entry: ShelfEntry = {
    file,
    kind: identity.kind,
    number: identity.number,
    revision: identity.revision,
    issued: identity.issued,
    head: identity.title,
    material: text.head.material,
    hold_back: holdBack.length > 0 ? [...holdBack] : undefined,
  };
  if (identity.kind === "product" || stage === undefined) return { ...entry, ...sampled(model, figures) };
  const set = stage.sets[0];
  return {
    ...entry,
    may_compare: project.job.may_compare ?? DEFAULTS.mayCompare,
    stage: stage.name,
    set: set?.name,
    bore_m: model.engine?.bore ?? stage.layout?.bore,
    ...sides((side) => sideOf(figures, stage, side)),
    conditions: set && conditionsOf(set.bench),
  };
}

function firstFault(diagnostics: readonly Diagnostic[], sources: Sources): NonNullable<ShelfEntry["refused"]> {
  const { code, message, at } = diagnostics.find(({ severity }) => severity === "error")!;
  const source = at && sources.get(at.file);
  return { code, text: message, ...(source && at && { line: placeOf(linesOf(source), at.start).line }) };
}

const sides = (of: (side: Side) => ShelfSide | undefined) => ({ intake: of("intake"), exhaust: of("exhaust") });

function sideOf(figures: Figures, stage: Stage, side: Side): ShelfSide | undefined {
  const own = figures.stages.find(({ name }) => name === stage.name)?.[side];
  if (!own) return undefined;
  const stale = stage.ports[side]?.stale ?? [];
  // The change from the stage before stands ahead of the whole way from the first.
  const change = figures.comparisons.find(
    ({ from, to, ...pair }) => pair.side === side && to.stage === stage.name && from.label === undefined,
  );
  return {
    valves: own.valves,
    ports: own.ports,
    valve_diameter_m: own.valve_diameter_m,
    // A size from before the work is not that of the finished head.
    throat_m: stale.includes("throat") ? undefined : own.throat_m,
    pinch_area_m2: stale.includes("pinch") ? undefined : own.pinch_area_m2,
    peak: own.peak,
    curtain_coefficient_at_quarter: curtainCoefficientAt(own, QUARTER, figures.reference.ideal_flow_per_area_m_s[side]),
    latest_change: change && changeOf(change),
    compared: own.compared,
  };
}

function changeOf(pair: Comparison): ShelfChange | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  return {
    from: pair.from.stage,
    ratio: pair.mean_change_ratio as number,
    uncertainty_ratio: pair.mean_change_uncertainty_ratio,
    verdict_withheld: pair.verdict_withheld,
    verdict,
    like_for_like: pair.like_for_like,
    differences: pair.differences,
  };
}

function conditionsOf(bench: Bench): ShelfConditions {
  const { exhaustPipe: pipe } = bench;
  return {
    test_pressure_Pa: bench.testPressure,
    bore_fixture_m: bench.boreFixture,
    intake_entry: bench.intakeEntry,
    exhaust_pipe: pipe && { diameter_m: pipe.diameter, length_m: pipe.length },
    on_intake: bench.attached.intake,
    on_exhaust: bench.attached.exhaust,
    bench: bench.name,
  };
}

/** A product: the highest mean over all its heads, and the sizes that they share. */
function sampled(model: Model, { sample }: Figures): Partial<ShelfEntry> {
  if (!sample) return {};
  const bench = model.samples.flatMap(({ stage }) => stage.sets[0] ?? [])[0]?.bench;
  return {
    sample: sample.n,
    ...sides((side) => {
      const ports = model.samples.flatMap(({ stage }) => stage.ports[side] ?? []);
      const whole = (sample[side]?.readings ?? []).filter(({ n }) => n === sample.n);
      if (ports[0] === undefined && whole.length === 0) return undefined;
      const best = whole.toSorted((a, b) => b.mean_m3_s - a.mean_m3_s)[0];
      const heads = ports.flatMap((port) => port.valves.map((valve) => valve.head));
      const alike = heads.length > 0 && Math.max(...heads) - Math.min(...heads) <= ALIKE;
      return {
        valves: Math.max(1, ports[0]?.valves.length ?? 1),
        ports: ports[0]?.ports ?? DEFAULTS.ports,
        valve_diameter_m: alike ? heads[0] : undefined,
        peak: best && { lift_m: best.lift_m, flow_m3_s: best.mean_m3_s },
        compared: [],
      };
    }),
    ...(bench && { conditions: conditionsOf(bench) }),
  };
}
