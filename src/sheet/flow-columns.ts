import type { ChangeFigures, ReadingFigures, SideFigures } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import type { TableCell, TableColumn } from "./content.ts";
import { type Context, endStages, flowed, type SheetStage, wholeChange } from "./context.ts";
import { type Display, tidy } from "./display.ts";
import { atLift } from "./same-lift.ts";
import { capital } from "./words/text.ts";
import { mayPrint, verdictWords } from "./words/verdicts.ts";

/** Stands where there is no number. */
export const NONE: TableCell = { text: "–", quiet: true };

/** Columns of one side of the flow table, and what fills them at a lift. */
export type FlowColumns = {
  readonly side: Side;
  readonly columns: readonly TableColumn[];
  readonly cells: (lift: number) => readonly TableCell[];
};

/** One column a stage, then the change and its ±; the ± of the reading where there is nothing to compare. */
export function flowColumns(context: Context, side: Side, stages: readonly SheetStage[]): FlowColumns {
  const { display } = context;
  const shown = stages.filter((stage) => flowed(stage, side));
  const whole = wholeChange(context, side);
  // Where nothing may be claimed, a column of dashes would only take room.
  const pair = whole?.changes.some(printable) ? whole : undefined;
  const last = flowed(endStages(context).last, side);
  const columns: TableColumn[] = [
    ...shown.map((stage): TableColumn => ({ title: stage.name, align: "decimal" })),
    ...(pair ? ([{ title: "Change", align: "decimal" }] as const) : []),
    ...(pair || (!whole && last?.readings.some((reading) => reading.uncertainty_m3_s !== undefined))
      ? ([{ title: "±", align: "decimal" }] as const)
      : []),
  ];
  const cells = (lift: number): readonly TableCell[] => {
    const flows = shown.map((stage) => flowCell(flowed(stage, side) as SideFigures, lift, display));
    const found = pair ? atLift(pair.changes, lift) : undefined;
    const change = found && printable(found) ? found : undefined;
    const reading = last ? atLift(last.readings, lift) : undefined;
    const uncertainty = pair ? change?.uncertainty_m3_s : reading?.uncertainty_m3_s;
    const plusMinus: TableCell =
      uncertainty === undefined ? NONE : { text: display.digits("flow", uncertainty), quiet: true };
    if (!pair) return columns.length > shown.length ? [...flows, plusMinus] : flows;
    const changed: TableCell = change
      ? { text: display.signed("flow", change.change_m3_s), ...marked(verdictWords(change.verdict, pair)) }
      : NONE;
    return [...flows, changed, plusMinus];
  };
  return { side, columns, cells };
}

const printable = (change: ChangeFigures) => mayPrint(change.verdict, change.uncertainty_m3_s);

/** In a column of numbers the mark stands alone, so that its words are only spoken. */
const marked = ({ mark, text }: ReturnType<typeof verdictWords>) => ({ mark, markSays: text });

/** A reading with its marks; a dash where it is missing or struck out. */
function flowCell(figures: SideFigures, lift: number, display: Display): TableCell {
  const reading = atLift(figures.readings, lift);
  if (!reading) return NONE;
  const mark = `${reading.doubtful ? "?" : ""}${reading.noisy ? "!" : ""}${partlyConverted(figures, reading) ? "*" : ""}`;
  return { text: `${display.digits("flow", reading.flow_m3_s)}${mark}`, ...(reading.doubtful ? { quiet: true } : {}) };
}

const partlyConverted = (figures: SideFigures, reading: ReadingFigures) =>
  reading.converted_from_Pa !== undefined && figures.readings.some((other) => other.converted_from_Pa === undefined);

/** What the marks in a table of these stages mean, and why readings are missing. */
export function flowNotes(context: Context, sides: readonly Side[], stages: readonly SheetStage[]): readonly string[] {
  const { display } = context;
  const all = sides.flatMap((side) =>
    stages.flatMap((stage) => {
      const figures = flowed(stage, side);
      return figures ? [{ side, stage, figures }] : [];
    }),
  );
  const readings = all.flatMap(({ figures }) => figures.readings);
  const pressures = (list: readonly ReadingFigures[]) => [
    ...new Set(
      list.flatMap(({ converted_from_Pa: from }) => (from === undefined ? [] : [tidy(display, "pressure", from)])),
    ),
  ];
  const converted = all.flatMap(({ side, stage, figures }) => {
    const from = pressures(figures.readings);
    if (from.length === 0) return [];
    const which = figures.readings.some((reading) => partlyConverted(figures, reading)) ? " (*)" : "";
    const where = from.length > 2 ? "several pressures" : from.join(" and ");
    return [{ name: `${stage.name}, ${side}`, text: `converted from ${where} by the square-root rule${which}.` }];
  });
  const alike = converted.length === all.length && new Set(converted.map(({ text }) => text)).size === 1;
  const leftOut = all.flatMap(({ side, stage, figures }) =>
    figures.left_out.map((gap) => {
      const what = gap.kind === "missing" ? "no reading" : "struck out";
      return `${stage.name}, ${side} at ${display.full("lift", gap.lift_m)}: ${what}${gap.reason ? ` (${gap.reason})` : ""}.`;
    }),
  );
  return [
    ...(readings.some(({ doubtful }) => doubtful) ? ["? Doubtful: shown, not used."] : []),
    ...(readings.some(({ noisy }) => noisy) ? ["! Unsteady: used."] : []),
    ...(alike && converted[0] ? [capital(converted[0].text)] : converted.map(({ name, text }) => `${name}: ${text}`)),
    ...leftOut,
  ];
}
