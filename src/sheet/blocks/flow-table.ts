import type { ChangeFigures, Comparison } from "../../figures/figures.ts";
import { sameLift } from "../../units/same-lift.ts";
import { conditionParagraphs } from "../condition-paragraphs.ts";
import type { Table, TableCell } from "../content.ts";
import {
  type BlockBuilder,
  type Context,
  camLift,
  endStages,
  flowedFigures,
  isFoundOnly,
  overallComparison,
  type SheetStage,
} from "../context.ts";
import { EMPTY_CELL, type FlowColumns, flowColumns, flowNotes, PARTIAL_NOTE, readingCell } from "../flow-columns.ts";
import { findAtLift, unionOfLifts } from "../lifts.ts";
import { portNotes } from "../port-notes.ts";
import { joinNotes, section } from "../section.ts";
import { pairDifferenceWords } from "../words/conditions.ts";
import { unclaimedWords } from "../words/lift-claims.ts";
import { capitalize, joinWords, lowercaseFirst } from "../words/text.ts";
import { verdictWords } from "../words/verdicts.ts";

/** Columns that fit on a portrait page. */
const MOST_COLUMNS = 9;
/** The lift and the change. */
const BESIDE_STAGES = 2;

/** The readings, under the conditions in which they were taken; nothing where they stand on the first page already. */
export const flowTable: BlockBuilder = (context, place) =>
  isFoundOnly(context) && context.blocks.includes("found-readings") ? [] : readings(context, place);

/** The readings of a head that was measured once: nothing was changed, so they are the answer. */
export const foundReadings: BlockBuilder = (context, place) => (isFoundOnly(context) ? readings(context, place) : []);

const readings: BlockBuilder = (context, place) => {
  const sides = context.sides.filter((side) => context.stages.some((stage) => flowedFigures(stage, side)));
  const all = context.stages.filter((stage) => sides.some((side) => flowedFigures(stage, side)));
  const stages = all.slice(-(MOST_COLUMNS - BESIDE_STAGES));
  if (sides.length === 0) return [];
  const panels = sides.map((side) => flowColumns(context, side, stages));
  const wide = 1 + panels.reduce((sum, panel) => sum + panel.columns.length, 0) > MOST_COLUMNS;
  const notes = flowNotes(context, sides, stages);
  const tables = wide
    ? panels.map((panel, i) => sideTable(readingsTable(context, [panel], stages, i === panels.length - 1 ? notes : [])))
    : [readingsTable(context, panels, stages, notes)];
  return section(place, "Flow readings", [
    ...(context.blocks.includes("conditions") ? [] : conditionParagraphs(context, stages)),
    ...tables,
    ...otherSetTables(context),
  ]);
};

/** Conditions of the readings, where they stand as a block of their own. */
export const conditions: BlockBuilder = (context, place) => {
  const stages = context.stages.filter((stage) => context.sides.some((side) => flowedFigures(stage, side)));
  return stages.length === 0 ? [] : section(place, undefined, conditionParagraphs(context, stages));
};

/** One side's table: the head over its columns is its title. */
function sideTable({ groups = [], ...table }: Table): Table {
  const title = groups.find(({ text }) => text !== "")?.text;
  return title === undefined ? table : { ...table, title };
}

function readingsTable(
  context: Context,
  panels: readonly FlowColumns[],
  stages: readonly SheetStage[],
  notes: readonly string[],
): Table {
  const { display } = context;
  const lifts = unionOfLifts(
    panels.flatMap(({ side }) =>
      stages.flatMap((stage) => [flowedFigures(stage, side)?.readings ?? [], stage.figures[side]?.left_out ?? []]),
    ),
  );
  const unlike = panels.flatMap(({ side }) => {
    const pair = overallComparison(context, side);
    return pair ? (pairDifferenceWords(pair) ?? []) : [];
  });
  const atCam = panels.map((panel) => panel.atCam());
  const hasCam = atCam.some((cells) => cells !== undefined);
  const camRow: TableCell[] = [
    { text: "your cam", strong: true },
    ...atCam.flatMap((cells, i) => cells ?? panels[i]!.columns.map((): TableCell => ({ text: "–" }))),
  ];
  return {
    kind: "table",
    columns: [
      { title: `Lift (${display.unit("lift")})`, align: "decimal" },
      ...panels.flatMap((panel) => panel.columns),
    ],
    groups: [
      { text: "", span: 1 },
      ...panels.map((panel) => ({
        text: `${capitalize(panel.side)} (${display.unit("flow")})`,
        span: panel.columns.length,
      })),
    ],
    rows: [
      ...lifts.map((lift): TableCell[] => [
        { text: display.digits("lift", lift) },
        ...panels.flatMap((panel) => panel.cells(lift)),
      ]),
      ...(hasCam ? [camRow] : []),
    ],
    ...(hasCam ? { closing: true } : {}),
    rowHeads: true,
    fifths: true,
    notes: joinNotes([
      ...(hasCam ? [camWords(context, panels)] : []),
      ...changeColumnNotes(context, panels),
      ...notes,
      ...unlike,
      ...portNotes(
        context,
        panels.map(({ side }) => side),
        stages,
        "Columns",
      ),
    ]),
  };
}

/** At which lifts the closing row stands. */
function camWords(context: Context, panels: readonly FlowColumns[]): string {
  const lifts = panels.flatMap(({ side }) => {
    const lift = camLift(context, side);
    return lift === undefined ? [] : [{ side, text: context.display.full("lift", lift) }];
  });
  const alike = new Set(lifts.map(({ text }) => text)).size === 1;
  const words = alike ? lifts[0]!.text : joinWords(lifts.map(({ side, text }) => `${text} (${side})`));
  return `Your cam: at ${words}, between readings.`;
}

/** What the columns of changes say; of a side without one, why. */
function changeColumnNotes(context: Context, panels: readonly FlowColumns[]): readonly string[] {
  const pairsOf = (some: readonly FlowColumns[]) => some.flatMap(({ side }) => overallComparison(context, side) ?? []);
  const hasChange = ({ columns }: FlowColumns) => columns.some(({ title }) => title === "Change");
  const [changed, unchanged] = [panels.filter(hasChange), pairsOf(panels.filter((panel) => !hasChange(panel)))];
  if (changed.length === 0) return missingChangeNotes(unchanged);
  const missing = unchanged.flatMap((pair) =>
    missingChangeNotes([pair]).map((note) => `${capitalize(pair.side)}: ${lowercaseFirst(note)}`),
  );
  return [...changeNotes(context, pairsOf(changed)), ...missing];
}

/** How to read the column of changes, and which of them are not claimed. */
function changeNotes(context: Context, pairs: readonly Comparison[]): readonly string[] {
  const judged = pairs.some(({ changes }) => changes.some(({ verdict }) => verdict !== undefined));
  return [
    judged
      ? "± belongs to the change. Its mark says clear gain, clear loss or within repeatability."
      : "± belongs to the change.",
    ...pairs.flatMap((pair) => unclaimedWords(pair, changesInTable(context, pair)) ?? []),
  ];
}

/** The changes at measured lifts, and at the cam's. */
function changesInTable(context: Context, pair: Comparison): readonly ChangeFigures[] {
  const cam = camLift(context, pair.side);
  return pair.changes.filter((change) => !change.interpolated || (cam !== undefined && sameLift(cam, change.lift_m)));
}

/** Why a table of two stages has no column of changes; the conditions state unlike ports. */
function missingChangeNotes(pairs: readonly Comparison[]): readonly string[] {
  const compared = pairs.filter(({ changes }) => changes.length > 0);
  const apart = pairs.some(({ changes, differences }) => changes.length === 0 && differences.length === 0);
  return [
    ...new Set(
      compared.map((pair) =>
        pair.verdict_withheld
          ? `${capitalize(verdictWords(undefined, pair).text)}.`
          : "Too few repeats to say what changed.",
      ),
    ),
    ...(apart ? ["No lift was flowed in both stages, so no change is said."] : []),
  ];
}

/** Sets that do not lead, each as itself. */
function otherSetTables(context: Context): readonly Table[] {
  const { display, sides } = context;
  const { last } = endStages(context);
  return (last?.figures.sets ?? []).flatMap((set) => {
    const shown = sides.filter((side) => (set[side]?.readings.length ?? 0) > 0);
    if (shown.length === 0) return [];
    const lifts = unionOfLifts(shown.map((side) => set[side]?.readings ?? []));
    const units = display.unit("flow");
    return [
      {
        kind: "table",
        title: `${last?.name}, ${set.name}`,
        columns: [
          { title: "Lift", unit: display.unit("lift"), align: "decimal" },
          ...shown.map((side) => ({ title: capitalize(side), unit: units, align: "decimal" }) as const),
        ],
        rows: lifts.map((lift) => [
          { text: display.digits("lift", lift) },
          ...shown.map((side) => {
            const reading = findAtLift(set[side]?.readings ?? [], lift);
            return reading ? readingCell(reading, display) : EMPTY_CELL;
          }),
        ]),
        rowHeads: true,
        fifths: true,
        notes: [
          ...(set.conditions.length > 0 ? [`Conditions: ${set.conditions.join("\u00a0· ")}`] : []),
          ...(shown.some((side) => set[side]?.readings.some(({ partial }) => partial)) ? [PARTIAL_NOTE] : []),
        ],
      },
    ];
  });
}
