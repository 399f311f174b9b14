import { visible } from "../../diagnostics/visible.ts";
import { type DisplayUnits, SIDES } from "../../model/model.ts";
import { show } from "../../units/show.ts";
import { nearWords } from "./difference-text.ts";
import type { Near } from "./nearest.ts";
import { sideCells } from "./shelf-cells.ts";
import type { SoundEntry } from "./shelf-entry.ts";

/** The heads nearest to one, each with why, then the lines to paste into its job file. */
export function nearText(here: SoundEntry, path: string, found: readonly Near[], units: DisplayUnits): string {
  const blocks = found.map(({ entry, distance, ...near }, k) =>
    [
      `${k + 1}. ${entry.number}  ${entry.head}, ${entry.stage ?? entry.kind}  (${entry.file}), distance ${distance.toFixed(2)}`,
      ...flows(entry, units),
      `   ${nearWords(near)}`,
      ...("why" in near.compare ? [`   not to be compared: ${near.compare.why}`] : []),
    ].map(visible),
  );
  const lines = found.flatMap(({ compare }) => ("line" in compare ? [`  ${visible(compare.line)}`] : []));
  const paste = lines.length > 0 ? ["", `to compare, paste into ${visible(path)}:`, "compare:", ...lines] : [];
  const head = visible(`most alike to ${here.number} ${here.head}, ${here.stage ?? here.kind}`);
  return `${[head, "distance: 0 is alike, 1 another size throughout; by valves, ports, sizes and how they were flowed", "", ...blocks.flat(), ...paste].join("\n")}\n`;
}

function flows(entry: SoundEntry, units: DisplayUnits): string[] {
  const parts = SIDES.flatMap((side) => {
    const cells = sideCells(entry, side, units);
    const peak = entry[side]?.peak;
    if (!cells) return [];
    return [`${side} ${cells.valve}${peak ? ` peak ${show(peak.flow_m3_s, "flow", units.flow)}` : ""}`];
  });
  return parts.length === 0 ? [] : [`   ${parts.join(", ")}`];
}
