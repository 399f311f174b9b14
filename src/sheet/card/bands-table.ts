import type { Side } from "../../model/model.ts";
import { type ComparisonPoint, headlinePoints } from "../compared.ts";
import type { Part, TableCell } from "../content.ts";
import { type Context, overallComparison } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { paragraph, presentItems } from "../section.ts";
import { differenceWords } from "../words/conditions.ts";
import { loneVerdictWords } from "../words/lift-claims.ts";
import { whereLabel } from "../words/method.ts";
import { capitalize } from "../words/text.ts";

/** Flow at the lifts where stages are compared: a row a lift, both sides, with verdicts where there is an earlier stage. */
export function bandsTable(context: Context): readonly Part[] {
  const { display } = context;
  const sides = context.sides
    .map((side) => ({ side, items: headlinePoints(context, side) }))
    .filter(({ items }) => items.length > 0);
  if (sides.length === 0) return [];
  const rows = [...new Set(sides.flatMap(({ items }) => items.map((item) => rowLabel(context, item))))];
  const unlike = differenceWords(sides.flatMap(({ side }) => overallComparison(context, side) ?? []));
  const once = sharedUnknownVerdict(context, sides);
  return [
    {
      kind: "table",
      columns: [
        { title: "Lift", align: "left" },
        ...sides.flatMap(({ side }) => [
          { title: capitalize(side), unit: display.unit("flow"), align: "decimal" } as const,
          { title: "", align: "left" } as const,
        ]),
      ],
      rows: rows.map((row): readonly TableCell[] => [
        { text: row },
        ...sides.flatMap(({ side, items }): readonly TableCell[] => {
          const item = items.find((one) => rowLabel(context, one) === row);
          if (!item) return [EMPTY_CELL, { text: "" }];
          return [
            { text: display.digits("flow", item.flow), strong: true },
            verdictCell(context, side, item, once === undefined),
          ];
        }),
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
    ...paragraph(once && `${capitalize(once)}.`, "small"),
    ...paragraph(unlike.join(" "), "caption"),
  ];
}

/** The words of a missing verdict, where they are the same for all points: printed once under the table. */
function sharedUnknownVerdict(context: Context, sides: readonly SidePoints[]): string | undefined {
  const words = sides.flatMap(({ side, items }) =>
    items.flatMap((item) => (item.verdict ? loneVerdictWords(item, overallComparison(context, side)) : [])),
  );
  const [first] = words;
  return first?.mark === "unknown" && words.every(({ text }) => text === first.text) ? first.text : undefined;
}

type SidePoints = { readonly side: Side; readonly items: readonly ComparisonPoint[] };

/** Low, mid and high lie at other lifts on the other side; a lift of its own is its own name. */
const rowLabel = ({ display }: Context, { at, lift }: ComparisonPoint): string =>
  capitalize(whereLabel(at)?.replace(/ lift$/, "") ?? display.full("lift", lift));

/** Verdict, earlier flow, and the lift where the row does not name it. */
function verdictCell(context: Context, side: Side, item: ComparisonPoint, withVerdict: boolean): TableCell {
  const { display } = context;
  const { at, lift, verdict, before } = item;
  const words = verdict && withVerdict ? loneVerdictWords(item, overallComparison(context, side)) : undefined;
  const text = presentItems<string>([
    words?.text,
    before !== undefined && `was ${display.digits("flow", before)}`,
    whereLabel(at) !== undefined && `at\u00a0${display.full("lift", lift)}`,
  ]).join(", ");
  return { text, ...(words ? { mark: words.mark } : {}) };
}
