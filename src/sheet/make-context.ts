import type { Figures } from "../figures/figures.ts";
import { deliveredStage } from "../model/delivered-stage.ts";
import { type Model, SIDES } from "../model/model.ts";
import type { Theme } from "../theme/theme.ts";
import type { Context, SheetStage } from "./context.ts";
import { createDisplay } from "./display.ts";
import { parseWithheld } from "./withheld.ts";
import { sheetIdentifier } from "./words/identity.ts";

/** Builds the input of every block and sentence. */
export function createContext(input: {
  readonly model: Model;
  readonly figures: Figures;
  /** Version of the figures and mark of the issue. */
  readonly mark: string;
  readonly theme: Theme;
  /** Names of the blocks of the template. */
  readonly blocks?: readonly string[];
}): Context {
  const { model, figures, theme } = input;
  return {
    model,
    figures,
    theme,
    display: createDisplay(model.units, shownLifts(model, figures), figures.reference.air.sound_speed_m_s),
    withheld: parseWithheld(model.report.holdBack),
    identifier: sheetIdentifier(model.identity, input.mark),
    sides: SIDES,
    stages: sheetStages(model, figures, theme),
    blocks: input.blocks ?? [],
  };
}

/** All lifts that the sheet prints as typed. */
function shownLifts(model: Model, figures: Figures): readonly number[] {
  const stages = [...model.stages, ...model.samples.map(({ stage }) => stage)];
  const typed = stages.flatMap(({ sets }) =>
    sets.flatMap(({ runs }) =>
      runs.flatMap(({ readings }) => SIDES.flatMap((side) => readings[side].map(({ lift }) => lift))),
    ),
  );
  const computed = figures.stages.flatMap((stage) =>
    SIDES.flatMap((side) => stage[side]?.readings.map(({ lift_m }) => lift_m) ?? []),
  );
  return [...typed, ...computed];
}

/** Stages with their figures and line styles: the latest is the last one that is no repeat; the earlier ones follow, newest first. */
function sheetStages(model: Model, figures: Figures, theme: Theme): readonly SheetStage[] {
  const latest = deliveredStage(model.stages)?.name;
  const earlier = model.stages.filter(({ name }) => name !== latest).map(({ name }) => name);
  const { series } = theme;
  return model.stages.flatMap((stage) => {
    const found = figures.stages.find(({ name }) => name === stage.name);
    if (!found) return [];
    const back = earlier.length - 1 - earlier.indexOf(stage.name);
    const style =
      stage.name === latest
        ? series.latest
        : (series.earlier[back % Math.max(series.earlier.length, 1)] ?? series.latest);
    return [
      {
        name: stage.name,
        stage,
        figures: found,
        style,
        latest: stage.name === latest,
        repeat: stage.repeats !== undefined,
      },
    ];
  });
}
