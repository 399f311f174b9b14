import type { ChangeFigures, Comparison, EngineFigures, SetSideFigures, SideFigures } from "../../figures/figures.ts";
import { type HeadNames, SIDES, type Side, type Stage } from "../../model/model.ts";
import type { SeriesStyle, Theme } from "../../theme/theme.ts";
import { type Context, endStages, otherHeadComparisons } from "../context.ts";
import { otherEngines } from "../other-engines.ts";
import { parseWithheld, type Withheld } from "../withheld.ts";

/** One of two to four heads; A is the one that the others are compared with. */
export type SideHead = HeadNames & {
  readonly letter: string;
  readonly style: SeriesStyle;
  readonly stage: Stage;
  readonly figures: Readonly<Partial<Record<Side, SideFigures | SetSideFigures>>>;
  readonly engine?: EngineFigures;
  /** What this head's own job keeps off paper. */
  readonly withheld: Withheld;
};

const LETTERS = ["A", "B", "C", "D"];

/** The heads of the sheet in the order given: this job's own first, or the first that it names. */
export function sideHeads(context: Context): readonly SideHead[] {
  const { model, figures, withheld } = context;
  const { last } = endStages(context);
  if (!last) return [];
  const { identity, text } = model;
  const own: HeadNames = model.firstHead ?? {
    label: text.head.name ?? identity.title,
    known: {
      number: identity.number,
      ...(text.head.stamped && text.heads.length === 0 ? { stamped: text.head.stamped } : {}),
      ...(last.stage.date ? { date: last.stage.date } : {}),
    },
  };
  const styles = sideStyles(context.theme);
  const engines = otherEngines(context);
  const sidesOf = (one: Partial<Record<Side, SideFigures | SetSideFigures>>) =>
    Object.fromEntries(SIDES.flatMap((side) => (one[side]?.readings.length ? [[side, one[side]]] : [])));
  const ownEngine = last.figures.engine;
  return [
    {
      ...own,
      letter: LETTERS[0]!,
      style: styles[0]!,
      stage: last.stage,
      figures: sidesOf(last.figures),
      withheld,
      ...(ownEngine ? { engine: ownEngine } : {}),
    },
    ...model.compared.slice(0, LETTERS.length - 1).map(({ holdBack = [], ...names }, i): SideHead => {
      const engine = engines.find(({ label }) => label === names.label)?.engine;
      return {
        ...names,
        letter: LETTERS[i + 1]!,
        style: styles[i + 1]!,
        figures: sidesOf(figures.others?.find(({ label }) => label === names.label) ?? {}),
        withheld: parseWithheld(holdBack),
        ...(engine ? { engine } : {}),
      };
    }),
  ];
}

/** Each with a dash and a marker of its own, so that colour is never needed. */
function sideStyles({ series, colors }: Theme): readonly SeriesStyle[] {
  const line = (color: string, dash: readonly number[], marker: SeriesStyle["marker"]): SeriesStyle => ({
    color,
    label: color,
    width: 1.25,
    dash,
    marker,
    filled: false,
  });
  return [
    series.latest,
    line(colors.ink, [8, 2.5], "square"),
    line(colors.quiet, [8, 2, 1.5, 2], "triangle-up"),
    line(colors.ink, [1.5, 2], "diamond"),
  ];
}

/** The comparison of two heads on a side: its changes are those from the later head to the earlier one. */
export function pairOf(context: Context, earlier: SideHead, later: SideHead, side: Side): Comparison | undefined {
  return earlier.letter === LETTERS[0]
    ? otherHeadComparisons(context, side).find(({ from }) => from.label === later.label)
    : context.figures.comparisons.find(
        (pair) => pair.side === side && pair.to.label === earlier.label && pair.from.label === later.label,
      );
}

/** Flows of the later and the earlier head at a change. */
export const flowsAt = ({ from_m3_s: later, change_m3_s: change }: ChangeFigures) => ({
  later,
  earlier: later + change,
});
