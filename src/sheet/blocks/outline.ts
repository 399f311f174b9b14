import type { RoundedRectangle, Side } from "../../model/model.ts";
import type { DrawnLabel, TrueSize } from "../content.ts";
import { type BlockBuilder, type Context, endStages, overallComparison } from "../context.ts";
import { formatSignedPercentDigits, sharedDecimals } from "../display.ts";
import { roundedRectangle, scaleBar, tooLargeWords } from "../drawing/true-size.ts";
import { section } from "../section.ts";
import { averageVerdict } from "../words/average-change.ts";
import { capitalize } from "../words/text.ts";

/** A larger outline does not stand on a first page [m]: 150 by 140 points. */
const LARGEST = { width: 0.0529, height: 0.0494 } as const;
/** A smaller change of area is none that the eye can see. */
const LEAST_CHANGE = 0.005;

type Outline = { readonly side: Side; readonly before: RoundedRectangle; readonly after: RoundedRectangle };

/** The pinch of the side that gained most, before and after on one centre; nothing without measured width, height and corner. */
export const outline: BlockBuilder = (context, place) => {
  if (context.withheld.pinch) return [];
  const gain = ({ side }: Outline) => {
    const pair = overallComparison(context, side);
    return pair && averageVerdict(pair) === "clear gain" ? (pair.mean_change_ratio ?? 0) : 0;
  };
  const [shown] = context.sides
    .flatMap((side) => pinchOf(context, side))
    .toSorted((a, b) => gain(b) - gain(a) || Math.abs(areaChange(b)) - Math.abs(areaChange(a)));
  if (!shown) return [];
  const name = `${capitalize(shown.side)} pinch`;
  const sizes = sizeWords(context, shown);
  const figure = {
    title: "",
    drawing: drawOutlines(context, shown),
    alt: `Drawing at true size: outline of the ${shown.side} pinch, ${sizes}. Area ${areaWords(shown)}, calculated.`,
    fallback: tooLargeWords(name),
  };
  const caption = `${capitalize(sizes)}, dashed. Area calculated.`;
  return section(place, `${name}, true size`, [{ kind: "true-size", figures: [figure], caption }]);
};

function pinchOf(context: Context, side: Side): readonly Outline[] {
  const { first, last } = endStages(context);
  const port = last?.stage.ports[side];
  const before = first?.stage.ports[side]?.pinch?.shape;
  const after = port?.pinch?.shape;
  if (!before || !after || port.notRemeasured.includes("pinch")) return [];
  const fits = [before, after].every(({ width, height }) => width <= LARGEST.width && height <= LARGEST.height);
  const found = { side, before, after };
  return fits && Math.abs(areaChange(found)) >= LEAST_CHANGE ? [found] : [];
}

const area = ({ width, height, corner }: RoundedRectangle) => width * height - (4 - Math.PI) * corner * corner;
const areaChange = ({ before, after }: Outline) => area(after) / area(before) - 1;
const areaWords = (shown: Outline) => `${formatSignedPercentDigits(areaChange(shown), 0)}\u00a0%`;

function sizeWords({ display }: Context, { before, after }: Outline): string {
  const all = [before, after].flatMap(({ width, height }) => [width, height]);
  const decimals = sharedDecimals(
    display,
    "length",
    all.map((one) => display.number("length", one)),
  );
  const words = ({ width, height }: RoundedRectangle, unit: boolean) =>
    `${display.digits("length", width, decimals)} × ${unit ? display.full("length", height, decimals) : display.digits("length", height, decimals)}`;
  return `${words(after, true)}; was ${words(before, false)}`;
}

/** The ring between them tinted: the larger filled, the smaller white over it, then both lines. */
function drawOutlines({ display, theme }: Context, shown: Outline): TrueSize {
  const { before, after } = shown;
  const steps = ({ width, height, corner }: RoundedRectangle) =>
    roundedRectangle(width * 1000, height * 1000, corner * 1000);
  const [earlier] = theme.series.earlier;
  const [larger, smaller] = area(after) >= area(before) ? [after, before] : [before, after];
  const line = ({ color, width, dash }: typeof theme.series.latest) => ({ color, width, dash });
  const inside = Math.min(before.width, after.width) * 1000 * 0.8;
  const middle: DrawnLabel = { lines: ["area", areaWords(shown)], at: [0, 0], inside, color: theme.colors.ink };
  return {
    shapes: [
      { steps: steps(larger), fill: { color: theme.colors.tint } },
      { steps: steps(smaller), fill: { color: theme.colors.paper } },
      ...(earlier ? [{ steps: steps(before), stroke: line(earlier) }] : []),
      { steps: steps(after), stroke: line(theme.series.latest) },
    ],
    labels: [middle],
    scaleBar: scaleBar(display),
  };
}
