import type { ChangeFigures, ReadingFigures, SideFigures } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import type { TableCell, TableColumn } from "./content.ts";
import { type Context, flowedFigures, overallComparison, type SheetStage } from "./context.ts";
import type { Display } from "./display.ts";
import { findAtLift } from "./lifts.ts";
import { convertedFrom } from "./words/conditions.ts";
import { portName } from "./words/port-to-port.ts";
import { capitalize } from "./words/text.ts";
import { mayPrint, verdictWords } from "./words/verdicts.ts";

/** Cell without a number. */
export const EMPTY_CELL: TableCell = { text: "–", quiet: true };

/** Columns of one side of the flow table, and what fills them at a lift. */
export type FlowColumns = {
  readonly side: Side;
  readonly columns: readonly TableColumn[];
  readonly cells: (lift: number) => readonly TableCell[];
  /** At the cam's lift, where it was not read. */
  readonly atCam: () => readonly TableCell[] | undefined;
};

/** One column a stage, then the change; the ± stands in the cell of the change, or of the reading where nothing is compared. */
export function flowColumns(context: Context, side: Side, stages: readonly SheetStage[]): FlowColumns {
  const { display } = context;
  const shown = stages.filter((stage) => flowedFigures(stage, side));
  const whole = overallComparison(context, side);
  // No column of changes where none may be printed.
  const isPrintable = (change: ChangeFigures) => mayPrint(change.verdict, change.uncertainty_m3_s, whole);
  const pair = whole?.changes.some(isPrintable) ? whole : undefined;
  const columns: TableColumn[] = [
    ...shown.map((stage): TableColumn => ({ title: stage.name, align: "decimal" })),
    ...(pair ? ([{ title: "Change", align: "decimal" }] as const) : []),
  ];
  const own = (uncertainty: number | undefined): Pick<TableCell, "plusMinus"> =>
    uncertainty === undefined ? {} : { plusMinus: `±\u00a0${display.digits("flow", uncertainty)}` };
  const changeAt = (lift: number): readonly TableCell[] => {
    if (!pair) return [];
    const found = findAtLift(pair.changes, lift);
    if (!found || !isPrintable(found)) return [EMPTY_CELL];
    const words = markOnly(verdictWords(found.verdict, pair));
    return [{ text: display.signed("flow", found.change_m3_s), ...words, ...own(found.uncertainty_m3_s) }];
  };
  const weigh = (stage: SheetStage, cell: TableCell): TableCell =>
    cell === EMPTY_CELL || cell.quiet ? cell : { ...cell, ...(stage.latest ? { strong: true } : { quiet: true }) };
  const cells = (lift: number): readonly TableCell[] => {
    const flows = shown.map((stage): TableCell => {
      const figures = flowedFigures(stage, side) as SideFigures;
      const alone = stage.latest && !whole ? own(findAtLift(figures.readings, lift)?.uncertainty_m3_s) : {};
      return weigh(stage, { ...flowCell(figures, lift, display), ...alone });
    });
    return [...flows, ...changeAt(lift)];
  };
  return { side, columns, cells, atCam: () => camCells(context, side, shown, changeAt) };
}

/** Flow at the lift of the customer's cam, where that lies between readings; ink all of it, for the row has a ground. */
function camCells(
  context: Context,
  side: Side,
  shown: readonly SheetStage[],
  changeAt: (lift: number) => readonly TableCell[],
): readonly TableCell[] | undefined {
  const at = (stage: SheetStage) => flowedFigures(stage, side)?.compared.find(({ at: where }) => where === "cam");
  const cam = shown.map(at).find((found) => found?.interpolated);
  if (!cam) return undefined;
  const flows = shown.map((stage): TableCell => {
    const found = at(stage);
    const text = found && context.display.digits("flow", found.flow_m3_s);
    return text === undefined ? { text: "–" } : { text, ...(stage.latest ? { strong: true } : {}) };
  });
  return [...flows, ...changeAt(cam.lift_m).map((cell) => ({ ...cell, quiet: false, strong: true }))];
}

/** In a column of numbers the mark stands alone; its words go to screen readers only. */
const markOnly = ({ mark, text }: ReturnType<typeof verdictWords>) => ({ mark, markLabel: text });

/** A reading with its marks; a dash where it is missing or struck out. */
function flowCell(figures: SideFigures, lift: number, display: Display): TableCell {
  const reading = findAtLift(figures.readings, lift);
  if (!reading) return EMPTY_CELL;
  return readingCell(reading, display, isPartlyConverted(figures, reading) ? "*" : "");
}

/** A reading with its marks; grey where it is not used, with its cylinders where others of the curve lack it. */
export function readingCell(reading: ReadingFigures, display: Display, more = ""): TableCell {
  const { doubtful, noisy, partial, of_cylinders: cylinders = [] } = reading;
  const mark = `${doubtful ? "?" : ""}${noisy ? "!" : ""}${more}${partial ? `\u00a0(${cylinders.join(",\u00a0")})` : ""}`;
  return {
    text: `${display.digits("flow", reading.flow_m3_s)}${mark}`,
    ...(doubtful || partial ? { quiet: true } : {}),
  };
}

/** What a grey row with cylinders is. */
export const PARTIAL_NOTE = "Grey: of the cylinders in brackets only, not in the curve or a comparison.";

const isPartlyConverted = (figures: SideFigures, reading: ReadingFigures) =>
  reading.converted_from_Pa !== undefined && figures.readings.some((other) => other.converted_from_Pa === undefined);

/** Notes that explain the marks in a table of these stages and its missing readings. */
export function flowNotes(context: Context, sides: readonly Side[], stages: readonly SheetStage[]): readonly string[] {
  const { display } = context;
  const all = sides.flatMap((side) =>
    stages.flatMap((stage) => {
      const figures = flowedFigures(stage, side);
      return figures ? [{ side, stage, figures }] : [];
    }),
  );
  const readings = all.flatMap(({ figures }) => figures.readings);
  const converted = all.flatMap(({ side, stage, figures }) => {
    const from = convertedFrom(figures.readings, display);
    if (from === undefined) return [];
    const which = figures.readings.some((reading) => isPartlyConverted(figures, reading)) ? " (*)" : "";
    return [{ name: `${stage.name}, ${side}`, text: `converted from ${from} by the square-root rule${which}.` }];
  });
  const alike = converted.length === all.length && new Set(converted.map(({ text }) => text)).size === 1;
  const leftOut = all.flatMap(({ side, stage, figures }) =>
    figures.left_out.map((gap) => {
      const what = leftOutWords(gap, display);
      const port = gap.cylinder === undefined ? "" : `, cylinder ${portName({ ...gap, cylinder: gap.cylinder })}`;
      return `${stage.name}, ${side}${port} at ${display.full("lift", gap.lift_m)}: ${what}${gap.reason ? ` (${gap.reason})` : ""}.`;
    }),
  );
  return [
    ...(readings.some(({ doubtful }) => doubtful) ? ["? Doubtful: shown, not used."] : []),
    ...(readings.some(({ partial }) => partial) ? [PARTIAL_NOTE] : []),
    ...(readings.some(({ noisy }) => noisy) ? ["! Unsteady: used."] : []),
    ...(alike && converted[0]
      ? [capitalize(converted[0].text)]
      : converted.map(({ name, text }) => `${name}: ${text}`)),
    ...leftOut,
  ];
}

function leftOutWords({ kind, value_m3_s: value }: SideFigures["left_out"][number], display: Display): string {
  if (kind === "missing") return "no reading";
  return kind === "struck out" || value === undefined
    ? "struck out"
    : `${display.full("flow", value)} doubtful, not used`;
}
