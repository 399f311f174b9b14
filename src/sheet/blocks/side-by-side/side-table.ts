import type { ChangeFigures, Comparison } from "../../../figures/figures.ts";
import type { Side } from "../../../model/model.ts";
import { isClear } from "../../../model/verdict.ts";
import type { Part, TableCell, TableColumn } from "../../content.ts";
import type { BlockBuilder, Context } from "../../context.ts";
import { EMPTY_CELL } from "../../flow-columns.ts";
import { findAtLift } from "../../lifts.ts";
import { presentItems, section } from "../../section.ts";
import { flowsAt, pairOf, type SideHead, sideHeads } from "../../side-by-side/heads.ts";
import { averageVerdict } from "../../words/average-change.ts";
import { capitalize } from "../../words/text.ts";
import { mayPrint } from "../../words/verdicts.ts";

const PLACES = ["low", "mid", "high", "cam"] as const;
type Place = (typeof PLACES)[number];

/** Flow of the heads at low, mid, high and the cam's lift, with the difference, its ± and who is higher. */
export const sideTable: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  if (heads.length < 2) return [];
  const parts =
    heads.length === 2
      ? twoHeads(context, heads as [SideHead, SideHead])
      : context.sides.flatMap((side) => manyHeads(context, heads, side));
  return section(place, undefined, parts);
};

/** Two heads at every lift that was read on both: what the bar under the curves is made from. */
export const sideReadings: BlockBuilder = (context, place) => {
  const [a, b, ...more] = sideHeads(context);
  if (!a || !b || more.length > 0) return [];
  const heads = [a, b] as const;
  const sides = context.sides.flatMap((side) => {
    const pair = pairOf(context, a, b, side);
    const changes = pair?.changes.filter(({ interpolated }) => !interpolated) ?? [];
    return pair && changes.length > 0 ? [{ side, pair, changes }] : [];
  });
  const rows = Math.max(0, ...sides.map(({ changes }) => changes.length));
  if (rows === 0) return [];
  return section(place, "At each lift read", [
    {
      kind: "table",
      columns: sides.flatMap((one) => pairColumns(context, one.side, heads)),
      rows: Array.from({ length: rows }, (_, i) =>
        sides.flatMap(({ pair, changes }) => placeCells(context, pair, changes[i], heads)),
      ),
      rowHeads: false,
      fifths: true,
      notes: [],
    },
  ]);
};

const pairColumns = (
  { display }: Context,
  side: Side,
  [a, b]: readonly [SideHead, SideHead],
): readonly TableColumn[] => [
  { title: `lift, ${display.unit("lift")}`, align: "decimal" },
  { title: `${capitalize(side)} ${a.letter}`, align: "decimal" },
  { title: b.letter, align: "decimal" },
  { title: `${b.letter} − ${a.letter}`, align: "decimal" },
  { title: "", align: "left" },
];

/** The change of a pair at a named place. */
const changeAt = (pair: Comparison, at: Place): ChangeFigures | undefined => {
  const lift = pair.compared?.find((one) => one.at === at)?.lift_m;
  return lift === undefined ? undefined : findAtLift(pair.changes, lift);
};

const nameOf = (at: Place) => (at === "cam" ? "your cam" : at);

function twoHeads(context: Context, [a, b]: readonly [SideHead, SideHead]): readonly Part[] {
  const sides = context.sides.flatMap((side) => {
    const pair = pairOf(context, a, b, side);
    return pair && PLACES.some((at) => changeAt(pair, at)) ? [{ side, pair }] : [];
  });
  if (sides.length === 0) return [];
  const shown = PLACES.filter((at) => sides.some(({ pair }) => changeAt(pair, at)));
  const between = sides.some(({ pair }) => shown.some((at) => changeAt(pair, at)?.interpolated));
  return [
    {
      kind: "table",
      columns: [{ title: "At", align: "left" }, ...sides.flatMap(({ side }) => pairColumns(context, side, [a, b]))],
      rows: [
        ...shown.map((at): TableCell[] => [
          { text: nameOf(at), ...(at === "cam" ? { strong: true } : {}) },
          ...sides.flatMap(({ pair }) => placeCells(context, pair, changeAt(pair, at), [a, b])),
        ]),
        [{ text: "average" }, ...sides.flatMap(({ pair }) => averageCells(context, pair, [a, b]))],
      ],
      rowHeads: true,
      fifths: false,
      notes: [
        noteWords(
          context,
          sides.map(({ pair }) => pair),
          between,
        ),
      ],
    },
  ];
}

function placeCells(
  context: Context,
  pair: Comparison,
  change: ChangeFigures | undefined,
  heads: readonly [SideHead, SideHead],
): readonly TableCell[] {
  if (!change) return [EMPTY_CELL, EMPTY_CELL, EMPTY_CELL, EMPTY_CELL, { text: "" }];
  const { display } = context;
  const { earlier, later } = flowsAt(change);
  return [
    { text: display.digits("lift", change.lift_m), quiet: true },
    { text: display.digits("flow", earlier) },
    { text: display.digits("flow", later) },
    ...differenceCells(context, pair, change, heads),
  ];
}

/** The later head less the earlier one with its ±, and who is higher in words. */
function differenceCells(
  { display }: Context,
  pair: Comparison,
  {
    change_m3_s: change,
    uncertainty_m3_s: u,
    verdict,
  }: Pick<ChangeFigures, "change_m3_s" | "uncertainty_m3_s" | "verdict">,
  [a, b]: readonly [SideHead, SideHead],
): readonly TableCell[] {
  const clear = isClear(verdict) && u !== undefined;
  const words = clear
    ? `${change > 0 ? a.letter : b.letter} higher`
    : verdict === "within repeatability"
      ? "within ±"
      : "not judged";
  const difference = display.signed("flow", -change);
  return [
    mayPrint(verdict, u, pair)
      ? { text: difference, plusMinus: `±\u00a0${display.digits("flow", u)}`, ...(clear ? { strong: true } : {}) }
      : { text: difference },
    { text: words, ...(clear ? { strong: true } : {}) },
  ];
}

function averageCells(context: Context, pair: Comparison, heads: readonly [SideHead, SideHead]): readonly TableCell[] {
  const { mean_from_m3_s: later, mean_change_ratio: ratio, mean_change_uncertainty_ratio: u } = pair;
  if (later === undefined || ratio === undefined) return placeCells(context, pair, undefined, heads);
  const { display } = context;
  const verdict = averageVerdict(pair);
  const change = {
    change_m3_s: later * ratio,
    ...(u === undefined ? {} : { uncertainty_m3_s: later * u }),
    ...(verdict === undefined ? {} : { verdict }),
  };
  return [
    { text: "" },
    { text: display.digits("flow", later * (1 + ratio)) },
    { text: display.digits("flow", later) },
    ...differenceCells(context, pair, change, heads),
  ];
}

/** Three or four heads: a row a head, and after each flow its difference from the first. */
function manyHeads(context: Context, heads: readonly SideHead[], side: Side): readonly Part[] {
  const [first, ...others] = heads as [SideHead, ...SideHead[]];
  const pairs = others.map((head) => pairOf(context, first, head, side));
  const shown = PLACES.flatMap((at) => {
    const changes = pairs.map((pair) => pair && changeAt(pair, at));
    const known = changes.find((change) => change !== undefined);
    return known ? [{ at, lift: known.lift_m, changes, own: flowsAt(known).earlier }] : [];
  });
  if (shown.length === 0) return [];
  const { display } = context;
  const columns = shown.flatMap(({ at, lift }): readonly TableColumn[] => [
    { title: `${nameOf(at)}, ${display.digits("lift", lift)}`, align: "decimal" },
    { title: `− ${first.letter}`, align: "decimal" },
  ]);
  const row = (head: SideHead, i: number): readonly TableCell[] => [
    { text: head.letter },
    ...shown.flatMap(({ changes, own }): readonly TableCell[] => {
      if (i < 0) return [{ text: display.digits("flow", own) }, { text: "" }];
      const [change, pair] = [changes[i], pairs[i]];
      if (!change || !pair) return [EMPTY_CELL, EMPTY_CELL];
      const [difference] = differenceCells(context, pair, change, [first, head]);
      return [{ text: display.digits("flow", flowsAt(change).later) }, difference!];
    }),
  ];
  const between = shown.some(({ changes }) => changes.some((change) => change?.interpolated));
  return [
    {
      kind: "table",
      columns: [{ title: `${capitalize(side)}, ${display.unit("flow")}`, align: "left" }, ...columns],
      rows: [row(first, -1), ...others.map(row)],
      rowHeads: true,
      fifths: false,
      notes: [
        noteWords(
          context,
          pairs.flatMap((pair) => pair ?? []),
          between,
        ),
      ],
    },
  ];
}

function noteWords({ display }: Context, pairs: readonly Comparison[], between: boolean): string {
  const ranges = [
    ...new Set(pairs.flatMap(({ from_lift_m: from }) => (from === undefined ? [] : [display.full("lift", from)]))),
  ];
  return presentItems<string>([
    `Flow in ${display.unit("flow")}; ± belongs to the difference, set bold where it is clear.`,
    between && "At your cam: between readings.",
    ranges.length === 1 && `Average: from ${ranges[0]}.`,
  ]).join(" ");
}
