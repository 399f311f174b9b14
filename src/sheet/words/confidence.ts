import type { Bench } from "../../model/model.ts";
import { formatNumber } from "../../units/show.ts";
import { type Display, formatPercent } from "../display.ts";
import { presentItems } from "../section.ts";

/** What the ± rests on, source by source; what was not stated says so. */
export function confidenceWords(bench: Bench, most: number, display: Display): readonly string[] {
  const spread = bench.repeatability;
  const repeatability =
    spread === undefined
      ? most > 1
        ? "Repeatability comes from our own repeats of these readings."
        : "Repeatability was neither measured nor stated, so no change is claimed."
      : spread.kind === "range"
        ? `Repeatability: ${spread.of} repeats lay within ${formatPercent(spread.spread)} of each other.`
        : `Repeatability: ±\u00a0${formatPercent(spread.value)}, as stated.`;
  const plate = bench.checkPlate;
  const off = (reading: number | undefined) =>
    plate === undefined || reading === undefined
      ? undefined
      : `${formatNumber((reading / plate.nominal - 1) * 100, 1)}`;
  const [before, after] = [off(plate?.before), off(plate?.after)];
  return presentItems<string>([
    "Each ± holds about 95 times in 100, worked out with Student's t for the repeats taken.",
    repeatability,
    bench.remount === undefined
      ? "What taking the head off and on adds was not stated."
      : `Taking the head off and on adds ±\u00a0${formatPercent(bench.remount)}.`,
    bench.liftSettingIsDefault
      ? `How exactly lift was set was not stated: taken as ±\u00a0${display.full("length", bench.liftSetting)}.`
      : `Lift was set to ±\u00a0${display.full("length", bench.liftSetting)}.`,
    bench.accuracy === undefined
      ? "Bench accuracy was not stated; it cancels when two runs on one bench are compared."
      : `Bench accuracy is ±\u00a0${formatPercent(bench.accuracy)}; it cancels when two runs on this bench are compared.`,
    before !== undefined &&
      after !== undefined &&
      `The check plate read ${before} % off before and ${after} % off after.`,
  ]);
}
