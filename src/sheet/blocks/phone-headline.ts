import type { Side } from "../../model/model.ts";
import { type ComparisonPoint, headlinePoints, leadingPoint } from "../compared.ts";
import type { Headline } from "../content.ts";
import { type Context, overallComparison } from "../context.ts";
import { headlineDecimals, headlineNumber } from "../words/headline-number.ts";
import { whereLabel } from "../words/method.ts";
import { capitalize } from "../words/text.ts";
import { changeWords, verdictAt } from "./flow-panels.ts";

type Cell = Headline["cells"][number];

/** On a phone: both sides in one row where each has one number; else a row a side, with one verdict where all agree. */
export function phoneHeadline(context: Context): readonly Headline[] {
  // Where the cam of one side is known, each side has the one number that its panel leads with.
  const single = context.sides.some((side) => headlinePoints(context, side)[0]?.at === "cam");
  const sides = context.sides.flatMap((side) => {
    const named = single ? [] : headlinePoints(context, side);
    const leading = leadingPoint(context, side);
    const points = named.length > 0 ? named : leading ? [leading] : [];
    return points.length > 0 ? [{ side, points }] : [];
  });
  if (sides.length === 0) return [];
  const decimals = headlineDecimals(
    context,
    sides.flatMap(({ points }) => points),
  );
  if (sides.every(({ points }) => points.length === 1)) {
    const cells = sides.map(({ side, points: [point] }) =>
      phoneCell(context, side, point!, `${capitalize(side)}, ${placeWords(point!, context)}`, decimals),
    );
    return [{ kind: "headline", large: true, cells }];
  }
  return sides.map(({ side, points }): Headline => {
    const cells = points.map((point) => phoneCell(context, side, point, placeWords(point, context), decimals));
    const title = `${capitalize(side)} flow`;
    const [first] = cells;
    const verdict = first?.verdict;
    const agreed = verdict !== undefined && cells.every((cell) => cell.verdict?.text === verdict.text);
    if (!agreed || cells.length < 2) return { kind: "headline", large: cells.length < 2, title, cells };
    const plain = cells.map(({ verdict: _, ...cell }) => cell);
    return { kind: "headline", large: true, title, cells: plain, verdict };
  });
}

/** "your cam's 0.420 in", "low, 2 mm". */
function placeWords({ at, lift }: ComparisonPoint, { display }: Context): string {
  const where = display.full("lift", lift);
  if (at === "cam") return `your cam's ${where}`;
  const label = whereLabel(at)?.replace(/ lift$/, "");
  return label === undefined ? `at ${where}` : `${label}, ${where}`;
}

function phoneCell(context: Context, side: Side, point: ComparisonPoint, label: string, decimals: number): Cell {
  const pair = overallComparison(context, side);
  const number = { number: headlineNumber(context, point.flow, decimals), unit: context.display.unit("flow") };
  if (point.before === undefined) return { label, ...number };
  const { verdict } = verdictAt(point, pair, false);
  const change = changeWords(point, pair);
  const was = `was ${headlineNumber(context, point.before, decimals)}`;
  return {
    label,
    ...number,
    was: change === "" ? was : `${was}, ${change}`,
    ...(verdict ? { verdict: { mark: verdict.mark ?? "unknown", text: verdict.text } } : {}),
  };
}
