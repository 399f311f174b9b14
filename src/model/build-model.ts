import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import { CONDITION_KEYS } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { JobWithHeads, StageOnFile } from "../job/loaded-job.ts";
import { buildEngine } from "./build-engine.ts";
import { buildReport } from "./build-report.ts";
import { leadingConditions } from "./build-sets.ts";
import { buildStages } from "./build-stages.ts";
import { buildIdentity, buildShop, buildText } from "./build-text.ts";
import { displayUnits } from "./display-units.ts";
import type { Model, Stage } from "./model.ts";

/** The job as the figures see it. An error among the diagnostics refuses the sheet; the model is then not to be drawn. */
export function buildModel(project: JobWithHeads): {
  readonly model: Model;
  readonly diagnostics: readonly Diagnostic[];
} {
  const { job, shop, units } = project;
  const engine = job.engine && buildEngine(job.engine);
  const report = buildReport(project, engine);
  const own = buildStages(project, report.headlineSet);
  const model: Model = {
    identity: buildIdentity(job, DEFAULTS.revision),
    shop: buildShop(shop),
    units: displayUnits(units),
    reference: {
      testPressure: job.report?.test_pressure ?? shop?.report?.test_pressure ?? DEFAULTS.report.testPressure,
      air: DEFAULTS.referenceAir,
    },
    report,
    engine,
    stages: own.stages,
    compared: project.compared.map((one) => ({ label: one.label, stage: stageOf(one, report.headlineSet) })),
    samples: project.samples.map((one) => ({ stage: stageOf(one, report.headlineSet) })),
    text: buildText(job),
  };
  const diagnostics = [
    ...own.diagnostics,
    ...headlineSetExists(project, model),
    ...samplesAlike(project, report.headlineSet),
  ];
  return { model, diagnostics: sortDiagnostics(diagnostics) };
}

/** A stage of another job: who measured it stays there. */
function stageOf({ from, stage }: StageOnFile, headlineSet: string | undefined): Stage {
  const { by: _, ...built } = buildStages(from, headlineSet).stages[stage] as Stage;
  return built;
}

function headlineSetExists({ located }: JobWithHeads, model: Model): readonly Diagnostic[] {
  const wanted = model.report.headlineSet?.trim().toLowerCase();
  const names = [...model.stages, ...model.samples.map((one) => one.stage)].flatMap((stage) =>
    stage.sets.map((set) => set.name),
  );
  if (wanted === undefined || names.length === 0 || names.some((name) => name.trim().toLowerCase() === wanted))
    return [];
  const hint = `its sets are ${[...new Set(names)].join(", ")}`;
  return [
    {
      severity: "warning",
      code: "model/headline-set",
      message: `no set is called \`${model.report.headlineSet}\`, so the first one leads`,
      at: located.span(["report", "headline_set"]),
      hint,
    },
  ];
}

/** A product is compiled from heads that were flowed alike, or not at all. */
function samplesAlike({ samples, located }: JobWithHeads, headlineSet: string | undefined): readonly Diagnostic[] {
  const conditions = samples.map(({ from, stage }) => leadingConditions(from, stage, headlineSet));
  const first = conditions.find((one) => one !== undefined);
  return conditions.flatMap((one, index): Diagnostic[] => {
    const differs = one && first ? CONDITION_KEYS.filter((key) => one[key] !== first[key]) : [];
    if (differs.length === 0) return [];
    return [
      {
        severity: "error",
        code: "model/samples-unlike",
        message: "this sample was flowed under other conditions than the first",
        at: located.span(["samples", index]),
        note: `unlike: ${differs.map((key) => CONDITION_WORDS[key]).join(", ")}`,
        hint: "a catalogue page compiles heads of one set of conditions: take it out, or flow it again",
      },
    ];
  });
}

const CONDITION_WORDS = {
  bench: "the bench",
  pressure: "the test pressure",
  fixture: "the bore fixture",
  entry: "the intake entry",
  pipe: "the exhaust pipe",
  intake: "what is attached to the intake",
  exhaust: "what is attached to the exhaust",
} as const;
