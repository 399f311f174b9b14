import type { Port, Side, Valve } from "../../model/model.ts";
import type { DrawnLabel, TrueSizeRow } from "../content.ts";
import { type BlockBuilder, type Context, camLift, endStages, flowedFigures, type SheetStage } from "../context.ts";
import { formatShortest } from "../display.ts";
import { type SectionPoint, type SectionPoints, type SectionSizes, sectionPoints } from "../drawing/section-points.ts";
import { sectionShapes, sectionToPaper } from "../drawing/section-shapes.ts";
import { polyline, scaleBar, tooLargeWords, trueSizeWords } from "../drawing/true-size.ts";
import { presentItems, section } from "../section.ts";
import { capitalize, joinWords } from "../words/text.ts";

/** Valve, seat and throat in section at 1 : 1, open by the cam's lift or the highest flowed. */
export const valveSection: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  // A section shows the seat's angles and widths, and nothing else that the table of sizes does not.
  if (!last || context.withheld.seat) return [];
  const drawn = context.sides.flatMap((side) => buildSections(context, last, side));
  if (drawn.length === 0) return [];
  return section(place, "Valve, seat and throat", [
    { kind: "true-size", figures: drawn.map(({ figure }) => figure), caption: caption(context, last, drawn) },
  ]);
};

type DrawnSection = {
  readonly side: Side;
  readonly figure: TrueSizeRow["figures"][number];
  readonly sizes: SectionSizes;
  readonly points: SectionPoints;
};

/** One drawing for each size of valve in the port. */
function buildSections(context: Context, stage: SheetStage, side: Side): readonly DrawnSection[] {
  const port = stage.stage.ports[side];
  const lift = drawnLift(context, stage, side);
  // A stale throat is not drawn.
  if (!port || !lift || port.stale.includes("throat")) return [];
  const unlike = port.valves.filter((one, i, all) => all.findIndex(({ head }) => head === one.head) === i);
  return unlike.flatMap((valve): DrawnSection[] => {
    const sizes = sectionSizes(port, valve, unlike.length === 1, lift.at);
    const points = sizes && sectionPoints(sizes);
    if (!sizes || !points) return [];
    const which =
      unlike.length === 1
        ? capitalize(side)
        : `${capitalize(side)}, ${formatShortest(context.display, "length", valve.head)}`;
    return [{ side, sizes, points, figure: sectionFigure(context, { side, which, lift: lift.words }, points, sizes) }];
  });
}

/** The lift drawn, and its origin in words. */
function drawnLift(context: Context, stage: SheetStage, side: Side): { at: number; words: string } | undefined {
  const cam = camLift(context, side);
  if (cam !== undefined) return { at: cam, words: `at your cam's lift, ${context.display.full("lift", cam)}` };
  const highest = Math.max(0, ...(flowedFigures(stage, side)?.readings ?? []).map(({ lift_m }) => lift_m));
  if (highest === 0) return undefined;
  return { at: highest, words: `at ${context.display.full("lift", highest)}, the highest lift flowed` };
}

function sectionSizes({ seat, throat }: Port, valve: Valve, alike: boolean, lift: number): SectionSizes | undefined {
  if (seat?.width === undefined || throat === undefined || valve.stem === undefined) return undefined;
  const { backCut } = valve;
  return {
    head: valve.head,
    stem: valve.stem,
    throat,
    seatAngle: seat.angle,
    seatWidth: seat.width,
    lift,
    bottomCuts: seat.bottom.map(({ angle }) => angle),
    ...(alike && seat.outside !== undefined ? { seatOutside: seat.outside } : {}),
    ...(valve.margin === undefined ? {} : { margin: valve.margin }),
    ...(backCut?.width === undefined ? {} : { backCut: { angle: backCut.angle, width: backCut.width } }),
    ...(seat.top === undefined ? {} : { topCut: seat.top.angle }),
  };
}

function sectionFigure(
  context: Context,
  { side, which, lift }: { side: Side; which: string; lift: string },
  points: SectionPoints,
  sizes: SectionSizes,
): DrawnSection["figure"] {
  const { display, theme } = context;
  const { shapes, top } = sectionShapes(points, sizes, theme.colors);
  const labels = sectionLabels(context, points, sizes, top);
  const words = labels.map(({ lines }) => lines.join(" "));
  const what = `${side} valve, seat and throat in section`;
  return {
    title: `${which} ${lift}`,
    drawing: { shapes: [...shapes, liftLine(points, theme.colors.ink)], labels, scaleBar: scaleBar(display) },
    alt: `Drawing at true size: ${what}, ${lift}. Sizes: ${words.join("; ")}. The valve stands open by the lift; the gap at the seat is what the air must pass.`,
    fallback: tooLargeWords(capitalize(what)),
  };
}

/** Dimension line of the lift, right of the valve: from its edge when shut to its edge as drawn. */
function liftLine({ shut, face }: SectionPoints, color: string) {
  const [right, wide] = [shut[0] + 0.0014, 0.0006];
  const ends: readonly SectionPoint[] = [
    [right - wide, shut[1]],
    [right + wide, shut[1]],
    [right, shut[1]],
    [right, face.outer[1]],
    [right - wide, face.outer[1]],
    [right + wide, face.outer[1]],
  ];
  return { steps: polyline(ends.map(sectionToPaper)), stroke: { color, width: 0.5, dash: [] } };
}

function sectionLabels(
  { display }: Context,
  points: SectionPoints,
  sizes: SectionSizes,
  top: number,
): readonly DrawnLabel[] {
  const { seat, cuts, face, shut, foot } = points;
  const length = (metres: number) => formatShortest(display, "length", metres);
  const angle = (value: number) => display.full("angle", value, 0);
  const middle = (a: SectionPoint, b: SectionPoint): SectionPoint => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const label = (text: string, at: SectionPoint): DrawnLabel => ({ lines: [text], at: sectionToPaper(at) });
  const { backCut, margin, topCut, bottomCuts, seatOutside } = sizes;
  return presentItems<DrawnLabel>([
    label(`Stem ${length(sizes.stem)}`, [points.stem, top - 0.002]),
    label(`Throat ${length(sizes.throat)}`, cuts.at(-1) as SectionPoint),
    points.cutsKnown &&
      label(
        `Bottom ${bottomCuts.length === 1 ? "cut" : "cuts"} ${bottomCuts.map(angle).join(", ")}`,
        middle(seat.inner, cuts[0] as SectionPoint),
      ),
    label(`Seat ${angle(sizes.seatAngle)}, ${length(sizes.seatWidth)}`, middle(seat.outer, seat.inner)),
    seatOutside !== undefined && label(`Seat outside ${length(seatOutside)}`, seat.outer),
    points.topCut && topCut !== undefined && label(`Top cut ${angle(topCut)}`, middle(seat.outer, points.topCut)),
    label(
      `Lift ${display.full("lift", sizes.lift)}`,
      middle([shut[0] + 0.0014, shut[1]], [shut[0] + 0.0014, face.outer[1]]),
    ),
    points.backCut &&
      backCut &&
      label(`Back cut ${angle(backCut.angle)}, ${length(backCut.width)}`, middle(face.inner, points.backCut)),
    label(`Valve ${length(sizes.head)}`, face.outer),
    margin !== undefined && label(`Margin ${length(margin)}`, foot),
  ]);
}

/** States what in the drawings is measured and what is convention. */
function caption({ display }: Context, { stage }: SheetStage, drawn: readonly DrawnSection[]): string {
  const some = (is: (one: DrawnSection) => boolean) => drawn.some(is);
  const again = drawn.flatMap(({ side }) => {
    const old = (stage.ports[side]?.notRemeasured ?? []).filter((key) => ["valve", "seat", "throat"].includes(key));
    return old.length === 0 ? [] : [`${side} ${joinWords(old)}`];
  });
  return presentItems<string>([
    trueSizeWords(display),
    "Dotted or broken off: not measured, such as the valve's back and the port above the throat.",
    some(({ points }) => !points.cutsKnown) && "The way from seat to throat is not stated.",
    some(({ sizes }) => sizes.margin === undefined) && "The margin of the valve is not stated.",
    "The valve's face is drawn as far as it meets the seat.",
    some(({ points, sizes }) => points.cutsKnown || sizes.topCut !== undefined) &&
      "Cuts beside the seat have their true angle; their width is not stated.",
    again.length > 0 && `Not re-measured: ${[...new Set(again)].join("; ")}.`,
  ]).join(" ");
}
