import { SIDES, type Side, type ValveLayout } from "../../model/model.ts";
import type { DrawnLabel, DrawnShape } from "../content.ts";
import { type BlockBuilder, type Context, endStages, type SheetStage } from "../context.ts";
import { tidyDecimals } from "../display.ts";
import { discToBore, discToDisc, type PlanDisc, type PlanDistance, tiltedDisc } from "../drawing/plan-distance.ts";
import { ellipse, polyline } from "../drawing/steps.ts";
import { scaleBar, tooLarge, trueSize } from "../drawing/true-size-words.ts";
import { said, section } from "../section.ts";
import { capital, joinWords } from "../words/text.ts";

/** Bore and valves seen along the bore at 1 : 1, valves shut, with the distances between them in plan. */
export const chamberPlan: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const layout = last?.stage.layout;
  if (!last || !layout) return [];
  const discs = discsOf(last, layout);
  if (discs.length === 0) return [];
  const { display, theme, model } = context;
  const bore = layout.bore ?? model.engine?.bore;
  const gaps = distances(discs, bore);
  const decimals = tidyDecimals(
    display,
    "length",
    [...(bore === undefined ? [] : [bore]), ...discs.flatMap(({ head, disc }) => [head, ...disc.centre])].map((one) =>
      display.number("length", one),
    ),
  );
  const full = (metres: number) => display.full("length", metres, decimals);
  const labels = labelsOf({ discs, bore, gaps }, full);
  const { ink, accent, quiet } = theme.colors;
  const shapes: readonly DrawnShape[] = [
    ...(bore === undefined
      ? []
      : [{ steps: ellipse(onPaper(tiltedDisc([0, 0], bore, 0, 0))), stroke: { color: ink, width: 1, dash: [] } }]),
    ...crossAt([0, 0], quiet),
    ...discs.flatMap(({ disc }): DrawnShape[] => [
      { steps: ellipse(onPaper(disc)), stroke: { color: accent, width: 1.75, dash: [] } },
      ...crossAt(disc.centre, quiet),
    ]),
    ...gaps.map(
      ({ from, to }): DrawnShape => ({
        steps: polyline([from, to].map(inMillimetres)),
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
          alt: `Drawing at true size: ${what.toLowerCase()}, valves shut. ${[...new Set(labels.map(({ lines }) => `${lines.join(" ")}.`))].join(" ")} ${smallest(gaps, full)}`,
          otherwise: tooLarge(what),
        },
      ],
      caption: said<string>([
        trueSize(display),
        "Distances are calculated in plan, edge to edge; they are not what moving valves keep.",
        ...leaning(context, layout),
      ]).join(" "),
    },
  ]);
};

type Placed = { readonly side: Side; readonly head: number; readonly disc: PlanDisc };

/** Every valve whose centre and size are known. */
function discsOf({ stage }: SheetStage, layout: ValveLayout): readonly Placed[] {
  const tilt = tiltOf(layout);
  return SIDES.flatMap((side) => {
    const valves = stage.ports[side]?.valves ?? [];
    const alike = new Set(valves.map(({ head }) => head)).size === 1;
    return layout[side].flatMap((centre, i): Placed[] => {
      const head = (valves[i] ?? (alike ? valves[0] : undefined))?.head;
      return head === undefined
        ? []
        : [{ side, head, disc: tiltedDisc(centre, head, layout.angle?.[side] ?? 0, tilt) }];
    });
  });
}

/** From the exhaust's middle to the intake's: the way that valves lean, where nobody says otherwise. */
function tiltOf({ intake, exhaust }: ValveLayout): number {
  const middle = (centres: ValveLayout["intake"]) =>
    [0, 1].map((axis) => centres.reduce((sum, centre) => sum + (centre[axis] ?? 0), 0) / Math.max(1, centres.length));
  const [[x0 = 0, y0 = 0], [x1 = 0, y1 = 0]] = [middle(exhaust), middle(intake)] as const;
  return Math.atan2(y1 - y0, x1 - x0);
}

type Gap = PlanDistance & { readonly label: string };

/** The least distance of each kind: a side's valves, one side to the other, each side to the wall. */
function distances(discs: readonly Placed[], bore: number | undefined): readonly Gap[] {
  const gaps = discs.flatMap((one, i) => [
    ...discs.slice(i + 1).map((other): Gap => {
      const gap = discToDisc(one.disc, other.disc);
      return { ...gap, label: words(one.side, other.side, gap.distance) };
    }),
    ...(bore === undefined ? [] : [{ ...discToBore(one.disc, bore / 2), label: wallWords(one, bore) }]),
  ]);
  // Of alike ones the rightmost, which is the nearest to its words.
  const right = ({ from, to }: Gap) => from[0] + to[0];
  const least = new Map<string, Gap>();
  for (const gap of gaps.toSorted((a, b) => right(b) - right(a))) {
    if (gap.distance < (least.get(gap.label)?.distance ?? Infinity) - 1e-9) least.set(gap.label, gap);
  }
  return [...least.values()];
}

const words = (a: Side, b: Side, distance: number) =>
  distance < 0 ? `${capital(a)} over ${b} by` : `${capital(a)} to ${b}`;
const wallWords = ({ side, disc }: Placed, bore: number) =>
  discToBore(disc, bore / 2).distance < 0 ? `${capital(side)} past bore wall by` : `${capital(side)} to bore wall`;

function labelsOf(
  shown: { discs: readonly Placed[]; bore: number | undefined; gaps: readonly Gap[] },
  full: (metres: number) => string,
): readonly DrawnLabel[] {
  const { discs, bore, gaps } = shown;
  // Clear of the cross on its centre.
  const named = discs.map(({ side, head, disc: { centre, across, along } }): DrawnLabel => {
    const room = 2 * Math.min(across, along);
    return {
      lines: [capital(side), full(head)],
      at: inMillimetres([centre[0], centre[1] - 0.2 * room]),
      inside: 1000 * 0.85 * room,
    };
  });
  return [
    ...(bore === undefined
      ? []
      : [{ lines: ["Bore", full(bore)], at: inMillimetres([(bore / 2) * Math.SQRT1_2, (bore / 2) * Math.SQRT1_2]) }]),
    ...named,
    ...gaps.map(
      ({ label, distance, from, to }): DrawnLabel => ({
        lines: [label, full(Math.abs(distance))],
        at: inMillimetres([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]),
      }),
    ),
  ];
}

function smallest(gaps: readonly Gap[], full: (metres: number) => string): string {
  const least = gaps.toSorted((a, b) => a.distance - b.distance)[0];
  return least ? `The least distance in plan is ${least.label.toLowerCase()}, ${full(Math.abs(least.distance))}.` : "";
}

/** Which way inclined valves lean is not stated in a job: say what was taken. */
function leaning({ display }: Context, { angle, intake, exhaust }: ValveLayout): readonly string[] {
  const angles = SIDES.flatMap((side) => (angle?.[side] ? [display.full("angle", angle[side], 0)] : []));
  if (angles.length === 0) return [];
  const way =
    intake.length > 0 && exhaust.length > 0 ? "the line from exhaust to intake" : "the line from the bore's centre";
  return [
    `Heads inclined by ${joinWords([...new Set(angles)])} show as ellipses: full diameter one way, × cos of the angle along ${way}.`,
  ];
}

/** A job counts upwards, paper downwards. */
const inMillimetres = ([x, y]: readonly [number, number]): readonly [number, number] => [x * 1000, -y * 1000];
const onPaper = ({ centre, across, along, tilt }: PlanDisc): PlanDisc => ({
  centre: inMillimetres(centre),
  across: across * 1000,
  along: along * 1000,
  tilt: -tilt,
});

/** A small cross on a centre. */
function crossAt(centre: readonly [number, number], color: string): readonly DrawnShape[] {
  const [x, y] = inMillimetres(centre);
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
