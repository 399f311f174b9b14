import type { Diagnostic } from "../../src/diagnostics/diagnostic.ts";
import { render } from "../../src/diagnostics/render.ts";
import { checkFigures, warningFigure } from "../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Figures } from "../../src/figures/figures.ts";
import type { Io } from "../../src/io/io.ts";
import { buildModel } from "../../src/model/build-model.ts";
import type { Model } from "../../src/model/model.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { memoryWorld } from "../project/memory-world.ts";

export type WorkedOut = {
  readonly model: Model;
  readonly figures: Figures;
  readonly told: readonly Diagnostic[];
  /** Codes of all warnings, those of the text itself among them. */
  readonly codes: readonly string[];
};

/** The whole way from a job's file to its figures, with all that is said of it; throws for a job that is refused. */
export function workOut(path: string, io: Io): WorkedOut {
  const { project, diagnostics, sources } = loadProject(path, io);
  if (!project) throw new Error(render(diagnostics, sources));
  const { model, diagnostics: aboutModel } = buildModel(project);
  const computed = computeFigures(model);
  const { errors, warnings } = checkFigures(model, computed);
  const told = [...diagnostics, ...aboutModel, ...errors, ...warnings];
  const refused = told.filter(({ severity }) => severity === "error");
  if (refused.length > 0) throw new Error(render(refused, sources));
  const figures = { ...computed, warnings: told.map((one) => warningFigure(one, sources)) };
  return { model, figures, told, codes: told.map(({ code }) => code) };
}

/** The same for a job written out in a test, beside a shop and whatever files it names. */
export const workOutText = (job: string, shop: string, files: Readonly<Record<string, string>> = {}): WorkedOut =>
  workOut("/shop/a.yaml", memoryWorld({ "/shop/shop.yaml": shop, "/shop/a.yaml": job, ...files }));
