import { SIDES, type Side, type ValveLayout } from "../../model/model.ts";
import type { DrawnLabel, DrawnShape } from "../content.ts";
import { type BlockBuilder, type Context, endStages, type SheetStage } from "../context.ts";
import { sharedDecimals } from "../display.ts";
import { boreDistance, discDistance, type PlanDisc, type PlanDistance, tiltedDisc } from "../drawing/plan-distance.ts";
import { ellipse, polyline, scaleBar, tooLargeWords, trueSizeWords } from "../drawing/true-size.ts";
import { presentItems, section } from "../section.ts";
import { capitalize, joinWords } from "../words/text.ts";

/** Bore and valves seen along the bore at 1 : 1, valves shut, with the distances between them in plan. */
export const chamberPlan: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const layout = last?.stage.layout;
  if (!last || !layout) return [];
  const discs = placeValves(last, layout);
  if (discs.length === 0) return [];
  const { display, theme, model } = context;
  const bore = layout.bore ?? model.engine?.bore;
  const gaps = leastGaps(discs, bore);
  const decimals = sharedDecimals(
    display,
    "length",
    [...(bore === undefined ? [] : [bore]), ...discs.flatMap(({ head, disc }) => [head, ...disc.centre])].map((one) =>
      display.number("length", one),
    ),
  );
  const full = (metres: number) => display.full("length", metres, decimals);
  const labels = planLabels({ discs, bore, gaps }, full);
  const { ink, accent, quiet } = theme.colors;
  const shapes: readonly DrawnShape[] = [
    ...(bore === undefined
      ? []
      : [{ steps: ellipse(discToPaper(tiltedDisc([0, 0], bore, 0, 0))), stroke: { color: ink, width: 1, dash: [] } }]),
    ...centreCross([0, 0], quiet),
    ...discs.flatMap(({ disc }): DrawnShape[] => [
      { steps: ellipse(discToPaper(disc)), stroke: { color: accent, width: 1.75, dash: [] } },
      ...centreCross(disc.centre, quiet),
    ]),
    ...gaps.map(
      ({ from, to }): DrawnShape => ({
        steps: polyline([from, to].map(pointToPaper)),
        stroke: { color: ink, width: 1, dash: [] },
      }),
    ),
  ];
  const what = bore === undefined ? "Valves in plan" : "Bore and valves in plan";
  return section(place, "Chamber in plan", [
    {
      kind: "true-size",
      figures: [
        {
          title: "Valves shut, in plan",
          drawing: { shapes, labels, scaleBar: scaleBar(display) },
          alt: `Drawing at true size: ${what.toLowerCase()}, valves shut. ${[...new Set(labels.map(({ lines }) => `${lines.join(" ")}.`))].join(" ")} ${leastGapWords(gaps, full)}`,
          fallback: tooLargeWords(what),
        },
      ],
      caption: presentItems<string>([
        trueSizeWords(display),
        "Distances are calculated in plan, edge to edge; they are not what moving valves keep.",
        ...tiltWords(context, layout),
      ]).join(" "),
    },
  ]);
};

type PlacedValve = { readonly side: Side; readonly head: number; readonly disc: PlanDisc };

/** Every valve whose centre and size are known. */
function placeValves({ stage }: SheetStage, layout: ValveLayout): readonly PlacedValve[] {
  const tilt = tiltDirection(layout);
  return SIDES.flatMap((side) => {
    const valves = stage.ports[side]?.valves ?? [];
    const alike = new Set(valves.map(({ head }) => head)).size === 1;
    return layout[side].flatMap((centre, i): PlacedValve[] => {
      const head = (valves[i] ?? (alike ? valves[0] : undefined))?.head;
      return head === undefined
        ? []
        : [{ side, head, disc: tiltedDisc(centre, head, layout.angle?.[side] ?? 0, tilt) }];
    });
  });
}

/** Direction of tilt, from the exhaust's middle to the intake's; a job does not state it. */
function tiltDirection({ intake, exhaust }: ValveLayout): number {
  const middle = (centres: ValveLayout["intake"]) =>
    [0, 1].map((axis) => centres.reduce((sum, centre) => sum + (centre[axis] ?? 0), 0) / Math.max(1, centres.length));
  const [[x0 = 0, y0 = 0], [x1 = 0, y1 = 0]] = [middle(exhaust), middle(intake)] as const;
  return Math.atan2(y1 - y0, x1 - x0);
}

type Gap = PlanDistance & { readonly label: string };

/** The least distance of each kind: a side's valves, one side to the other, each side to the wall. */
function leastGaps(discs: readonly PlacedValve[], bore: number | undefined): readonly Gap[] {
  const gaps = discs.flatMap((one, i) => [
    ...discs.slice(i + 1).map((other): Gap => {
      const gap = discDistance(one.disc, other.disc);
      return { ...gap, label: gapLabel(one.side, other.side, gap.distance) };
    }),
    ...(bore === undefined ? [] : [{ ...boreDistance(one.disc, bore / 2), label: wallGapLabel(one, bore) }]),
  ]);
  // Of equal gaps the rightmost, nearest to its label.
  const right = ({ from, to }: Gap) => from[0] + to[0];
  const least = new Map<string, Gap>();
  for (const gap of gaps.toSorted((a, b) => right(b) - right(a))) {
    if (gap.distance < (least.get(gap.label)?.distance ?? Infinity) - 1e-9) least.set(gap.label, gap);
  }
  return [...least.values()];
}

const gapLabel = (a: Side, b: Side, distance: number) =>
  distance < 0 ? `${capitalize(a)} over ${b} by` : `${capitalize(a)} to ${b}`;
const wallGapLabel = ({ side, disc }: PlacedValve, bore: number) =>
  boreDistance(disc, bore / 2).distance < 0
    ? `${capitalize(side)} past bore wall by`
    : `${capitalize(side)} to bore wall`;

function planLabels(
  shown: { discs: readonly PlacedValve[]; bore: number | undefined; gaps: readonly Gap[] },
  full: (metres: number) => string,
): readonly DrawnLabel[] {
  const { discs, bore, gaps } = shown;
  // Clear of the cross on its centre.
  const named = discs.map(({ side, head, disc: { centre, across, along } }): DrawnLabel => {
    const room = 2 * Math.min(across, along);
    return {
      lines: [capitalize(side), full(head)],
      at: pointToPaper([centre[0], centre[1] - 0.2 * room]),
      inside: 1000 * 0.85 * room,
    };
  });
  return [
    ...(bore === undefined
      ? []
      : [{ lines: ["Bore", full(bore)], at: pointToPaper([(bore / 2) * Math.SQRT1_2, (bore / 2) * Math.SQRT1_2]) }]),
    ...named,
    ...gaps.map(
      ({ label, distance, from, to }): DrawnLabel => ({
        lines: [label, full(Math.abs(distance))],
        at: pointToPaper([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]),
      }),
    ),
  ];
}

function leastGapWords(gaps: readonly Gap[], full: (metres: number) => string): string {
  const least = gaps.toSorted((a, b) => a.distance - b.distance)[0];
  return least ? `The least distance in plan is ${least.label.toLowerCase()}, ${full(Math.abs(least.distance))}.` : "";
}

/** States the assumed direction of tilt, which a job does not give. */
function tiltWords({ display }: Context, { angle, intake, exhaust }: ValveLayout): readonly string[] {
  const angles = SIDES.flatMap((side) => (angle?.[side] ? [display.full("angle", angle[side], 0)] : []));
  if (angles.length === 0) return [];
  const way =
    intake.length > 0 && exhaust.length > 0 ? "the line from exhaust to intake" : "the line from the bore's centre";
  return [
    `Heads inclined by ${joinWords([...new Set(angles)])} show as ellipses: full diameter one way, × cos of the angle along ${way}.`,
  ];
}

/** A job counts upwards, paper downwards. */
const pointToPaper = ([x, y]: readonly [number, number]): readonly [number, number] => [x * 1000, -y * 1000];
const discToPaper = ({ centre, across, along, tilt }: PlanDisc): PlanDisc => ({
  centre: pointToPaper(centre),
  across: across * 1000,
  along: along * 1000,
  tilt: -tilt,
});

/** A small cross on a centre. */
function centreCross(centre: readonly [number, number], color: string): readonly DrawnShape[] {
  const [x, y] = pointToPaper(centre);
  const arm = 1.2;
  const stroke = { color, width: 0.5, dash: [] };
  return [
    {
      steps: polyline([
        [x - arm, y],
        [x + arm, y],
      ]),
      stroke,
    },
    {
      steps: polyline([
        [x, y - arm],
        [x, y + arm],
      ]),
      stroke,
    },
  ];
}
