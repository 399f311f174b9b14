import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Part } from "../sheet/content.ts";
import { availableHeight, type FlowBox } from "./flow-box.ts";
import type { PlacedItem } from "./page.ts";
import { minRowHeight, roomShortage } from "./parts/charts.ts";
import type { PartContext } from "./setting.ts";

/** The block that a part stands in, and the room it has [pt]. */
type BlockRoom = { readonly name: string } & Pick<PartContext, "width" | "pageHeight" | "leastChart">;

/** Diagnostics for a part that its page or width cannot hold: an error where it would clip, else a warning. */
export function findMisfits(
  part: Part,
  boxes: readonly FlowBox[],
  uncut: readonly FlowBox[],
  room: BlockRoom,
): readonly Diagnostic[] {
  const { name, width, pageHeight, leastChart } = room;
  const what = WORDS[part.kind];
  const found: Diagnostic[] = [];
  const say = (severity: Diagnostic["severity"], code: Diagnostic["code"], message: string, hint: string) =>
    found.push({ severity, code, message: `block ${name} ${message}`, block: name, hint });
  if (boxes.some((box) => box.height > availableHeight(box, pageHeight) + 1e-6))
    say(
      "error",
      "layout/too-tall",
      `has ${what} taller than a page`,
      "shorten its texts, or give it more columns in the template",
    );
  else if (boxes.length > uncut.length)
    say(
      "warning",
      "layout/divided",
      `has ${what} with a row taller than a page, which goes on overleaf`,
      "shorten the text of the row, or give the block more columns in the template",
    );
  if (boxes.some((box) => isCrowded(box, width)))
    say(
      "error",
      "layout/too-narrow",
      `is too narrow for ${what}`,
      "give it more columns in the template, or show less in it",
    );
  const lacking = part.kind === "charts" ? roomShortage(part, room) : undefined;
  if (lacking === "narrow")
    say("error", "layout/too-narrow", `is too narrow for ${what}`, "give it more columns in the template");
  if (lacking === "low")
    say(
      "error",
      "layout/too-low",
      `is too low for ${what}`,
      `give it more height in the template${part.kind === "charts" && leastChart ? `, at least ${minRowHeight(part, leastChart)}` : ""}`,
    );
  const drawn = boxes.flatMap(({ items }) => items.flatMap((item) => (item.kind === "drawing" ? [item.drawing] : [])));
  if (part.kind === "charts" && drawn.some(({ height }) => height < (part.grow?.[0] ?? part.height) - 0.5))
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
  cover: "a cover",
  "closing-band": "a closing band",
  title: "a title",
  hero: "a photograph beside facts",
  "facts-row": "a row of facts",
  heading: "a heading",
  paragraph: "a text",
  list: "a list",
  facts: "a list of facts",
  table: "a table",
  headline: "numbers",
  charts: "charts",
  "flow-panels": "panels",
  lead: "a sentence",
  "key-row": "a row of values",
  "true-size": "drawings at true size",
  pictures: "pictures with their captions",
  "picture-pairs": "pictures in pairs",
  signatures: "places to sign",
  caution: "a caution",
  "head-plan": "a plan of the head",
  ticks: "cautions in two columns",
  code: "a code to scan",
  blanks: "places to fill in",
  "write-in": "a table to fill in",
};

/** Whether ink leaves the width, or lies on other ink. */
function isCrowded(box: FlowBox, width: number): boolean {
  const frames = box.run && box.opens ? [box, box.run.head, box.run.again] : [box];
  return frames.some(({ items }) => {
    const inks = items.flatMap(inkBoxes).sort((a, b) => a.top - b.top);
    return inks.some((ink, i) => ink.left < -NEAR || ink.right > width + NEAR || overlapsLater(inks, i));
  });
}

/** Whether one of those that begin below an ink's top begins above its foot, and at its side. Sorted by their tops. */
function overlapsLater(inks: readonly InkBox[], i: number): boolean {
  const ink = inks[i]!;
  for (let next = i + 1; next < inks.length && inks[next]!.top < ink.bottom - NEAR; next++)
    if (ink.left < inks[next]!.right - NEAR && inks[next]!.left < ink.right - NEAR) return true;
  return false;
}

/** Places are kept to a hundredth of a point. */
const NEAR = 0.01;

type InkBox = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** Boxes covered by text (capitals to descenders) and figures; rules and fills may lie under them. */
function inkBoxes(item: PlacedItem): readonly InkBox[] {
  if (item.kind === "rule" || item.kind === "box" || (item.kind === "drawing" && item.around)) return [];
  const { x: left, y } = item;
  if (item.kind === "text")
    return [{ left, right: left + item.width, top: y - item.size * 0.7, bottom: y + item.size * 0.2 }];
  const { width, height } = item.kind === "drawing" ? item.drawing : item;
  return [{ left, right: left + width, top: y, bottom: y + height }];
}
