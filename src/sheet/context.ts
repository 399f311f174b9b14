import type { Comparison, Figures, SideFigures, StageFigures } from "../figures/figures.ts";
import type { Model, Side, Stage } from "../model/model.ts";
import type { SeriesStyle, Theme } from "../theme/theme.ts";
import type { Part } from "./content.ts";
import type { Display } from "./display.ts";
import type { TemplateCell } from "./template.ts";
import type { Withheld } from "./withheld.ts";

/** Input of every block builder. */
export type Context = {
  readonly model: Model;
  readonly figures: Figures;
  readonly theme: Theme;
  readonly display: Display;
  readonly withheld: Withheld;
  /** Number, revision and the mark of the figures, in words. */
  readonly identifier: string;
  /** Both sides, in the order in which they stand. */
  readonly sides: readonly Side[];
  /** Oldest first. */
  readonly stages: readonly SheetStage[];
  /** Names of the blocks of the sheet. */
  readonly blocks: readonly string[];
};

/** A stage with its figures and line style. */
export type SheetStage = {
  readonly name: string;
  readonly stage: Stage;
  readonly figures: StageFigures;
  readonly style: SeriesStyle;
  readonly latest: boolean;
  /** Measures an earlier stage again. */
  readonly repeat: boolean;
};

/** Page and template cell of a block. */
export type Placement = { readonly page: number; readonly onePage: boolean; readonly cell: TemplateCell };

/** Builds a block's parts; none when it has no content. */
export type BlockBuilder = (context: Context, place: Placement) => readonly Part[];

/** The last stage that is not a repeat, and the first: what the sheet calls after and before. */
export function endStages(context: Context): { first?: SheetStage; last?: SheetStage } {
  const own = context.stages.filter((stage) => !stage.repeat);
  const last = own.at(-1);
  const first = own.length > 1 ? own[0] : undefined;
  return { ...(first ? { first } : {}), ...(last ? { last } : {}) };
}

/** Figures of one side, when that side was flowed. */
export function flowedFigures(stage: SheetStage | undefined, side: Side): SideFigures | undefined {
  const figures = stage?.figures[side];
  return figures && figures.readings.length > 0 ? figures : undefined;
}

/** The ports flowed on a side; `unnamed` where the job does not say of which cylinder, `curve` where it is not of them all. */
export type FlowedPorts = SideFigures["flowed"] & {
  readonly unnamed?: boolean;
  readonly curve?: { readonly cylinders: readonly number[]; readonly hand?: string };
};

/** The ports of a stage that were flowed, side by side. */
export function flowedPorts(
  stage: SheetStage | undefined,
  sides: readonly Side[],
): readonly { readonly side: Side; readonly flowed: FlowedPorts }[] {
  const unnamed = stage?.stage.sets[0]?.runs.every((run) => run.cylinderIsDefault) ?? false;
  return sides.flatMap((side) => {
    const figures = flowedFigures(stage, side);
    return figures ? [{ side, flowed: { ...figures.flowed, unnamed, ...curvePorts(figures) } }] : [];
  });
}

/** The ports of the curve, where they are not all that were flowed. */
function curvePorts({ port_to_port: ports, hand }: SideFigures): Pick<FlowedPorts, "curve"> {
  const all = ports?.cylinders ?? [];
  const own = all.filter((one) => one.full && one.hand === hand);
  if (own.length === all.length) return {};
  return { curve: { cylinders: own.map(({ cylinder }) => cylinder), ...(hand === undefined ? {} : { hand }) } };
}

/** One stage only: measured, and nothing to compare it with. */
export const isFoundOnly = ({ stages }: Context): boolean => stages.length === 1;

/** First stage against last, on one side. */
export function overallComparison(context: Context, side: Side): Comparison | undefined {
  const { first, last } = endStages(context);
  if (!first || !last) return undefined;
  return context.figures.comparisons.find(
    (pair) =>
      pair.side === side &&
      pair.from.label === undefined &&
      pair.to.label === undefined &&
      pair.from.stage === first.name &&
      pair.to.stage === last.name,
  );
}

/** This head against others, on one side. */
export function otherHeadComparisons(context: Context, side: Side): readonly Comparison[] {
  return context.figures.comparisons.filter(
    (pair) => pair.side === side && pair.from.label !== undefined && pair.to.label === undefined,
  );
}

/** The side's net cam lift, when the customer stated it. */
export function camLift(context: Context, side: Side): number | undefined {
  return context.model.engine?.cams[side]?.netLift;
}
