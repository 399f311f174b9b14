import type { SideFigures } from "../figures/figures.ts";
import type { Part } from "./content.ts";
import { type Context, flowedFigures, type SheetStage } from "./context.ts";
import { formatPercent, formatShortest } from "./display.ts";
import { paragraph } from "./section.ts";
import { sharedSentences } from "./shared-sentences.ts";
import { conditionWords, formatPressure } from "./words/conditions.ts";
import { capitalize } from "./words/text.ts";

/** Conditions beside the numbers: what all stages share once, then what is each stage's own. */
export function conditionParagraphs(context: Context, stages: readonly SheetStage[]): readonly Part[] {
  const { display, model } = context;
  const sides = context.sides.filter((side) => stages.some((stage) => flowedFigures(stage, side)));
  const lines = stages.map((stage) => {
    const n = repeatWords(sides.flatMap((side) => flowedFigures(stage, side) ?? []));
    const bench = stage.stage.sets[0]?.bench ?? stage.stage.bench;
    const by = stage.stage.by === undefined ? [] : [`measured by ${stage.stage.by}`];
    return { name: stage.name, said: [...conditionWords(bench, sides, display), ...by, ...(n === "" ? [] : [n])] };
  });
  const { shared, own } = sharedSentences(lines);
  const { numbering } = model.text.head;
  const { air } = model.reference;
  const reported = `Reported at ${formatPressure(model.reference.testPressure, display)} and air of ${formatShortest(display, "temperature", air.temperature)}, ${display.full("barometer", air.pressure)}, ${air.relativeHumidity === 0 ? "dry" : `humidity ${formatPercent(air.relativeHumidity, 0)}`}.`;
  return [
    ...paragraph(
      [reported, `${capitalize([...shared, ...(numbering ? [`numbering: ${numbering}`] : [])].join(BETWEEN))}.`].join(
        " ",
      ),
      "caption",
    ),
    ...own.flatMap(({ name, said }) => paragraph(said.join(BETWEEN), "caption", `${name}:`)),
  ];
}

/** No line begins with the dot. */
const BETWEEN = "\u00a0· ";

/** How often each lift was read, of one cylinder and on one mount. */
function repeatWords(sides: readonly SideFigures[]): string {
  const readings = sides.flatMap((side) => side.readings).filter(({ partial }) => !partial);
  if (readings.length === 0) return "";
  const span = (values: readonly number[]) => {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    return low === high ? `${low}` : `${low}\u00a0to\u00a0${high}`;
  };
  const mounts = readings.map((reading) => reading.mounts ?? 1);
  const most = Math.max(...mounts);
  const alike = Math.min(...mounts) === most;
  const several = most === 1 ? "" : alike ? ` on each of ${most} mounts` : ` on each mount, ${span(mounts)} mounts`;
  const cylinders = readings.some(({ of_cylinders: of = [] }) => of.length > 1) ? " for each cylinder" : "";
  return `n\u00a0=\u00a0${span(readings.map(({ repeats }) => repeats))}${several}${cylinders}`;
}
