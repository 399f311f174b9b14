import { joinWords } from "./join-words.ts";
import { capital, count } from "./sentence.ts";

/** Which ports stand behind the figures: never left out. */
export function flowedPorts(side: string, flowed: { cylinders: readonly number[]; of?: number }): string {
  const n = flowed.cylinders.length;
  const which = `${n === 1 ? "cylinder" : "cylinders"} ${numbered(flowed.cylinders)}`;
  if (flowed.of === undefined) return `${capital(side)}: flowed ${count(n, "port")} (${which}).`;
  return `${capital(side)}: flowed ${n} of ${count(flowed.of, "port")} (${which}).`;
}

/** The same for all sides, said once where they are alike. */
export function flowedOnSides(sides: readonly { side: string; flowed: Parameters<typeof flowedPorts>[1] }[]): string {
  const [first, second] = sides;
  const alike = first && second && JSON.stringify(first.flowed) === JSON.stringify(second.flowed);
  return alike
    ? flowedPorts("each side", first.flowed)
    : sides.map(({ side, flowed }) => flowedPorts(side, flowed)).join(" ");
}

/** "1", "1 and 5", "1 to 4". */
function numbered(cylinders: readonly number[]): string {
  const [first, last] = [cylinders[0], cylinders.at(-1)];
  const unbroken = cylinders.every((cylinder, i) => i === 0 || cylinder === (cylinders[i - 1] as number) + 1);
  return unbroken && cylinders.length > 2 ? `${first} to ${last}` : joinWords(cylinders.map(String));
}

/** Where two stages flowed unlike ports, the difference of their columns is not the change. */
export const CHANGE_OF_LIKE_PORTS =
  "Columns are means of all ports flowed; a change compares a port with itself, or with ports of its hand.";
