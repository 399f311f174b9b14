import { join } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { sheetFileName } from "../pipeline/file-name.ts";
import { placeFaults } from "../pipeline/place-faults.ts";
import { layOutDocument, type Resources, renderDocument } from "../pipeline/render-sheet.ts";
import { pageImages } from "../raster/page-renderer.ts";
import { buildCard } from "../sheet/card/build-card.ts";
import { findIdentifyingText } from "../sheet/card/identifying-text.ts";
import type { Sheet } from "../sheet/content.ts";
import { makeTheme } from "../theme/make-theme.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { issueOf } from "./issued/check-issue.ts";
import { checkFiles, issueFiles } from "./issued/issue-files.ts";
import { openRegisters } from "./issued/register.ts";
import { openResources } from "./open-resources.ts";
import { openFolder, report, writeOutput } from "./report.ts";

/** Resolution [dots/in]: a card becomes 1080 × 1350 dots, its smallest type 28 dots high. */
const DPI = 240;
/** Least and largest height of the chart [pt]: less cannot be read, more leaves the curves too steep to compare. */
const CHART_HEIGHTS = { least: 96, most: 260 } as const;

/** Writes a job's headline as a picture to send with a message. */
export async function writeCard(
  job: string,
  options: Overrides & { outFolder: string },
  environment: Environment,
): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, environment.io, environment.cwd);
  report(diagnostics, sources, environment);
  if (!drawable) return 1;
  const folder = openFolder(options.outFolder, environment);
  const request = {
    issues: [issueOf(drawable)],
    files: [{ sheet: "card", file: cardName(drawable) }],
    output: { folder, registers: openRegisters(environment) },
    sources,
  };
  const { verdict } = checkFiles(request, environment);
  if (verdict !== "write") return verdict === "refused" ? 1 : 0;
  const made = await renderCard(drawable, openResources(environment));
  report(placeFaults(made.diagnostics, drawable.project), sources, environment);
  if (!made.png || hasError(made.diagnostics)) return 1;
  if (!issueFiles(request, environment)) return 1;
  writeOutput(join(folder, made.name), made.png, environment);
  return 0;
}

const cardName = ({ project, model }: NonNullable<Evaluation["drawable"]>) =>
  sheetFileName(project, model, "card", "png");

/** A card and its content; without `png`, the diagnostics give the reason. */
type RenderedCard = {
  readonly name: string;
  readonly sheet?: Sheet;
  readonly pdf?: Uint8Array;
  readonly png?: Uint8Array;
  readonly diagnostics: readonly Diagnostic[];
};

/** Figures → card content → one page → picture; the chart takes the height that the text leaves. */
export async function renderCard(
  drawable: NonNullable<Evaluation["drawable"]>,
  resources: Resources,
): Promise<RenderedCard> {
  const { model, figures } = drawable;
  const name = cardName(drawable);
  const identifying = findIdentifyingText(model);
  if (hasError(identifying)) return { name, diagnostics: identifying };
  const { theme, diagnostics: themeDiagnostics } = makeTheme({
    accent: model.shop.accent,
    font: model.shop.font,
    paper: "card",
  });
  const build = (chartHeight: number) => buildCard({ model, figures, theme, chartHeight });
  const sheet = build(
    largestHeight((height) => {
      const trial = build(height);
      return trial !== undefined && layOutDocument(trial, drawable, resources).diagnostics.length === 0;
    }),
  );
  if (!sheet) return { name, diagnostics: [NOTHING_FLOWED] };
  const { pdf, diagnostics: pageDiagnostics } = await renderDocument(sheet, drawable, resources);
  const isSaid = (code: Diagnostic["code"]) => pageDiagnostics.some((one) => one.code === code);
  if (isSaid("layout/one-page")) return { name, diagnostics: [...themeDiagnostics, NO_ROOM] };
  const others = pageDiagnostics.filter(({ code }) => code !== "layout/left-out");
  const diagnostics = [...themeDiagnostics, ...others, ...(isSaid("layout/left-out") ? [NO_CHART] : [])];
  if (!pdf) return { name, diagnostics };
  const [png] = await pageImages(pdf, DPI);
  return { name, sheet, pdf, ...(png ? { png } : {}), diagnostics };
}

/** The largest whole height at which the chart fits, found by halves; the least where none does. */
function largestHeight(fits: (height: number) => boolean): number {
  let [low, high]: [number, number] = [CHART_HEIGHTS.least, CHART_HEIGHTS.most];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
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
