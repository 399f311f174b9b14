import type { Comparison, ReadingFigures } from "../../figures/figures.ts";
import type { Bench, SampledHead, Side } from "../../model/model.ts";
import { type Display, formatPercent, formatShortest } from "../display.ts";
import { presentItems } from "../section.ts";
import { capitalize, joinWords, toSentence } from "./text.ts";

/** Conditions of a set of readings, each in a few words; "not stated" where a reader would ask. */
export function conditionWords(bench: Bench, sides: readonly Side[], display: Display): readonly string[] {
  const intake = sides.includes("intake");
  const exhaust = sides.includes("exhaust");
  return presentItems<string>([
    `tested at ${formatPressure(bench.testPressure, display)}`,
    bench.boreFixture === undefined
      ? "bore of fixture not stated"
      : `fixture bore ${formatShortest(display, "length", bench.boreFixture)}`,
    intake && `intake entry ${bench.intakeEntry ?? "not stated"}`,
    exhaust && pipeWords(bench, display),
    intake && bench.attached.intake !== undefined && `${bench.attached.intake} on the intake`,
    exhaust && bench.attached.exhaust !== undefined && `${bench.attached.exhaust} on the exhaust`,
    airWords(bench, display),
    leakageWords(bench, sides, display),
    bench.accuracy !== undefined && `bench accuracy ±\u00a0${formatPercent(bench.accuracy)}`,
  ]);
}

function pipeWords({ exhaustPipe: pipe, noExhaustPipe }: Bench, display: Display): string {
  if (!pipe) return noExhaustPipe ? "no exhaust pipe" : "exhaust pipe not stated";
  const size = presentItems([
    pipe.diameter !== undefined && `${formatShortest(display, "length", pipe.diameter)} diameter`,
    pipe.length !== undefined && `${formatShortest(display, "length", pipe.length)} long`,
  ]).join(", ");
  return `exhaust pipe ${size || "fitted"}`;
}

/** A pressure in the fewest decimals that keep it. */
export const formatPressure = (pascals: number, display: Display): string =>
  formatShortest(display, "pressure", pascals);

/** Air at the bench, as far as it was stated. */
function airWords({ air }: Bench, display: Display): string {
  if (!air) return "air not stated";
  const humidity = air.humidityIsDefault ? "" : `, humidity ${formatPercent(air.relativeHumidity, 0)}`;
  return `air ${display.full("temperature", air.temperature, 0)}, ${display.full("barometer", air.pressure)}${humidity}`;
}

function leakageWords(bench: Bench, sides: readonly Side[], display: Display): string {
  const parts = sides.flatMap((side) => {
    const leak = bench.leakage?.[side];
    return leak === undefined ? [] : [`${display.full("flow", leak)} ${side}`];
  });
  if (parts.length === 0) return "leakage not stated";
  const how = bench.leakage?.how;
  return `leakage taken off ${parts.join(", ")}${how ? ` (${how})` : ""}`;
}

/** Differences of conditions between two sets, each in its own sentence, or why they are not compared. */
export const pairDifferenceWords = (pair: Comparison): string | undefined => differenceWords([pair])[0];

/** Differences of conditions on both sides, merged where they are equal. */
export function differenceWords(pairs: readonly Comparison[]): readonly string[] {
  const said = pairs.flatMap((pair) => {
    const why = differenceReason(pair);
    return why === undefined ? [] : [{ side: pair.side, why }];
  });
  return [...new Set(said.map(({ why }) => why))].map((why) => {
    const sides = said.filter((one) => one.why === why).map(({ side }) => side);
    return `${capitalize(sides.join(" and "))}: ${why}`;
  });
}

function differenceReason(pair: Comparison): string | undefined {
  if (pair.like_for_like) return undefined;
  if (pair.not_compared) return `not compared: ${pair.differences.join("; ")}.`;
  return ["conditions differ, so this is not like for like.", ...pair.differences.map(toSentence)].join(" ");
}

/** "Converted from 10 inH₂O.", where readings were not taken at the pressure at which they are reported. */
export function pressureConversionWords(readings: readonly ReadingFigures[], display: Display): string | undefined {
  const from = convertedFrom(readings, display);
  const part = readings.some(({ converted_from_Pa: pascals }) => pascals === undefined)
    ? "Partly converted"
    : "Converted";
  return from && `${part} from ${from}.`;
}

/** The pressures from which readings were converted. */
export function convertedFrom(readings: readonly ReadingFigures[], display: Display): string | undefined {
  const from = readings.flatMap(({ converted_from_Pa: pascals }) =>
    pascals === undefined ? [] : [formatPressure(pascals, display)],
  );
  const pressures = [...new Set(from)];
  if (pressures.length === 0) return undefined;
  return pressures.length > 2 ? "several pressures" : joinWords(pressures);
}

/** The result of a check; of a passed crack test "no crack found" and the method, since no test proves that there is none. */
export function checkResultWords(check: { check: string; method?: string; result?: string }): string | undefined {
  if (!check.result) return undefined;
  const crackTest = /crack/i.test(check.check) || /crack/i.test(check.result);
  const found = /^(no|none|no cracks?|no cracks? found|not? found|ok|passed|clear|good)\.?$/i.test(check.result.trim());
  if (!crackTest || !found) return check.result;
  return check.method ? `no crack found by ${check.method}` : "no crack found";
}

/** Words that hold for every sample's bench, without facts of one day such as its air. */
export function sharedSampleWords(
  samples: readonly SampledHead[],
  say: (bench: Bench) => readonly string[],
): readonly string[] {
  const [first = [], ...rest] = samples.flatMap(({ stage }) => (stage.sets[0] ? [say(stage.sets[0].bench)] : []));
  return first.filter((words) => rest.every((other) => other.includes(words)));
}
