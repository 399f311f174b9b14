import { fitText } from "./fit-text.ts";
import { thinned } from "./tick-labels.ts";

/**
 * Names of categories as they stand under their bars, centred at ascending places of a drawing `end` wide [pt]: whole or
 * blank, every second, third … one staying where they would touch. Only where none fits at all is the first one cut.
 */
export function bandNames(
  categories: readonly string[],
  places: readonly number[],
  end: number,
  width: (text: string) => number,
): readonly string[] {
  const room = (i: number) => 2 * Math.min(places[i]!, end - places[i]!);
  const names = categories.map((name) => name.trim().replace(/\s+/gu, " "));
  const whole = names.map((name, i) => (width(name) <= room(i) ? name : ""));
  if (whole.some((name) => name !== "")) return thinned(whole, places, width);
  return names.map((name, i) => (i === 0 ? fitText(name, room(0), 1, width).lines[0]! : ""));
}
