import { buildAttachments } from "../../src/embed/embedded-files.ts";
import type { Io } from "../../src/io/io.ts";
import { evaluateJob, type Overrides } from "../../src/pipeline/evaluate.ts";
import { sheetFileName, templatesOf } from "../../src/pipeline/file-name.ts";
import { paperOf } from "../../src/project/load-project.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { buildSheet } from "../../src/sheet/build-sheet.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { stringsOf } from "../sheet/sheet-fixture.ts";

/** Every block there is, a row each; all but the first on side 2, where nothing is kept from the engine builder. */
const everyBlock = {
  name: "everything",
  onePage: false,
  rows: Object.keys(BLOCKS).map((block, i) => ({ cells: [{ block, from: 0, span: 6 }], newPage: i === 1 })),
};

export type OnPaper = {
  readonly sheet: Sheet;
  /** All that is printed, a line each, no-break spaces as blanks. */
  readonly words: string;
  /** Without what is said of the file, which tells its lines. */
  readonly figures: Omit<NonNullable<ReturnType<typeof evaluateJob>["drawable"]>["figures"], "warnings">;
  readonly model: NonNullable<ReturnType<typeof evaluateJob>["drawable"]>["model"];
  /** Names, templates, and what the sheet carries inside. */
  readonly beside: string;
  readonly codes: readonly string[];
};

/** What a job says on a sheet that holds every block; throws for one that is refused. */
export function onPaper(path: string, io: Io, asked: Overrides = {}): OnPaper {
  const { drawable, diagnostics } = evaluateJob(path, asked, io);
  if (!drawable) throw new Error(diagnostics.map(({ code, message }) => `${code}: ${message}`).join("\n"));
  const { project, model, figures } = drawable;
  const { theme } = makeTheme({
    accent: model.shop.accent,
    font: model.shop.font,
    paper: paperOf(project.job, project.shop),
  });
  const { sheet } = buildSheet({ model, figures, mark: "0f1e2d3c", template: everyBlock, theme });
  const files = buildAttachments(project, model, figures).map(({ name, bytes }) => [
    name,
    new TextDecoder().decode(bytes),
  ]);
  const { warnings: _, ...told } = figures;
  return {
    sheet,
    words: stringsOf(sheet)
      .map(({ text }) => text.replaceAll(/[\u00a0\u202f]/g, " "))
      .join("\n"),
    figures: told,
    model,
    beside: JSON.stringify([templatesOf(project, {}), sheetFileName(project, model, "x"), files]),
    codes: diagnostics.map(({ code }) => code),
  };
}

/** The same for texts in a small world, the job at /shop/a.yaml. */
export const onPaperOf = (job: string, files: Readonly<Record<string, string | Uint8Array>>): OnPaper =>
  onPaper("/shop/a.yaml", memoryWorld({ ...files, "/shop/a.yaml": job }));
