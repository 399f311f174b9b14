import type { DisplayUnits } from "../../model/model.ts";
import { show } from "../../units/show.ts";
import { type Asking, type CompareLine, compareLine } from "./compare-line.ts";
import { differenceText } from "./difference-text.ts";
import { distance } from "./distance.ts";
import { isSound, type ShelfEntry, type SoundEntry } from "./shelf-entry.ts";
import { byFile } from "./sorted.ts";

export type Near = {
  readonly entry: SoundEntry;
  readonly distance: number;
  readonly unlike: readonly string[];
  readonly same: readonly string[];
  /** What only one of both jobs knows: it counts for neither near nor far. */
  readonly not_known: readonly string[];
  readonly compare: CompareLine;
};

/** The heads most alike to one, nearest first; equals by how much is known of both, then by their file. The job itself is not among them. */
export function nearest(
  here: ShelfEntry,
  shelf: readonly ShelfEntry[],
  { folder, asking, units, most }: { folder: string; asking: Asking; units: DisplayUnits; most: number },
): readonly Near[] {
  const found = shelf
    .filter(isSound)
    .map((entry) => ({ entry, ...distance(here, entry) }))
    .toSorted((a, b) => a.distance - b.distance || b.known - a.known || byFile(a.entry, b.entry))
    .slice(0, most);
  const labels = labelsOf(
    found.map(({ entry }) => entry),
    units,
  );
  return found.map(({ entry, distance: far, apart }, k) => ({
    entry,
    distance: far,
    ...differenceText(apart, here, entry, units),
    compare: compareLine(entry, folder, asking, labels[k]!),
  }));
}

/** What the sheet would call them: the head's name, with its intake valve where two share one, and a letter where that is shared too. */
function labelsOf(entries: readonly SoundEntry[], units: DisplayUnits): readonly string[] {
  const sized = entries.map((entry) => {
    const valve = entry.intake?.valve_diameter_m;
    const alone = entries.filter(({ head }) => head === entry.head).length < 2;
    return alone || valve === undefined
      ? entry.head
      : `${entry.head}, ${show(valve, "length", units.length).replace("\u00a0", " ")} intake valve`;
  });
  return sized.map((label, k) => {
    const before = sized.slice(0, k).filter((one) => one === label).length;
    return before === 0 ? label : `${label} (${before + 1})`;
  });
}
