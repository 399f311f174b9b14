import type { Side } from "../../model/model.ts";
import { type ComparedAt, leading } from "../compared.ts";
import type { Part, TableCell } from "../content.ts";
import { type Context, wholeChange } from "../context.ts";
import { NONE } from "../flow-columns.ts";
import { paragraph, said } from "../section.ts";
import { unlikeSides } from "../words/conditions.ts";
import { whereLabel } from "../words/method.ts";
import { capital } from "../words/text.ts";
import { verdictWords } from "../words/verdicts.ts";

/** Flow where the sheet compares, a line a lift, both sides side by side, with verdicts where there is a before. */
export function bandsTable(context: Context): readonly Part[] {
  const { display } = context;
  const sides = context.sides
    .map((side) => ({ side, items: leading(context, side) }))
    .filter(({ items }) => items.length > 0);
  if (sides.length === 0) return [];
  const rows = [...new Set(sides.flatMap(({ items }) => items.map((item) => rowOf(context, item))))];
  const unlike = unlikeSides(sides.flatMap(({ side }) => wholeChange(context, side) ?? []));
  const once = sameForAll(context, sides);
  return [
    {
      kind: "table",
      columns: [
        { title: "Lift", align: "left" },
        ...sides.flatMap(({ side }) => [
          { title: capital(side), unit: display.unit("flow"), align: "decimal" } as const,
          { title: "", align: "left" } as const,
        ]),
      ],
      rows: rows.map((row): readonly TableCell[] => [
        { text: row },
        ...sides.flatMap(({ side, items }): readonly TableCell[] => {
          const item = items.find((one) => rowOf(context, one) === row);
          if (!item) return [NONE, { text: "" }];
          return [
            { text: display.digits("flow", item.after.flow_m3_s), strong: true },
            saidOf(context, side, item, once === undefined),
          ];
        }),
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
    ...paragraph(once && `${capital(once)}.`, "small"),
    ...paragraph(unlike.join(" "), "caption"),
  ];
}

/** A verdict that is no verdict is said once under the table, where it is the same for all. */
function sameForAll(context: Context, sides: readonly Compared[]): string | undefined {
  const words = sides.flatMap(({ side, items }) =>
    items.flatMap(({ verdict }) => (verdict ? verdictWords(verdict, wholeChange(context, side)) : [])),
  );
  const [first] = words;
  return first?.mark === "unknown" && words.every(({ text }) => text === first.text) ? first.text : undefined;
}

type Compared = { readonly side: Side; readonly items: readonly ComparedAt[] };

/** Low, mid and high lie at other lifts on the other side; a lift of its own is its own name. */
const rowOf = ({ display }: Context, { at, lift }: ComparedAt): string =>
  capital(whereLabel(at)?.replace(/ lift$/, "") ?? display.full("lift", lift));

/** The lift, where the row does not name it, what was there before, and the verdict unless it is told elsewhere. */
function saidOf(
  context: Context,
  side: Side,
  { at, lift, verdict, before }: ComparedAt,
  withVerdict: boolean,
): TableCell {
  const { display } = context;
  const words = verdict && withVerdict ? verdictWords(verdict, wholeChange(context, side)) : undefined;
  const text = said<string>([
    words?.text,
    before !== undefined && `was ${display.digits("flow", before)}`,
    whereLabel(at) !== undefined && `at\u00a0${display.full("lift", lift)}`,
  ]).join(", ");
  return { text, ...(words ? { mark: words.mark } : {}) };
}
