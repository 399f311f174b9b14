import type { Side } from "../../model/model.ts";
import { type ComparisonPoint, headlinePoints } from "../compared.ts";
import type { Headline, Part } from "../content.ts";
import { type BlockBuilder, type Context, overallComparison } from "../context.ts";
import { isPhone } from "../phone.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { differenceWords } from "../words/conditions.ts";
import { loneVerdictWords } from "../words/lift-claims.ts";
import { whereWords } from "../words/method.ts";
import { capitalize } from "../words/text.ts";
import { phoneHeadline } from "./phone-headline.ts";

/** The big numbers: flow where the customer's cam opens to, before and after, with the verdict in words. */
export const headline: BlockBuilder = (context, place) => {
  if (isPhone(context)) return section(place, undefined, phoneHeadline(context));
  // A narrow cell has room for one number a side: the highest lift of those that lead.
  const narrow = place.cell.span < 6;
  const sides = context.sides.map((side) =>
    headlinePoints(context, side)
      .slice(narrow ? -1 : 0)
      .map((item) => headlineCell(context, side, item)),
  );
  const cells = sides.flat();
  if (cells.length === 0) return [];
  // Both sides at one lift each stand in one line; three lifts a side get a line a side.
  const lines = sides.every((line) => line.length <= 2) ? [cells] : sides.filter((line) => line.length > 0);
  // Read on a phone first.
  const large = place.onePage && lines.every((line) => line.length <= 3);
  const unlike = differenceWords(context.sides.flatMap((side) => overallComparison(context, side) ?? []));
  const parts: Part[] = lines.map(
    (line): Headline => ({ kind: "headline", cells: line, ...(large ? { large: true } : {}) }),
  );
  return section(place, undefined, [...parts, ...paragraph(unlike.join(" "), "caption")]);
};

function headlineCell(context: Context, side: Side, item: ComparisonPoint): Headline["cells"][number] {
  const { display } = context;
  const notes = presentItems<string>([item.interpolated && "between readings", item.beyondCam && "beyond your cam"]);
  return {
    label: `${capitalize(side)} ${whereWords(item.at, display.full("lift", item.lift))}`,
    number: display.digits("flow", item.flow),
    unit: display.unit("flow"),
    ...(item.before !== undefined ? { was: [`was ${display.digits("flow", item.before)}`, ...notes].join(", ") } : {}),
    ...(item.verdict ? { verdict: loneVerdictWords(item, overallComparison(context, side)) } : {}),
    ...(item.before === undefined && notes.length > 0 ? { note: notes.join(", ") } : {}),
  };
}
