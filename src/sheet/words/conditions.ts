import type { Bench, Side } from "../../model/model.ts";
import { type Display, tidy } from "../display.ts";
import { percent } from "../percent.ts";
import { said } from "../section.ts";

/** Conditions of a set of readings, each in a few words; "not stated" where a reader would ask. */
export function conditions(bench: Bench, sides: readonly Side[], display: Display): readonly string[] {
  const intake = sides.includes("intake");
  const exhaust = sides.includes("exhaust");
  const pipe = bench.exhaustPipe;
  const pipeSize = pipe
    ? said([
        pipe.diameter !== undefined && `${tidy(display, "length", pipe.diameter)} diameter`,
        pipe.length !== undefined && `${tidy(display, "length", pipe.length)} long`,
      ]).join(", ")
    : "";
  return said<string>([
    `tested at ${pressure(bench.testPressure, display)}`,
    bench.boreFixture === undefined
      ? "bore of fixture not stated"
      : `fixture bore ${tidy(display, "length", bench.boreFixture)}`,
    intake && `intake entry ${bench.intakeEntry ?? "not stated"}`,
    exhaust && (pipe ? `exhaust pipe ${pipeSize || "fitted"}` : "no exhaust pipe"),
    intake && bench.attached.intake !== undefined && `${bench.attached.intake} on the intake`,
    exhaust && bench.attached.exhaust !== undefined && `${bench.attached.exhaust} on the exhaust`,
    airWords(bench, display),
    leakageWords(bench, sides, display),
    bench.accuracy !== undefined && `bench accuracy ±\u00a0${percent(bench.accuracy)}`,
  ]);
}

/** A pressure in the fewest decimals that keep it. */
export const pressure = (pascals: number, display: Display): string => tidy(display, "pressure", pascals);

/** Air at the bench, or why it does not matter. */
function airWords(bench: Bench, display: Display): string {
  if (!bench.air) return "air not recorded";
  const { temperature, relativeHumidity } = bench.air;
  return `air ${display.full("temperature", temperature, 0)}, ${display.full("barometer", bench.air.pressure)}, humidity ${percent(relativeHumidity, 0)}`;
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
