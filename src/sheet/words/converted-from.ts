import type { ReadingFigures } from "../../figures/figures.ts";
import { type Display, tidy } from "../display.ts";
import { joinWords } from "./join-words.ts";

/** "Converted from 10 inH₂O.", where readings were not taken at the pressure at which they are reported. */
export function convertedFrom(readings: readonly ReadingFigures[], display: Display): string | undefined {
  const from = readings.flatMap(({ converted_from_Pa: pascals }) =>
    pascals === undefined ? [] : [tidy(display, "pressure", pascals)],
  );
  const pressures = [...new Set(from)];
  if (pressures.length === 0) return undefined;
  const part = from.length < readings.length ? "Partly converted" : "Converted";
  return `${part} from ${pressures.length > 2 ? "several pressures" : joinWords(pressures)}.`;
}
