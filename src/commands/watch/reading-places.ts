import { createLineLookup, placeOf } from "../../diagnostics/line-counter.ts";
import type { Figures, StageFigures } from "../../figures/figures.ts";
import { type Model, SIDES } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { EditorPosition } from "./messages.ts";

/** Places in the job of the readings behind the lines of its figures, by the line's index; readings of other files have none. */
export function readingPlaces(
  formatted: string,
  { stages }: Figures,
  model: Model,
  job: { readonly name: string; readonly text: string },
): Readonly<Record<number, EditorPosition>> {
  const lines = formatted.split("\n");
  const source = createLineLookup(new Map([[job.name, job.text]]))(job.name);
  const places: Record<number, EditorPosition> = {};
  let line = 0;
  for (const stage of stages)
    for (const side of SIDES) {
      const found = lines.findIndex((text, index) => index >= line && text.startsWith(`  ${side}: flowed`));
      if (found < 0 || !source || (stage[side]?.readings.length ?? 0) === 0) continue;
      // The facts of the side and the head of its table come first.
      line = found + 2;
      for (const { lift_m } of stage[side]!.readings) {
        const at = readingsOf(stage, side, model).find(({ lift }) => sameLift(lift, lift_m))?.typed?.liftAt;
        if (at?.file === job.name) {
          const place = placeOf(source, at.start);
          places[line] = { line: place.line, ch: at.start - place.lineStart };
        }
        line++;
      }
    }
  return places;
}

/** Readings of one side of a stage, the set of the figures only. */
const readingsOf = ({ name, set }: StageFigures, side: "intake" | "exhaust", model: Model) =>
  model.stages
    .filter((stage) => stage.name === name)
    .flatMap(({ sets }) => sets.filter((one) => set === undefined || one.name === set).slice(0, 1))
    .flatMap(({ runs }) => runs.flatMap(({ readings }) => readings[side]));
