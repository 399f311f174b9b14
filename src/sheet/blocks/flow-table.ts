import type { Comparison } from "../../figures/figures.ts";
import type { Part, Table, TableCell } from "../content.ts";
import {
  type BlockBuilder,
  type Context,
  endStages,
  flowedFigures,
  flowedPorts,
  overallComparison,
  type SheetStage,
} from "../context.ts";
import { formatPercent, formatShortest } from "../display.ts";
import { EMPTY_CELL, type FlowColumns, flowColumns, flowNotes } from "../flow-columns.ts";
import { findAtLift, unionOfLifts } from "../same-lift.ts";
import { joinNotes, paragraph, section } from "../section.ts";
import { conditionWords, formatPressure, pairDifferenceWords } from "../words/conditions.ts";
import { CHANGE_OF_LIKE_PORTS, portsWords } from "../words/identity.ts";
import { capitalize, lowercaseFirst } from "../words/text.ts";

/** Columns that fit on a portrait page. */
const MOST_COLUMNS = 9;
/** The lift, the change and its ±. */
const BESIDE_STAGES = 3;

/** The readings, under the conditions in which they were taken. */
export const flowTable: BlockBuilder = (context, place) => {
  const sides = context.sides.filter((side) => context.stages.some((stage) => flowedFigures(stage, side)));
  const all = context.stages.filter((stage) => sides.some((side) => flowedFigures(stage, side)));
  const stages = all.slice(-(MOST_COLUMNS - BESIDE_STAGES));
  if (sides.length === 0) return [];
  const panels = sides.map((side) => flowColumns(context, side, stages));
  const wide = 1 + panels.reduce((sum, panel) => sum + panel.columns.length, 0) > MOST_COLUMNS;
  const notes = flowNotes(context, sides, stages);
  const tables = wide
    ? panels.map((panel, i) => readingsTable(context, [panel], stages, i === panels.length - 1 ? notes : []))
    : [readingsTable(context, panels, stages, notes)];
  return section(place, "Flow readings", [
    ...conditionParagraphs(context, stages),
    ...tables,
    ...otherSetTables(context),
  ]);
};

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
  const changed = panels.some(({ columns }) => columns.some(({ title }) => title === "Change"));
  const pairs = changed ? [] : panels.flatMap(({ side }) => overallComparison(context, side) ?? []);
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
    rows: lifts.map((lift): TableCell[] => [
      { text: display.digits("lift", lift) },
      ...panels.flatMap((panel) => panel.cells(lift)),
    ]),
    rowHeads: true,
    fifths: true,
    notes: joinNotes([
      ...(changed ? ["± belongs to the change. Its mark says clear gain, clear loss or within repeatability."] : []),
      ...missingChangeNotes(pairs),
      ...notes,
      ...unlike,
      ...portNotes(panels, stages),
    ]),
  };
}

/** Why a table of two stages has no column of changes; the conditions state unlike ports. */
function missingChangeNotes(pairs: readonly Comparison[]): readonly string[] {
  if (pairs.some(({ changes, verdict_withheld }) => changes.length > 0 && !verdict_withheld))
    return ["Too few repeats to say what changed."];
  const apart = pairs.some(
    ({ changes, differences, verdict_withheld }) =>
      changes.length === 0 && differences.length === 0 && !verdict_withheld,
  );
  return apart ? ["No lift was flowed in both stages, so no change is said."] : [];
}

/** Which ports the latest stage flowed; of an earlier one that flowed others, and what a change then compares. */
function portNotes(panels: readonly FlowColumns[], stages: readonly SheetStage[]): readonly string[] {
  const sides = panels.map(({ side }) => side);
  const of = (stage: SheetStage | undefined) => flowedPorts(stage, sides);
  const latest = portsWords(of(stages.at(-1)));
  const cylinders = (stage: SheetStage | undefined) =>
    JSON.stringify(of(stage).map(({ side, flowed }) => [side, flowed.cylinders]));
  const others = stages.slice(0, -1).flatMap((stage) => {
    const words = portsWords(of(stage));
    const alike = cylinders(stage) === cylinders(stages.at(-1));
    return words === "" || alike ? [] : [`${stage.name}: ${lowercaseFirst(words)}`];
  });
  return others.length === 0
    ? [latest]
    : [...others, `${stages.at(-1)?.name}: ${lowercaseFirst(latest)}`, CHANGE_OF_LIKE_PORTS];
}

/** Conditions beside the numbers: what all stages share once, then what is each stage's own. */
function conditionParagraphs(context: Context, stages: readonly SheetStage[]): readonly Part[] {
  const { display, model } = context;
  const sides = context.sides.filter((side) => stages.some((stage) => flowedFigures(stage, side)));
  const lines = stages.map((stage) => {
    const repeats = sides.flatMap(
      (side) => flowedFigures(stage, side)?.readings.map((reading) => reading.repeats) ?? [],
    );
    const [low, high] = [Math.min(...repeats), Math.max(...repeats)];
    const n = repeats.length === 0 ? [] : [`n\u00a0=\u00a0${low === high ? low : `${low}\u00a0to\u00a0${high}`}`];
    const bench = stage.stage.sets[0]?.bench ?? stage.stage.bench;
    const by = stage.stage.by === undefined ? [] : [`measured by ${stage.stage.by}`];
    return { name: stage.name, said: [...conditionWords(bench, sides, display), ...by, ...n] };
  });
  const shared = lines[0]?.said.filter((one) => lines.every((line) => line.said.includes(one))) ?? [];
  const own = lines.map(({ name, said }) => ({ name, said: said.filter((one) => !shared.includes(one)) }));
  const { numbering } = model.text.head;
  const { air } = model.reference;
  const reported = `Reported at ${formatPressure(model.reference.testPressure, display)} and air of ${formatShortest(display, "temperature", air.temperature)}, ${display.full("barometer", air.pressure)}, ${air.relativeHumidity === 0 ? "dry" : `humidity ${formatPercent(air.relativeHumidity, 0)}`}.`;
  return [
    ...paragraph(
      [reported, `${capitalize([...shared, ...(numbering ? [`numbering: ${numbering}`] : [])].join(" · "))}.`].join(
        " ",
      ),
      "caption",
    ),
    ...own.flatMap(({ name, said }) => paragraph(said.join(" · "), "caption", `${name}:`)),
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
            return reading
              ? { text: `${display.digits("flow", reading.flow_m3_s)}${reading.doubtful ? "?" : ""}` }
              : EMPTY_CELL;
          }),
        ]),
        rowHeads: true,
        fifths: true,
        notes: set.conditions.length > 0 ? [`Conditions: ${set.conditions.join(" · ")}`] : [],
      },
    ];
  });
}
