import type { Comparison } from "../../figures/figures.ts";
import type { Identity, JobText, SampledHead } from "../../model/model.ts";
import type { FlowedPorts } from "../context.ts";
import { monthSpan } from "./dates.ts";
import { capitalize, countWords, joinWords } from "./text.ts";

/** Which sheet this is and of which figures: what a reader can compare with the shop's own. Names no person. */
export function sheetIdentifier({ number, revision, draft }: Identity, mark: string): string {
  return `${number} revision ${revision} figures ${mark}${draft ? " draft" : ""}`;
}

/** How the head leaves the shop. */
export const DELIVERED: Record<NonNullable<JobText["delivered"]>, string> = {
  bare: "Delivered bare, without valves and springs.",
  assembled: "Delivered assembled.",
  "checking springs fitted": "Delivered with checking springs fitted, for measuring only.",
};

/** Fewer parts than this are not called typical. */
const FEWEST = 3;

/** The promise of a catalogue page: "typical" is earned. */
export const typicalWords = (n: number): string =>
  n >= FEWEST ? `Typical of ${n} parts measured` : `Measured on ${n} ${n === 1 ? "part" : "parts"}`;

/** ", June to August 2026": the months of measuring, where each sample states its day. */
export function monthsMeasured(samples: readonly SampledHead[]): string {
  const days = samples.flatMap(({ stage }) => stage.date ?? []);
  return days.length === samples.length && days.length > 0 ? `, ${monthSpan(days)}` : "";
}

/** The ports that were flowed on one side. */
export function sidePortsWords(side: string, flowed: FlowedPorts): string {
  const { n } = flowed;
  const which = flowed.unnamed ? "" : ` (${cylindersWords(flowed.cylinders)})`;
  const ports = flowed.of === undefined ? countWords(n, "port") : `${n} of ${countWords(flowed.of, "port")}`;
  return `${capitalize(side)}: flowed ${ports}${which}${curveWords(flowed)}.`;
}

const curveWords = ({ curve }: FlowedPorts): string =>
  curve === undefined
    ? ""
    : `, the curve is of ${cylindersWords(curve.cylinders)}${curve.hand === undefined ? "" : ` (${curve.hand})`}`;

/** Ports flowed on all sides, merged where they are equal. */
export function portsWords(sides: readonly { side: string; flowed: FlowedPorts }[]): string {
  const [first, second] = sides;
  const alike = first && second && JSON.stringify(first.flowed) === JSON.stringify(second.flowed);
  return alike
    ? sidePortsWords("each side", first.flowed)
    : sides.map(({ side, flowed }) => sidePortsWords(side, flowed)).join(" ");
}

/** "cylinder 1", "cylinders 1 and 5", "cylinders 1 to 4". */
export function cylindersWords(cylinders: readonly number[]): string {
  const [first, last] = [cylinders[0], cylinders.at(-1)];
  const unbroken = cylinders.every((cylinder, i) => i === 0 || cylinder === (cylinders[i - 1] as number) + 1);
  const range = unbroken && cylinders.length > 2 ? `${first} to ${last}` : joinWords(cylinders.map(String));
  return `${cylinders.length === 1 ? "cylinder" : "cylinders"} ${range}`;
}

/** Which cylinders of two heads are compared; nothing where both are the same. */
export function comparedCylindersWords({ cylinders, from_cylinders: other }: Comparison): string | undefined {
  if (!cylinders || !other || JSON.stringify(cylinders) === JSON.stringify(other)) return undefined;
  return `Compared: ${cylindersWords(cylinders)} of this head, ${cylindersWords(other)} of that one.`;
}

/** The cylinders of which changes are, where two stages flowed unlike ports; nothing where no port was flowed in both. */
export function comparedPortsWords(pairs: readonly Pick<Comparison, "side" | "cylinders">[]): string | undefined {
  const named = pairs.flatMap(({ side, cylinders = [] }) =>
    cylinders.length === 0 ? [] : [{ side, words: cylindersWords(cylinders) }],
  );
  const [first] = named;
  if (!first) return undefined;
  const alike = named.every(({ words }) => words === first.words);
  const which = alike ? first.words : joinWords(named.map(({ side, words }) => `${side} ${words}`));
  return which;
}
