import { MIN_CHART, SECOND_SCALE } from "../charts/chart-env.ts";
import { cachedDraw, drawChart } from "../charts/draw-chart.ts";
import { drawTrueSize } from "../charts/draw-true-size.ts";
import { endLabelRoom } from "../charts/line-ends.ts";
import { scaleDrawing } from "../charts/scale-drawing.ts";
import type { Shapes } from "../charts/scenegraph.ts";
import { type LayoutResult, layoutSheet } from "../layout/layout-sheet.ts";
import type { Meta } from "../pdf/file/metadata.ts";
import type { Fonts } from "../pdf/font/fonts.ts";
import type { ImageSize } from "../pdf/pictures.ts";
import type { Sheet } from "../sheet/content.ts";

/** Sheet content → drawings + pages. */
export function layOut(
  sheet: Sheet,
  images: ReadonlyMap<string, ImageSize>,
  { fonts, shapes }: { readonly fonts: Fonts; readonly shapes: Shapes },
): LayoutResult {
  const { measure } = fonts.family(sheet.theme.font);
  const by = sheet.theme.paper.chartScale ?? 1;
  const charts = { measure, colors: sheet.theme.colors, shapes };
  return layoutSheet(sheet, {
    measure,
    draw: cachedDraw((chart, { width, height }, options) => {
      const drawing = drawChart(chart, { width: width / by, height: height / by }, charts, options);
      return by === 1 ? drawing : scaleDrawing(drawing, by);
    }),
    drawTrueSize: (content, room) => drawTrueSize(content, room, charts),
    labelRoom: endLabelRoom,
    leastChart: { ...MIN_CHART, secondScale: SECOND_SCALE },
    images,
  });
}

/** Metadata of a sheet's PDF. */
export function sheetMetadata(sheet: Sheet, version: string): Meta {
  return {
    title: sheet.documentTitle,
    ...(sheet.author === undefined ? {} : { author: sheet.author }),
    subject: sheet.subject,
    identifier: sheet.identifier,
    language: sheet.language,
    issued: sheet.issued,
    producer: `headsheet ${version}`,
  };
}
