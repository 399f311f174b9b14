import { join, resolve } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { type Resources, renderDocument } from "../pipeline/render-sheet.ts";
import { nameOf } from "../pipeline/sheets-of-job.ts";
import { buildCard } from "../sheet/card/build-card.ts";
import { findIdentifyingText } from "../sheet/card/identifying-text.ts";
import type { Sheet } from "../sheet/content.ts";
import { makeTheme } from "../theme/make-theme.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { openResources } from "./open-resources.ts";
import { pageImages } from "./page-images.ts";
import { report } from "./report.ts";
import { writeOutput } from "./write-output.ts";

/** Dots an inch at which the page of a card is 1080 × 1350 dots, and its smallest type 28 of them high. */
const DPI = 240;
/** Heights of the chart [pt], the best first. */
const HEIGHTS = [165, 150, 135, 120, 108, 96];

/** Makes the picture of a job's headline for a message. */
export async function card(
  job: string,
  options: Overrides & { outFolder: string },
  world: Environment,
): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, world.io, world.cwd);
  report(diagnostics, sources, world);
  if (!drawable) return 1;
  const made = await makeCard(drawable, openResources(world));
  report(made.diagnostics, sources, world);
  if (!made.png || hasError(made.diagnostics)) return 1;
  const file = join(resolve(world.cwd, options.outFolder), made.name);
  writeOutput(file, made.png, world);
  return 0;
}

/** A finished card with what stands on it, or why there is none. */
export type MadeCard = {
  readonly name: string;
  readonly sheet?: Sheet;
  readonly pdf?: Uint8Array;
  readonly png?: Uint8Array;
  readonly diagnostics: readonly Diagnostic[];
};

/** Figures → card content → one page → its picture. */
export async function makeCard(drawable: NonNullable<Evaluation["drawable"]>, kit: Resources): Promise<MadeCard> {
  const { project, model, figures } = drawable;
  const name = nameOf(project, model, "card").replace(/pdf$/, "png");
  const told = findIdentifyingText(model);
  if (hasError(told)) return { name, diagnostics: told };
  const { theme, diagnostics: aboutTheme } = makeTheme({ accent: model.shop.accent, paper: "card" });
  for (const chartHeight of HEIGHTS) {
    const sheet = buildCard({ model, figures, theme, chartHeight });
    if (!sheet) return { name, diagnostics: [NOTHING_FLOWED] };
    const { pdf, diagnostics: aboutPage } = await renderDocument(sheet, drawable, kit);
    if (aboutPage.some(({ code }) => code === "layout/one-page"))
      return { name, diagnostics: [...aboutTheme, NO_ROOM] };
    const left = aboutPage.some(({ code }) => code === "layout/left-out");
    if (left && chartHeight !== HEIGHTS.at(-1)) continue;
    const others = aboutPage.filter(({ code }) => code !== "layout/left-out");
    const diagnostics = [...aboutTheme, ...others, ...(left ? [NO_CHART] : [])];
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
