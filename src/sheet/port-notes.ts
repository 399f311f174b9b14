import type { Side } from "../model/model.ts";
import { type Context, flowedPorts, overallComparison, type SheetStage } from "./context.ts";
import { comparedPortsWords, portsWords } from "./words/identity.ts";
import { lowercaseFirst } from "./words/text.ts";

const CHANGES = { Columns: "a change is", Lines: "a change, and the flows beside it, are" } as const;

/**
 * Which ports the latest of some stages flowed. Where another flowed others, those of each, and of which a change is: the
 * table's columns, or the chart's lines, are means of the ports of each curve.
 */
export function portNotes(
  context: Context,
  sides: readonly Side[],
  stages: readonly SheetStage[],
  what: keyof typeof CHANGES,
): readonly string[] {
  const of = (stage: SheetStage | undefined) => flowedPorts(stage, sides);
  const latest = stages.find((stage) => stage.latest) ?? stages.at(-1);
  const words = portsWords(of(latest));
  const cylinders = (stage: SheetStage | undefined) =>
    JSON.stringify(of(stage).map(({ side, flowed }) => [side, flowed.cylinders, flowed.curve]));
  const others = stages
    .filter((stage) => of(stage).length > 0 && cylinders(stage) !== cylinders(latest))
    .map((stage) => `${stage.name}: ${lowercaseFirst(portsWords(of(stage)))}`);
  if (others.length === 0) return [words];
  const isMean = stages.some((stage) => of(stage).some(({ flowed }) => (flowed.curve ?? flowed).cylinders.length > 1));
  const compared = comparedPortsWords(sides.flatMap((side) => overallComparison(context, side) ?? []));
  return [
    ...others,
    `${latest?.name}: ${lowercaseFirst(words)}`,
    ...(isMean
      ? [
          `${what} are means of the ports of a curve${compared === undefined ? "" : `; ${CHANGES[what]} of ${compared}`}.`,
        ]
      : []),
  ];
}
