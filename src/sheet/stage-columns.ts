import type { Port, Side } from "../model/model.ts";
import { formatNumber } from "../units/show.ts";
import type { Table, TableCell, TableColumn } from "./content.ts";
import type { Context, SheetStage } from "./context.ts";
import { type Display, type DisplayKind, sharedDecimals } from "./display.ts";
import { EMPTY_CELL } from "./flow-columns.ts";
import { joinNotes } from "./section.ts";
import { capitalize, joinWords, lowercaseFirst } from "./words/text.ts";

/** Stages side by side, at most; the first and the latest stay. */
const MOST_STAGES = 3;

/** One row of a table of sizes. */
export type SizeRow = {
  readonly label: string;
  /** Key of the job file, to know whether it was measured again. */
  readonly key?: string;
  /** Made from other values: absent, not "not re-measured", where those were not measured again. */
  readonly derived?: true;
} & (
  | { readonly kind: "text"; readonly value: (port: Port) => string | undefined }
  | {
      /** Numbers share their decimals along the row, for a row is one quantity; several stand for unlike valves. */
      readonly kind: DisplayKind | "percent";
      readonly value: (port: Port, stage: SheetStage, side: Side) => number | readonly number[] | undefined;
    }
);

/** "valve margin 0.040 in", of a row that needs no columns. */
function sizeWords({
  label,
  texts: [text],
}: {
  readonly label: string;
  readonly texts: readonly (string | undefined)[];
}) {
  const [, name = label, unit] = /^(.*?)(?: \((.+)\))?(?: †)?$/u.exec(label) ?? [];
  return `${lowercaseFirst(name)} ${text}${unit === undefined ? "" : `\u00a0${unit}`}`;
}

function shownStages(context: Context): readonly SheetStage[] {
  const own = context.stages.filter((stage) => !stage.repeat);
  return own.length > MOST_STAGES ? [own[0] as SheetStage, ...own.slice(-(MOST_STAGES - 1))] : own;
}

/** Sizes of both sides, before → after; what was not measured again says so. */
export function stageTable(context: Context, rows: readonly SizeRow[]): readonly Table[] {
  const stages = shownStages(context);
  const sides = context.sides.filter((side) => stages.some((stage) => stage.stage.ports[side]));
  const body = rows.flatMap((row) => {
    const cells = sides.map((side) => sideCell(context, row, side, stages));
    return cells.some((cell) => cell !== EMPTY_CELL) ? [[{ text: row.label }, ...cells]] : [];
  });
  if (body.length === 0) return [];
  return [
    {
      kind: "table",
      columns: [
        { title: "Size", align: "left", weight: 2 },
        ...sides.map((side) => ({ title: capitalize(side), align: "left", weight: 2 }) as const),
      ],
      rows: body,
      rowHeads: true,
      fifths: false,
      notes: joinNotes([
        stages.length > 1 && `${stages.map(({ name }) => name).join(" → ")}.`,
        body.some(([label]) => label?.text.endsWith(CALCULATED)) && `${CALCULATED} Calculated.`,
        body.some((cells) => cells.some(({ text }) => text.includes(AGAIN_MARK))) && `${AGAIN_MARK} Not re-measured.`,
      ]),
    },
  ];
}

/** Sizes of one side, a column a stage; what is alike in all of them, or was not measured again, in a line below. */
export function sideStageTable(context: Context, side: Side, rows: readonly SizeRow[]): readonly Table[] {
  const stages = shownStages(context).filter((stage) => stage.stage.ports[side]);
  const lines = rows.flatMap((row) => {
    const texts = sideTexts(context, row, side, stages);
    return texts.some((text) => text !== undefined && text !== NOT_AGAIN) ? [{ label: row.label, texts }] : [];
  });
  const alike = ({ texts }: (typeof lines)[number]) => stages.length > 1 && new Set(texts).size === 1;
  const again = ({ texts }: (typeof lines)[number]) =>
    stages.length > 1 && texts.slice(1).every((text) => text === NOT_AGAIN);
  const changed = lines.filter((line) => !alike(line) && !again(line));
  if (lines.length === 0) return [];
  const same = lines.filter(alike).map(sizeWords);
  const kept = lines.filter(again).map(sizeWords);
  return [
    {
      kind: "table",
      columns: [
        { title: "Size", align: "left" },
        ...stages.map(({ name }): TableColumn => ({ title: name, align: "right" })),
      ],
      rows: changed.map(({ label, texts }): TableCell[] => [
        { text: label },
        ...texts.map((text, i): TableCell => {
          const last = i === stages.length - 1;
          return {
            text: text === NOT_AGAIN ? AGAIN_MARK : (text ?? (stages.length > 2 ? "–" : "not measured")),
            ...(last ? { strong: true } : { quiet: true }),
          };
        }),
      ]),
      rowHeads: true,
      fifths: false,
      notes: joinNotes([
        same.length > 0 && `Alike: ${same.join("; ")}.`,
        kept.length > 0 && `Not re-measured: ${kept.join("; ")}.`,
        changed.some(({ label }) => label.endsWith(CALCULATED)) && `${CALCULATED} Calculated.`,
        stages.length > 2 && changed.some(({ texts }) => texts.includes(undefined)) && "–: not measured.",
        changed.some(({ texts }) => texts.includes(NOT_AGAIN)) && `${AGAIN_MARK} Not re-measured.`,
      ]),
    },
  ];
}

/** One side through the stages: "44.0 → 46.0"; one value where nothing changed. */
function sideCell(context: Context, row: SizeRow, side: Side, stages: readonly SheetStage[]): TableCell {
  const texts = sideTexts(context, row, side, stages);
  if (texts.every((text) => text === undefined || text === NOT_AGAIN)) return EMPTY_CELL;
  const steps = texts
    .map((text) => (text === NOT_AGAIN ? AGAIN_MARK : (text ?? "–")))
    .filter((step, i, all) => step !== AGAIN_MARK || all[i - 1] !== AGAIN_MARK);
  // "3.950 ‡": the earlier value, not re-measured.
  if (steps.length === 2 && steps[1] === AGAIN_MARK) return { text: steps.join("\u00a0") };
  return { text: new Set(steps).size === 1 ? (steps[0] as string) : steps.join(" → ") };
}

/** What each stage says of a size. */
function sideTexts({ display }: Context, row: SizeRow, side: Side, stages: readonly SheetStage[]) {
  const values = stages.map((stage, i) => valuesAt(row, side, stage, i > 0, display));
  const numbers = values.flatMap((value) => (typeof value === "object" ? value : []));
  const decimals = row.kind === "text" ? 0 : row.kind === "percent" ? 1 : sharedDecimals(display, row.kind, numbers);
  return values.map((value) =>
    typeof value === "object" ? joinWords(value.map((one) => formatNumber(one, decimals))) : value,
  );
}

const NOT_AGAIN = "not re-measured";
const AGAIN_MARK = "‡";
const CALCULATED = "†";

/** Numbers in the display unit, words, or nothing. */
function valuesAt(
  row: SizeRow,
  side: Side,
  stage: SheetStage,
  later: boolean,
  display: Display,
): readonly number[] | string | undefined {
  const port = stage.stage.ports[side];
  if (!port) return undefined;
  if (later && row.key !== undefined && port.notRemeasured.includes(row.key))
    return row.derived ? undefined : NOT_AGAIN;
  if (row.kind === "text") return row.value(port);
  const value = row.value(port, stage, side);
  const list = typeof value === "number" ? [value] : (value ?? []);
  if (list.length === 0) return undefined;
  return list.map((one) => (row.kind === "percent" ? one * 100 : display.number(row.kind as DisplayKind, one)));
}
