import { join, resolve } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { sheetFileName } from "../pipeline/file-name.ts";
import { type Resources, renderDocument } from "../pipeline/render-sheet.ts";
import { pageImages } from "../raster/page-renderer.ts";
import { buildCard } from "../sheet/card/build-card.ts";
import { findIdentifyingText } from "../sheet/card/identifying-text.ts";
import type { Sheet } from "../sheet/content.ts";
import { makeTheme } from "../theme/make-theme.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { checkFile, issueFile } from "./issued/issue-file.ts";
import { openResources } from "./open-resources.ts";
import { report, writeOutput } from "./report.ts";

/** Resolution [dots/in]: a card becomes 1080 × 1350 dots, its smallest type 28 dots high. */
const DPI = 240;
/** Heights of the chart [pt] to try, the best first. */
const CHART_HEIGHTS = [165, 150, 135, 120, 108, 96];

/** Writes a job's headline as a picture to send with a message. */
export async function writeCard(
  job: string,
  options: Overrides & { outFolder: string },
  environment: Environment,
): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, environment.io, environment.cwd);
  report(diagnostics, sources, environment);
  if (!drawable) return 1;
  const folder = resolve(environment.cwd, options.outFolder);
  const file = { sheet: "card", file: cardName(drawable) };
  const verdict = checkFile(drawable, file, folder, sources, environment);
  if (verdict !== "write") return verdict === "refused" ? 1 : 0;
  const made = await renderCard(drawable, openResources(environment));
  report(made.diagnostics, sources, environment);
  if (!made.png || hasError(made.diagnostics)) return 1;
  if (!issueFile(drawable, file, folder, sources, environment)) return 1;
  writeOutput(join(folder, made.name), made.png, environment);
  return 0;
}

const cardName = ({ project, model }: NonNullable<Evaluation["drawable"]>) =>
  sheetFileName(project, model, "card").replace(/pdf$/, "png");

/** A card and its content; without `png`, the diagnostics give the reason. */
export type RenderedCard = {
  readonly name: string;
  readonly sheet?: Sheet;
  readonly pdf?: Uint8Array;
  readonly png?: Uint8Array;
  readonly diagnostics: readonly Diagnostic[];
};

/** Figures → card content → one page → picture; the chart shrinks until the page fits. */
export async function renderCard(
  drawable: NonNullable<Evaluation["drawable"]>,
  resources: Resources,
): Promise<RenderedCard> {
  const { model, figures } = drawable;
  const name = cardName(drawable);
  const identifying = findIdentifyingText(model);
  if (hasError(identifying)) return { name, diagnostics: identifying };
  const { theme, diagnostics: themeDiagnostics } = makeTheme({ accent: model.shop.accent, paper: "card" });
  for (const chartHeight of CHART_HEIGHTS) {
    const sheet = buildCard({ model, figures, theme, chartHeight });
    if (!sheet) return { name, diagnostics: [NOTHING_FLOWED] };
    const { pdf, diagnostics: pageDiagnostics } = await renderDocument(sheet, drawable, resources);
    if (pageDiagnostics.some(({ code }) => code === "layout/one-page"))
      return { name, diagnostics: [...themeDiagnostics, NO_ROOM] };
    const chartDropped = pageDiagnostics.some(({ code }) => code === "layout/left-out");
    if (chartDropped && chartHeight !== CHART_HEIGHTS.at(-1)) continue;
    const others = pageDiagnostics.filter(({ code }) => code !== "layout/left-out");
    const diagnostics = [...themeDiagnostics, ...others, ...(chartDropped ? [NO_CHART] : [])];
    if (!pdf) return { name, diagnostics };
    const [png] = await pageImages(pdf, DPI);
    return { name, sheet, pdf, ...(png ? { png } : {}), diagnostics };
  }
  throw new Error("no height of the chart was tried");
}

const NOTHING_FLOWED: Diagnostic = {
  severity: "error",
  code: "card/nothing-flowed",
  message: "this job has no flow readings, and a card shows nothing else",
  hint: "type the readings under `flow:` first",
};
const NO_ROOM: Diagnostic = {
  severity: "error",
  code: "card/no-room",
  message: "what a card has to say does not fit one picture",
  hint: "give the head a shorter name, or compare at fewer lifts",
};
const NO_CHART: Diagnostic = {
  severity: "warning",
  code: "card/no-chart",
  message: "the card has no room for its chart",
  hint: "a shorter name of the head, or fewer lifts to compare at, makes room",
};
