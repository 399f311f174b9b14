import type { Side } from "../../model/model.ts";
import { comparedAt } from "../compared.ts";
import type { TableCell } from "../content.ts";
import { type BlockBuilder, type Context, endStages, wholeChange } from "../context.ts";
import { NONE } from "../flow-columns.ts";
import { percent, percentDigits, signedPercentDigits } from "../percent.ts";
import { sameLift } from "../same-lift.ts";
import { section } from "../section.ts";
import { unlikeConditions } from "../words/conditions.ts";
import { whereLabel } from "../words/method.ts";
import { capital, joinWords } from "../words/text.ts";
import { averageVerdict, mayPrint, verdictWords } from "../words/verdicts.ts";

/** Before and after where the sheet compares, with ± and verdict in words; then the average. */
export const compared: BlockBuilder = (context, place) => {
  const { display } = context;
  const { first, last } = endStages(context);
  if (!first || !last) return [];
  // Columns of changes stand only where one may be printed.
  const said = context.sides.some((side) => {
    const pair = wholeChange(context, side);
    return pair?.changes.some((change) => mayPrint(change.verdict, change.uncertainty_m3_s));
  });
  const rows = context.sides.flatMap((side) => [...placesOf(context, side, said), ...averageOf(context, side, said)]);
  if (rows.length === 0) return [];
  const unit = display.unit("flow");
  return section(place, "What changed", [
    {
      kind: "table",
      columns: [
        { title: "Where", align: "left", weight: 2 },
        { title: "Lift", unit: display.unit("lift"), align: "decimal" },
        { title: first.name, unit, align: "decimal" },
        { title: last.name, unit, align: "decimal" },
        ...(said
          ? ([
              { title: "Change", unit: "%", align: "decimal" },
              { title: "±", unit: "%", align: "decimal" },
            ] as const)
          : []),
        { title: "Verdict", align: "left", weight: 2 },
      ],
      rows,
      rowHeads: true,
      fifths: false,
      notes: context.sides.flatMap((side) => {
        const pair = wholeChange(context, side);
        return pair
          ? [
              ...averageNote(pair.floor_ratio, side),
              ...(unlikeConditions(pair) ? [unlikeConditions(pair) as string] : []),
            ]
          : [];
      }),
    },
  ]);
};

function placesOf(context: Context, side: Side, said: boolean): readonly (readonly TableCell[])[] {
  const { display } = context;
  const places = comparedAt(context, side).toSorted((a, b) => a.lift - b.lift);
  return places.flatMap((here, i) => {
    const { lift, after, before, change, verdict } = here;
    // One lift under two names, as a peak at high lift, is one row.
    if (!change || !verdict || before === undefined || sameLift(lift, places[i - 1]?.lift ?? Number.NaN)) return [];
    const names = places.filter((other) => sameLift(other.lift, lift)).flatMap(({ at }) => whereLabel(at) ?? []);
    const beyond = places.some((other) => sameLift(other.lift, lift) && other.beyondCam) ? ", beyond your cam" : "";
    const base = after.flow_m3_s - change.change_m3_s;
    const u = change.uncertainty_m3_s;
    return [
      [
        { text: `${capital(side)}${names.length > 0 ? `, ${joinWords(names)}` : ""}${beyond}` },
        { text: display.digits("lift", lift) },
        { text: display.digits("flow", before) },
        { text: display.digits("flow", after.flow_m3_s) },
        ...(said ? [mayPrint(verdict, u) ? { text: signedPercentDigits(change.change_ratio) } : NONE] : []),
        ...(said ? [mayPrint(verdict, u) && base > 0 ? { text: percentDigits(u / base), quiet: true } : NONE] : []),
        verdictWords(verdict, wholeChange(context, side)),
      ],
    ];
  });
}

function averageOf(context: Context, side: Side, said: boolean): readonly (readonly TableCell[])[] {
  const { display } = context;
  const pair = wholeChange(context, side);
  const verdict = pair && averageVerdict(pair);
  if (!pair || verdict === undefined) return [];
  const { from_lift_m: from, to_lift_m: to, mean_change_uncertainty_ratio: u } = pair;
  const range =
    from !== undefined && to !== undefined ? `, ${display.digits("lift", from)} to ${display.full("lift", to)}` : "";
  const { first, last } = endStages(context);
  const mean = (stage: typeof first) => stage?.figures[side]?.mean_flow?.flow_m3_s;
  const flow = (value: number | undefined): TableCell =>
    value === undefined ? NONE : { text: display.digits("flow", value), strong: true };
  return [
    [
      { text: `${capital(side)}, average${range}`, strong: true },
      NONE,
      flow(mean(first)),
      flow(mean(last)),
      ...(said
        ? [mayPrint(verdict, u) ? { text: signedPercentDigits(pair.mean_change_ratio as number), strong: true } : NONE]
        : []),
      ...(said ? [mayPrint(verdict, u) ? { text: percentDigits(u), quiet: true } : NONE] : []),
      { ...verdictWords(verdict, pair), strong: true },
    ],
  ];
}

const averageNote = (floor: number | undefined, side: Side): readonly string[] =>
  floor === undefined
    ? []
    : [`${capital(side)}: measured again without work, it moved ${percent(floor)}; no gain is claimed below that.`];
