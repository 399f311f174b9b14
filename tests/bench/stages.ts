import { cachedDraw, drawChart } from "../../src/charts/draw-chart.ts";
import { drawTrueSize } from "../../src/charts/draw-true-size.ts";
import { endLabelRoom } from "../../src/charts/line-ends.ts";
import { type Attachment, buildAttachments } from "../../src/embed/embedded-files.ts";
import { checkFigures } from "../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import type { Page } from "../../src/layout/page.ts";
import { buildModel } from "../../src/model/build-model.ts";
import type { Meta } from "../../src/pdf/file/metadata.ts";
import { finishPdf, paintPages } from "../../src/pdf/paint.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import type { Resources } from "../../src/pipeline/render-sheet.ts";
import { sheetMark } from "../../src/pipeline/sheet-mark.ts";
import { findTemplate } from "../../src/project/find-template.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { buildSheet } from "../../src/sheet/build-sheet.ts";
import { placeBlocks } from "../../src/sheet/template.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";

export const STAGES = ["read", "figures", "check", "sheet", "charts", "layout", "embed", "paint", "close"] as const;
export type Stage = (typeof STAGES)[number];
export type Times = Record<Stage, number>;

/** What a page holds before it is paint: what the floor paints too. */
export type Content = {
  readonly pages: readonly Page[];
  readonly meta: Meta;
  readonly attachments: readonly Attachment[];
};

/** The road of `makeSheet`, step by step and timed [ms]; tests hold its bytes against those of the program. */
export async function timed(job: string, kit: Resources): Promise<{ times: Times; content: Content; pdf: Uint8Array }> {
  const times = Object.fromEntries(STAGES.map((stage) => [stage, 0])) as Times;
  const time = <T>(stage: Stage, work: () => T): T => {
    const start = performance.now();
    const result = work();
    times[stage] += performance.now() - start;
    return result;
  };
  const { project, diagnostics } = time("read", () => loadProject(job, kit.io, "", {}, kit.cache));
  if (!project) throw new Error(diagnostics.map(({ message }) => message).join("; "));
  const { model, figures } = time("figures", () => {
    const { model } = buildModel(project);
    return { model, figures: computeFigures(model) };
  });
  time("check", () => checkFigures(model, figures));
  const { sheet, theme } = time("sheet", () => {
    const places = { root: project.root, builtIn: kit.templates };
    const read = findTemplate(
      templatesOf(project, {})[0]!,
      places,
      Object.keys(BLOCKS),
      kit.io,
      kit.cache.readTemplate,
    );
    const { theme } = makeTheme({ accent: model.shop.accent, paper: "A4" });
    const template = placeBlocks(read.template!);
    const complete = { ...figures, warnings: [] };
    return { ...buildSheet({ model, figures: complete, mark: sheetMark(project), template, theme }), theme };
  });
  const { measure } = kit.fonts;
  const env = { measure, colors: theme.colors, shapes: kit.shapes };
  const { pages } = time("layout", () =>
    layoutSheet(sheet, {
      measure,
      draw: cachedDraw((chart, size, options) => time("charts", () => drawChart(chart, size, env, options))),
      drawTrueSize: (content, room) => drawTrueSize(content, room, env),
      labelRoom: endLabelRoom,
      images: new Map(),
    }),
  );
  times.layout -= times.charts;
  const attachments = time("embed", () => buildAttachments(project, model, { ...figures, warnings: [] }));
  const { author, subject, identifier, language, issued, documentTitle: title } = sheet;
  const meta = { title, subject, identifier, language, issued, producer: "bench", ...(author && { author }) };
  const painted = time("paint", () => paintPages(pages, { fonts: kit.fonts, images: new Map(), attachments, meta }));
  const start = performance.now();
  const pdf = await finishPdf(painted);
  times.close = performance.now() - start;
  return { times, content: { pages, meta, attachments }, pdf };
}
