import type { Figures } from "../../figures/figures.ts";
import { type Model, SIDES } from "../../model/model.ts";
import type { Theme } from "../../theme/theme.ts";
import { flowChart } from "../blocks/flow-chart.ts";
import { headline } from "../blocks/headline.ts";
import { sampleChart } from "../blocks/sample-chart.ts";
import { headlinePoints } from "../compared.ts";
import type { BlockContent, ChartRow, Part, Sheet } from "../content.ts";
import { type Context, endStages, type Placement } from "../context.ts";
import { createContext } from "../make-context.ts";
import { paragraph } from "../section.ts";
import { bandsTable } from "./bands-table.ts";
import { chartCaption, conditionsCaption } from "./card-words.ts";
import { sampleLiftTable } from "./sample-rows.ts";

/**
 * Builds a card: shop, head, headline, one small chart, conditions; no customer, ticket, reference, stamp,
 * other heads or power. Undefined where nothing was flowed.
 */
export function buildCard(input: {
  model: Model;
  figures: Figures;
  theme: Theme;
  chartHeight: number;
}): Sheet | undefined {
  const { model, theme, chartHeight } = input;
  const context = createContext({ ...input, figures: selectOwnStages(input.figures), mark: "" });
  const numbers = headlineParts(context);
  if (numbers.length === 0) return undefined;
  const { identity, shop } = model;
  const block = (name: string, priority: number, parts: readonly Part[]): BlockContent => ({
    name,
    parts,
    split: false,
    priority,
  });
  const blocks = [
    block("shop", 100, [...shopParts(model), { kind: "heading", level: 1, text: identity.title }]),
    block("headline", 100, numbers),
    block("flow-chart", 80, chartParts(context, chartHeight)),
    block("conditions", 100, paragraph(conditionsCaption(context), "caption")),
  ];
  return {
    template: "card",
    documentTitle: identity.title,
    identifier: "",
    subject: "Flow of a cylinder head",
    language: "en",
    issued: identity.issued,
    theme,
    furniture: { left: "" },
    rows: blocks.filter(({ parts }) => parts.length > 0).map((one) => ({ cells: [{ block: one, from: 0, span: 6 }] })),
    onePage: true,
    bare: true,
    ...(shop.name === undefined ? {} : { author: shop.name }),
  };
}

const shopParts = ({ shop }: Model): readonly Part[] =>
  shop.name === undefined && shop.logo === undefined
    ? []
    : [
        {
          kind: "masthead",
          name: shop.name ?? "",
          lines: [],
          ...(shop.logo ? { logo: { image: shop.logo, alt: `Logo of ${shop.name ?? "the shop"}` } } : {}),
        },
      ];

const cardPlacement = (height: number): Placement => ({
  page: 1,
  onePage: false,
  cell: { block: "card", from: 0, span: 6, height },
});

/** Makes the headline take one number a side. */
const NARROW: Placement = { ...cardPlacement(0), cell: { block: "card", from: 0, span: 3 } };

/** One number a side where a cam's lift leads; else low, mid and high in a table. */
function headlineParts(context: Context): readonly Part[] {
  if (context.figures.sample) return sampleLiftTable(context);
  const each = SIDES.map((side) => headlinePoints(context, side));
  return each.some((items) => items[0]?.at === "cam") || each.every((items) => items.length <= 1)
    ? headline(context, NARROW).map(replaceYourCam)
    : bandsTable(context);
}

function chartParts(context: Context, height: number): readonly Part[] {
  if (context.figures.sample) return sampleChart(context, cardPlacement(height)).map(removeLabels);
  return flowChart(context, cardPlacement(height)).map((part) =>
    part.kind === "charts" ? simplifyCharts(context, part) : part,
  );
}

/** The caption says what the one line of a sample is: a label at its end would take a fifth of the width. */
function removeLabels(part: Part): Part {
  if (part.kind !== "charts") return part;
  const charts = part.charts.map((one) => {
    if (one.chart.kind !== "line") return one;
    return { ...one, chart: { ...one.chart, series: one.chart.series.map((line) => ({ ...line, label: "" })) } };
  });
  return { ...part, charts };
}

/** Replaces "your cam", which addresses the customer, by "the cam". */
function replaceYourCam(part: Part): Part {
  if (part.kind !== "headline") return part;
  const said = (text: string) => text.replaceAll("your cam", "the cam");
  const cells = part.cells.map((cell) => ({
    ...cell,
    label: said(cell.label),
    ...(cell.was === undefined ? {} : { was: said(cell.was) }),
    ...(cell.note === undefined ? {} : { note: said(cell.note) }),
  }));
  return { ...part, cells };
}

/** Keeps the first and latest curve; a small panel has no room for labels and second scales. */
function simplifyCharts(context: Context, row: ChartRow): ChartRow {
  const { first, last } = endStages(context);
  const charts = row.charts.map((one) => {
    if (one.chart.kind !== "line") return one;
    const { top: _top, marks: _marks, ...chart } = one.chart;
    const series = chart.series
      .filter(({ name }) => name === first?.name || name === last?.name)
      .map((line) => ({ ...line, label: "" }));
    return { ...one, chart: { ...chart, series } };
  });
  return { ...row, charts, caption: chartCaption(context, charts) };
}

/** The job's own stages under their leading conditions: other sets and other heads have no place on a card. */
function selectOwnStages(figures: Figures): Figures {
  const stages = figures.stages.map((stage) => ({ ...stage, sets: [] }));
  const { others: _, ...own } = figures;
  return { ...own, stages };
}
