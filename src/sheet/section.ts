import type { Paragraph, Part } from "./content.ts";
import type { Placement } from "./context.ts";

/** Parts under a heading, where the block or the template names one; nothing at all when there are no parts. */
export function section(place: Placement, title: string | undefined, parts: readonly Part[]): readonly Part[] {
  const text = place.cell.title ?? title;
  if (parts.length === 0 || text === undefined || text === "") return parts;
  return [{ kind: "heading", level: 2, text }, ...parts];
}

/** A paragraph, or nothing. */
export const paragraph = (
  text: string | undefined,
  style: Paragraph["style"] = "body",
  lead?: string,
): readonly Part[] =>
  text === undefined || text === "" ? [] : [{ kind: "paragraph", style, text, ...(lead ? { lead } : {}) }];

/** The items that are present. */
export const presentItems = <T>(items: readonly (T | undefined | "" | false)[]): readonly T[] =>
  items.filter((item): item is T => item !== undefined && item !== "" && item !== false);

/** Notes under a table as one paragraph; none where all are absent. */
export function joinNotes(notes: readonly (string | undefined | false)[]): readonly string[] {
  const text = presentItems<string>(notes).join(" ");
  return text === "" ? [] : [text];
}
