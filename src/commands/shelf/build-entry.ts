import { join } from "node:path";
import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { placeOf, splitLines } from "../../diagnostics/line-counter.ts";
import type { Comparison, Figures } from "../../figures/figures.ts";
import { curtainCoefficientAt } from "../../figures/side/curtain-coefficient-at.ts";
import type { Io } from "../../io/io.ts";
import { recordIo } from "../../io/recording-io.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import { deliveredStage } from "../../model/delivered-stage.ts";
import type { Bench, CompareAt, Model, Side, Stage } from "../../model/model.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { isJob } from "../../project/list-jobs.ts";
import type { LoadCache } from "../../project/load-cache.ts";
import { averageVerdict } from "../../sheet/words/average-change.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { CachedEntry } from "./entry-cache.ts";
import type { ShelfChange, ShelfConditions, ShelfEntry, ShelfSide } from "./shelf-entry.ts";

/** Lift ÷ diameter at which heads with valves of different sizes are compared. */
const QUARTER = 0.25;
/** Tolerance of equal valve diameters, as measured by a micrometer [m]. */
const SAME_SIZE = 1e-5;

/** Builds the entry of an evaluated job. */
export function buildEntry(file: string, { drawable, diagnostics, sources }: Evaluation): ShelfEntry {
  if (!drawable) return { file, refused: firstError(diagnostics, sources) };
  const { project, model, figures } = drawable;
  const { identity, text } = model;
  const stage = deliveredStage(model.stages);
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
  if (identity.kind === "product" || stage === undefined) return { ...entry, ...buildProductEntry(model, figures) };
  const set = stage.sets[0];
  return {
    ...entry,
    may_compare: project.job.may_compare ?? DEFAULTS.mayCompare,
    stage: stage.name,
    set: set?.name,
    bore_m: model.engine?.bore ?? stage.layout?.bore,
    ...buildSides((side) => buildSide(figures, stage, side)),
    conditions: set && buildConditions(set.bench),
  };
}

function firstError(diagnostics: readonly Diagnostic[], sources: Sources): NonNullable<ShelfEntry["refused"]> {
  const { code, message, at } = diagnostics.find(({ severity }) => severity === "error")!;
  const source = at && sources.get(at.file);
  return { code, text: message, ...(source && at && { line: placeOf(splitLines(source), at.start).line }) };
}

const buildSides = (of: (side: Side) => ShelfSide | undefined) => ({ intake: of("intake"), exhaust: of("exhaust") });

function buildSide(figures: Figures, stage: Stage, side: Side): ShelfSide | undefined {
  const own = figures.stages.find(({ name }) => name === stage.name)?.[side];
  if (!own) return undefined;
  const stale = stage.ports[side]?.stale ?? [];
  // The comparison with the previous stage comes before the one with the first stage.
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
    latest_change: change && buildChange(change),
    compared: own.compared,
  };
}

function buildChange(pair: Comparison): ShelfChange | undefined {
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

function buildConditions(bench: Bench): ShelfConditions {
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

/** Fields of a product: the highest mean flow over all its heads, and the sizes they share. */
function buildProductEntry(model: Model, { sample }: Figures): Partial<ShelfEntry> {
  if (!sample) return {};
  const bench = model.samples.flatMap(({ stage }) => stage.sets[0] ?? [])[0]?.bench;
  return {
    sample: sample.n,
    ...buildSides((side) => {
      const ports = model.samples.flatMap(({ stage }) => stage.ports[side] ?? []);
      const whole = (sample[side]?.readings ?? []).filter(({ n }) => n === sample.n);
      if (ports[0] === undefined && whole.length === 0) return undefined;
      const best = whole.toSorted((a, b) => b.mean_m3_s - a.mean_m3_s)[0];
      return {
        valves: Math.max(1, ports[0]?.valves.length ?? 1),
        ports: ports[0]?.ports ?? DEFAULTS.ports,
        valve_diameter_m: sharedSize(ports.flatMap((port) => port.valves.map((valve) => valve.head))),
        throat_m: sharedSize(ports.flatMap(({ throat }) => throat ?? [])),
        peak: best && { lift_m: best.lift_m, flow_m3_s: best.mean_m3_s },
        compared: [],
      };
    }),
    ...(bench && { conditions: buildConditions(bench) }),
  };
}

/** The one size of all parts, as the product's page prints it; undefined where they differ. */
const sharedSize = (sizes: readonly number[]): number | undefined =>
  sizes.length > 0 && Math.max(...sizes) - Math.min(...sizes) <= SAME_SIZE ? sizes[0] : undefined;

/** Lifts at which the shelf compares flows, whatever the jobs state. */
export const SHELF_LIFTS: readonly CompareAt[] = (["low", "mid", "high", "cam"] as const).map((kind) => ({ kind }));

/** Evaluates one file below the folder and records the file queries that its entry depends on. */
export function evaluateFile(
  file: string,
  folder: string,
  testPressure: Pascals,
  disk: Io,
  cache: LoadCache,
): CachedEntry {
  const { io, queries } = recordIo(disk);
  const path = join(folder, file);
  const overrides = { testPressure, reportLifts: SHELF_LIFTS, pictures: false } as const;
  const entry = isJob(io.realPath(path) ?? path, io)
    ? buildEntry(file, evaluateJob(file, overrides, io, folder, cache))
    : null;
  return { entry, queries: queries() };
}
