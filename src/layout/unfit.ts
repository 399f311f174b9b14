import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Part } from "../sheet/content.ts";
import { type FlowBox, roomFor } from "./flow-box.ts";
import type { Placed } from "./page.ts";
import { lacksRoom, leastHeight } from "./parts/charts.ts";
import type { Setting } from "./setting.ts";

/** The block that a part stands in, and the room it has [pt]. */
export type BlockRoom = { readonly name: string } & Pick<Setting, "width" | "pageHeight" | "leastChart">;

/** What of a part no page, or not its own width, can hold as it was asked for: an error where it would clip, else a warning. */
export function unfit(
  part: Part,
  slabs: readonly FlowBox[],
  uncut: readonly FlowBox[],
  room: BlockRoom,
): readonly Diagnostic[] {
  const { name, width, pageHeight, leastChart } = room;
  const what = WORDS[part.kind];
  const found: Diagnostic[] = [];
  const say = (severity: Diagnostic["severity"], code: Diagnostic["code"], message: string, hint: string) =>
    found.push({ severity, code, message: `block ${name} ${message}`, hint });
  if (slabs.some((slab) => slab.height > roomFor(slab, pageHeight) + 1e-6))
    say(
      "error",
      "layout/too-tall",
      `has ${what} taller than a page`,
      "shorten its texts, or give it more columns in the template",
    );
  else if (slabs.length > uncut.length)
    say(
      "warning",
      "layout/divided",
      `has ${what} with a row taller than a page, which goes on overleaf`,
      "shorten the text of the row, or give the block more columns in the template",
    );
  if (slabs.some((slab) => isCrowded(slab, width)))
    say(
      "error",
      "layout/too-narrow",
      `is too narrow for ${what}`,
      "give it more columns in the template, or show less in it",
    );
  const lacking = part.kind === "charts" ? lacksRoom(part, room) : undefined;
  if (lacking === "narrow")
    say("error", "layout/too-narrow", `is too narrow for ${what}`, "give it more columns in the template");
  if (lacking === "low")
    say(
      "error",
      "layout/too-low",
      `is too low for ${what}`,
      `give it more height in the template${part.kind === "charts" && leastChart ? `, at least ${leastHeight(part, leastChart)}` : ""}`,
    );
  const drawn = slabs.flatMap(({ items }) => items.flatMap((item) => (item.kind === "drawing" ? [item.drawing] : [])));
  if (part.kind === "charts" && drawn.some(({ height }) => height < part.height - 0.5))
    say(
      "warning",
      "layout/reduced",
      `has ${what} higher than a page, drawn lower`,
      "give it less height in the template",
    );
  return found;
}

const WORDS: Readonly<Record<Part["kind"], string>> = {
  masthead: "a masthead",
  heading: "a heading",
  paragraph: "a text",
  list: "a list",
  facts: "a list of facts",
  table: "a table",
  headline: "numbers",
  charts: "charts",
  "true-size": "drawings at true size",
  pictures: "pictures with their captions",
  signatures: "places to sign",
  caution: "a caution",
  code: "a code to scan",
  blanks: "places to fill in",
  "write-in": "a table to fill in",
};

/** Whether ink leaves the width, or lies on other ink. */
function isCrowded(slab: FlowBox, width: number): boolean {
  const frames = slab.run && slab.opens ? [slab, slab.run.head, slab.run.again] : [slab];
  return frames.some(({ items }) => {
    const inks = items.flatMap(inkOf).sort((a, b) => a.top - b.top);
    return inks.some((ink, i) => ink.left < -NEAR || ink.right > width + NEAR || touchesNext(inks, i));
  });
}

/** Whether one of those that begin below an ink's top begins above its foot, and at its side. Sorted by their tops. */
function touchesNext(inks: readonly Ink[], i: number): boolean {
  const ink = inks[i]!;
  for (let next = i + 1; next < inks.length && inks[next]!.top < ink.bottom - NEAR; next++)
    if (ink.left < inks[next]!.right - NEAR && inks[next]!.left < ink.right - NEAR) return true;
  return false;
}

/** Places are kept to a hundredth of a point. */
const NEAR = 0.01;

type Ink = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** What text and figures cover: capitals and descenders of a text. Rules and fills may lie under it. */
function inkOf(item: Placed): readonly Ink[] {
  if (item.kind === "rule" || item.kind === "box") return [];
  const { x: left, y } = item;
  if (item.kind === "text")
    return [{ left, right: left + item.width, top: y - item.size * 0.7, bottom: y + item.size * 0.2 }];
  const { width, height } = item.kind === "drawing" ? item.drawing : item;
  return [{ left, right: left + width, top: y, bottom: y + height }];
}
