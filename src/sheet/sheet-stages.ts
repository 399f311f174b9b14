import type { Figures } from "../figures/figures.ts";
import type { Model } from "../model/model.ts";
import type { Theme } from "../theme/theme.ts";
import type { SheetStage } from "./context.ts";

/** Stages with their figures and look: the last that repeats no other is the latest, nearer ones before it come first. */
export function sheetStages(model: Model, figures: Figures, theme: Theme): readonly SheetStage[] {
  const latest = model.stages.findLast((stage) => stage.repeats === undefined)?.name;
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
        again: stage.repeats !== undefined,
      },
    ];
  });
}
