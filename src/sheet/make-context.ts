import type { Figures } from "../figures/figures.ts";
import { type Model, SIDES } from "../model/model.ts";
import type { Theme } from "../theme/theme.ts";
import type { Context } from "./context.ts";
import { makeDisplay } from "./display.ts";
import { sheetStages } from "./sheet-stages.ts";
import { parseWithheld } from "./withheld.ts";
import { sheetIdentifier } from "./words/identity.ts";

/** What every block and sentence is made from. */
export function makeContext(input: {
  readonly model: Model;
  readonly figures: Figures;
  /** Short mark of the figures shown. */
  readonly mark: string;
  readonly theme: Theme;
  /** Blocks of the template that hold cautions. */
  readonly cautionBlocks?: readonly string[];
}): Context {
  const { model, figures, theme } = input;
  return {
    model,
    figures,
    theme,
    display: makeDisplay(model.units, shownLifts(model, figures), figures.reference.air.sound_speed_m_s),
    held: parseWithheld(model.report.holdBack),
    identifier: sheetIdentifier(model.identity, input.mark),
    sides: SIDES,
    stages: sheetStages(model, figures, theme),
    cautionBlocks: input.cautionBlocks ?? [],
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
