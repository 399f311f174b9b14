import { sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { CONDITION_KEYS } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { ComparedStage, JobWithHeads, StageOnFile } from "../job/loaded-job.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import { buildEngine } from "./build-engine.ts";
import { buildReport } from "./build-report.ts";
import { leadingConditions } from "./build-sets.ts";
import { buildStages } from "./build-stages.ts";
import { buildIdentity, buildShop, buildText } from "./build-text.ts";
import { displayUnits } from "./display-units.ts";
import type { HeadNames, Model, Stage } from "./model.ts";

/** Builds the model of a job. With an error among the diagnostics, no sheet may be made from it. */
export function buildModel(project: JobWithHeads): {
  readonly model: Model;
  readonly diagnostics: readonly Diagnostic[];
} {
  const { job, shop, units } = project;
  const engine = job.engine && buildEngine(job.engine);
  const report = buildReport(project, engine);
  const own = buildStages(project, report.headlineSet);
  const [first, others] = job.heads_of
    ? [project.compared[0], project.compared.slice(1)]
    : [undefined, project.compared];
  const model: Model = {
    identity: buildIdentity(job, DEFAULTS.revision),
    shop: buildShop(shop),
    units: displayUnits(units),
    reference: {
      testPressure: job.report?.test_pressure ?? shop?.report?.test_pressure ?? DEFAULTS.report.testPressure,
      air: DEFAULTS.referenceAir,
    },
    report: first ? { ...report, holdBack: [...report.holdBack, ...(heldBackBy(first) ?? [])] } : report,
    engine,
    stages: first ? [buildOtherStage(first, report.headlineSet)] : own.stages,
    compared: others.map((one) => ({
      ...headNames(one),
      stage: buildOtherStage(one, report.headlineSet),
      holdBack: heldBackBy(one),
    })),
    ...(first ? { firstHead: headNames(first) } : {}),
    samples: project.samples.map((one) => ({
      stage: buildOtherStage(one, report.headlineSet),
      springs: buildText(one.from.job).springs,
    })),
    text: buildText(job, shop?.valve_train_limits),
  };
  const diagnostics = [
    ...own.diagnostics,
    ...checkHeadlineSet(project, model),
    ...checkSamplesAlike(project, report.headlineSet),
  ];
  return { model, diagnostics: sortDiagnostics(diagnostics) };
}

const heldBackBy = ({ from }: StageOnFile) => from.job.report?.hold_back ?? from.shop?.report?.hold_back;

function headNames({ from, stage, label, sameCustomer }: ComparedStage): HeadNames {
  if (!sameCustomer) return { label };
  const { job } = from;
  const known = { number: job.job, stamped: job.head?.stamped, date: job.stages?.[stage]?.date };
  return { label, known: omitUndefined(known) };
}

/** Builds a stage of another job, without the name of the person who measured it. */
function buildOtherStage({ from, stage }: StageOnFile, headlineSet: string | undefined): Stage {
  const { by: _, ...built } = buildStages(from, headlineSet).stages[stage] as Stage;
  return built;
}

function checkHeadlineSet({ located }: JobWithHeads, model: Model): readonly Diagnostic[] {
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

/** Reports samples of a product that were flowed under other conditions than the first. */
function checkSamplesAlike({ samples, located }: JobWithHeads, headlineSet: string | undefined): readonly Diagnostic[] {
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
