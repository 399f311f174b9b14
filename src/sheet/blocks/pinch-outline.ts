import type { Port, RoundedRectangle, Side } from "../../model/model.ts";
import type { DrawnLabel, TrueSizeRow } from "../content.ts";
import type { BlockBuilder, Context, SheetStage } from "../context.ts";
import { sharedDecimals } from "../display.ts";
import { roundedRectangle, scaleBar, tooLargeWords, trueSizeWords } from "../drawing/true-size.ts";
import { presentItems, section } from "../section.ts";
import { capitalize, joinWords } from "../words/text.ts";

/** An outline that a job can state by width, height and corner. */
type OutlineKind = {
  readonly name: "pinch" | "opening";
  readonly shape: (port: Port) => RoundedRectangle | undefined;
  readonly alike: (port: Port) => number;
};

const OUTLINE_KINDS: readonly OutlineKind[] = [
  { name: "pinch", shape: ({ pinch }) => pinch?.shape, alike: ({ pinch }) => pinch?.count ?? 1 },
  { name: "opening", shape: ({ opening }) => opening, alike: () => 1 },
];

/** Pinch and port opening at 1 : 1, before and after on one centre; nothing for a mere area, which has no outline. */
export const pinchOutline: BlockBuilder = (context, place) => {
  const drawn = OUTLINE_KINDS.filter(({ name }) => name !== "pinch" || !context.withheld.pinch).flatMap((where) => {
    const figures = context.sides.flatMap((side) => outlineFigures(context, where, side));
    return figures.length === 0 ? [] : [{ where, figures }];
  });
  // An opening that did not change says in its numbers what an outline could.
  const changed = ({ figures }: (typeof drawn)[number]) => figures.some(({ drawing }) => drawing.shapes.length > 1);
  const shown = drawn.length > 1 && drawn.some(changed) ? drawn.filter(changed) : drawn;
  if (shown.length === 0) return [];
  return section(place, `Outline of the ${joinWords(shown.map(({ where }) => where.name))}`, [
    {
      kind: "true-size",
      figures: shown.flatMap(({ figures }) => figures),
      caption: `${trueSizeWords(context.display)} Drawn from width, height and corner, on one centre.`,
    },
  ]);
};

type Outline = { readonly stage: SheetStage; readonly shape: RoundedRectangle; readonly alike: number };

function outlineFigures(context: Context, where: OutlineKind, side: Side): TrueSizeRow["figures"] {
  // As on a chart: each stage that measured it, the latest over the others.
  const outlines = context.stages.flatMap((stage): Outline[] => {
    const port = stage.stage.ports[side];
    const shape = port && where.shape(port);
    if (!port || !shape || stage.repeat || port.notRemeasured.includes(where.name)) return [];
    return [{ stage, shape, alike: where.alike(port) }];
  });
  if (outlines.length === 0) return [];
  const name = `${side} ${where.name}`;
  const labels = outlineLabels(context, outlines);
  return [
    {
      title: capitalize(name),
      drawing: {
        shapes: outlines.map(({ stage, shape: { width, height, corner } }) => ({
          steps: roundedRectangle(width * 1000, height * 1000, corner * 1000),
          stroke: { color: stage.style.color, width: stage.style.width, dash: stage.style.dash },
        })),
        labels,
        scaleBar: scaleBar(context.display),
      },
      alt: presentItems<string>([
        `Drawing at true size: outline of the ${name}.`,
        ...labels.map(({ lines: [stage, ...sizes] }) => `${stage}: ${sizes.join(", ")}.`),
        changeWords(context, outlines),
      ]).join(" "),
      fallback: tooLargeWords(capitalize(name)),
    },
  ];
}

function outlineLabels({ display }: Context, outlines: readonly Outline[]): readonly DrawnLabel[] {
  const all = outlines.flatMap(({ shape: { width, height, corner } }) => [width, height, corner]);
  const decimals = sharedDecimals(
    display,
    "length",
    all.map((one) => display.number("length", one)),
  );
  const full = (metres: number) => display.full("length", metres, decimals);
  return outlines.map(({ stage, shape: { width, height, corner }, alike }, i): DrawnLabel => {
    // Along the right side, which earlier and later outlines share the more the further from its middle.
    const y = (0.5 - (i + 1) / (outlines.length + 1)) * -(height - 2 * corner);
    return {
      lines: presentItems<string>([
        stage.name,
        `${display.digits("length", width, decimals)} × ${full(height)}`,
        corner > 0 ? `corner ${full(corner)}` : "square corners",
        alike > 1 && `${alike} alike`,
      ]),
      at: [width * 500, y * 1000],
      color: stage.style.label,
    };
  });
}

/** How the last outline differs from the first. */
function changeWords({ display }: Context, outlines: readonly Outline[]): string | undefined {
  const [first, last] = [outlines[0], outlines.at(-1)];
  if (!first || !last || first === last) return undefined;
  const by = (more: number, larger: string, smaller: string) =>
    Math.abs(more) < 1e-7 ? undefined : `${display.full("length", Math.abs(more))} ${more > 0 ? larger : smaller}`;
  const steps = presentItems<string>([
    by(last.shape.width - first.shape.width, "wider", "narrower"),
    by(last.shape.height - first.shape.height, "higher", "lower"),
  ]);
  return steps.length === 0
    ? `${last.stage.name} is as wide and as high as ${first.stage.name}.`
    : `${last.stage.name} is ${joinWords(steps)} than ${first.stage.name}.`;
}
