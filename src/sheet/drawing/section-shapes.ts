import type { Theme } from "../../theme/theme.ts";
import type { DrawnShape, DrawnStep } from "../content.ts";
import type { SectionPoint, SectionPoints, SectionSizes } from "./section-points.ts";
import { polyline } from "./true-size.ts";

/** From metres of radius and height to millimetres on paper, downwards. */
export const sectionToPaper = ([radius, height]: SectionPoint): readonly [number, number] => [
  radius * 1000,
  -height * 1000,
];
const mirror = ([radius, height]: SectionPoint): SectionPoint => [-radius, height];

/** How much of the head is shown beside seat and valve, and above the throat and the valve's back [m]. */
const BESIDE = 0.003;
const ABOVE = 0.009;
/** A valve's back, drawn by convention: its height over its width. */
const BACK = 0.7;

/** Both halves of a section. Solid: as measured. Dotted: by convention. Zigzag: the head goes on, unmeasured. */
export function sectionShapes(
  points: SectionPoints,
  sizes: Pick<SectionSizes, "margin">,
  colors: Theme["colors"],
): { readonly shapes: readonly DrawnShape[]; readonly top: number } {
  const outline = sectionOutline(points);
  const inks = sectionInks(colors);
  const { top } = outline;
  return {
    top,
    shapes: [
      ...headFills(points, outline, colors.grid),
      valveFill(points, outline, colors.grid),
      ...headLines(points, outline, inks),
      ...valveLines(points, outline, inks, sizes.margin !== undefined),
      {
        steps: polyline([sectionToPaper([0, top]), sectionToPaper([0, points.foot[1]])]),
        stroke: { ...inks.thin, dash: [8, 2, 1.5, 2] },
      },
    ],
  };
}

type Ink = NonNullable<DrawnShape["stroke"]>;
type Inks = Readonly<Record<"known" | "bold" | "dotted" | "thin", Ink>>;

const sectionInks = (colors: Theme["colors"]): Inks => ({
  known: { color: colors.ink, width: 1, dash: [] },
  bold: { color: colors.accent, width: 1.75, dash: [] },
  dotted: { color: colors.quiet, width: 0.6, dash: [1.2, 1.8] },
  thin: { color: colors.quiet, width: 0.5, dash: [] },
});

/** Corners that the head's and the valve's lines share. */
type Outline = {
  readonly throat: SectionPoint;
  readonly chamber: SectionPoint;
  /** Inner end of the valve's cut face, and where its back meets the stem. */
  readonly back: SectionPoint;
  readonly neck: SectionPoint;
  readonly out: number;
  readonly top: number;
};

function sectionOutline({ seat, cuts, face, stem, topCut, backCut }: SectionPoints): Outline {
  const throat = cuts.at(-1) as SectionPoint;
  const chamber = topCut ?? seat.outer;
  const back = backCut ?? face.inner;
  const neck: SectionPoint = [stem, back[1] + BACK * (back[0] - stem)];
  return {
    throat,
    chamber,
    back,
    neck,
    out: Math.max(chamber[0], face.outer[0]) + BESIDE,
    top: Math.max(throat[1], neck[1]) + ABOVE,
  };
}

/** A line of one half and its mirror image. */
const halves = (line: readonly SectionPoint[], stroke: Ink): readonly DrawnShape[] =>
  [line, line.map(mirror)].map((half) => ({ steps: polyline(half.map(sectionToPaper)), stroke }));

function headFills({ topCut, seat, cuts }: SectionPoints, outline: Outline, color: string): readonly DrawnShape[] {
  const { throat, chamber, out, top } = outline;
  const wall = [...(topCut ? [topCut] : []), seat.outer, seat.inner, ...cuts];
  const metal = [...wall, [throat[0], top], ...zigzag([throat[0], top], [out, top]), [out, chamber[1]]] as const;
  return [metal, metal.map(mirror)].map(
    (half): DrawnShape => ({ steps: polyline(half.map(sectionToPaper), true), fill: { color } }),
  );
}

function valveFill({ foot, face, backCut, stem }: SectionPoints, outline: Outline, color: string): DrawnShape {
  const { back, neck, top } = outline;
  const valve: readonly SectionPoint[] = [foot, face.outer, face.inner, ...(backCut ? [backCut] : [])];
  return {
    steps: [
      ...polyline(valve.map(sectionToPaper)),
      backCurve(back, neck),
      ...polyline([[stem, top] as const, [-stem, top] as const, mirror(neck)].map(sectionToPaper)).map(moveToLine),
      backCurve(mirror(neck), mirror(back)),
      ...polyline(valve.toReversed().map(mirror).map(sectionToPaper)).map(moveToLine),
      { kind: "close" },
    ],
    fill: { color },
  };
}

function headLines(
  points: SectionPoints,
  outline: Outline,
  { known, bold, dotted, thin }: Inks,
): readonly DrawnShape[] {
  const { seat, cuts, topCut, cutsKnown } = points;
  const { throat, chamber, out, top } = outline;
  return [
    ...halves([[throat[0], top], ...zigzag([throat[0], top], [out, top])], thin),
    ...halves([throat, [throat[0], top]], dotted),
    ...halves([chamber, [out, chamber[1]]], dotted),
    ...(topCut ? halves([topCut, seat.outer], known) : []),
    ...halves([seat.inner, ...cuts], cutsKnown ? known : dotted),
    ...halves([seat.outer, seat.inner], bold),
  ];
}

function valveLines(
  { face, foot, stem, backCut }: SectionPoints,
  { back, neck, top }: Outline,
  { known, bold, dotted, thin }: Inks,
  marginKnown: boolean,
): readonly DrawnShape[] {
  return [
    ...[back, mirror(back)].map(
      (end, i): DrawnShape => ({
        steps: [{ kind: "move", to: sectionToPaper(end) }, backCurve(end, i === 0 ? neck : mirror(neck))],
        stroke: dotted,
      }),
    ),
    { steps: polyline([foot, mirror(foot)].map(sectionToPaper)), stroke: dotted },
    ...halves([face.outer, foot], marginKnown ? known : dotted),
    ...(backCut ? halves([face.inner, backCut], known) : []),
    ...halves([neck, [stem, top]], known),
    {
      steps: polyline([[-stem, top] as const, ...zigzag([-stem, top], [stem, top])].map(sectionToPaper)),
      stroke: thin,
    },
    ...halves([face.outer, face.inner], bold),
  ];
}

/** From the end of the face to the stem, or back: flat at the face, upright at the stem. */
function backCurve(from: SectionPoint, to: SectionPoint): DrawnStep {
  const [outer, inner] = Math.abs(from[0]) > Math.abs(to[0]) ? [from, to] : [to, from];
  const [wide, high] = [outer[0] - inner[0], inner[1] - outer[1]];
  const flat = sectionToPaper([outer[0] - wide * 0.7, outer[1] + high * 0.15]);
  const upright = sectionToPaper([inner[0], inner[1] - high * 0.6]);
  const [first, second] = outer === from ? [flat, upright] : [upright, flat];
  return { kind: "curve", first, second, to: sectionToPaper(to) };
}

const moveToLine = (step: DrawnStep): DrawnStep => (step.kind === "move" ? { kind: "line", to: step.to } : step);

/** The rest of a level line with a break symbol in its middle. */
function zigzag([from, height]: SectionPoint, [to]: SectionPoint): readonly SectionPoint[] {
  const middle = (from + to) / 2;
  const step = Math.min(0.0007, Math.abs(to - from) / 6);
  return [
    [middle - step, height],
    [middle - step / 3, height + step],
    [middle + step / 3, height - step],
    [middle + step, height],
    [to, height],
  ];
}
