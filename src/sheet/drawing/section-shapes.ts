import type { Theme } from "../../theme/theme.ts";
import type { DrawnShape, DrawnStep } from "../content.ts";
import type { SectionPoint, SectionPoints, SectionSizes } from "./section-points.ts";
import { polyline } from "./steps.ts";

/** From metres of radius and height to millimetres on paper, downwards. */
export const onPaper = ([radius, height]: SectionPoint): readonly [number, number] => [radius * 1000, -height * 1000];
const mirrored = ([radius, height]: SectionPoint): SectionPoint => [-radius, height];

/** How much of the head is shown beside seat and valve, and above the throat and the valve's back [m]. */
const BESIDE = 0.003;
const ABOVE = 0.009;
/** A valve's back, drawn by convention: its height over its width. */
const BACK = 0.7;

/** Both halves of a section. Solid: as measured. Dotted: by convention. Zigzag: here the head goes on, unmeasured. */
export function sectionShapes(
  points: SectionPoints,
  sizes: Pick<SectionSizes, "margin">,
  colors: Theme["colors"],
): { readonly shapes: readonly DrawnShape[]; readonly top: number } {
  const { seat, cuts, face, foot, stem } = points;
  const throat = cuts.at(-1) as SectionPoint;
  const chamber = points.topCut ?? seat.outer;
  const out = Math.max(chamber[0], face.outer[0]) + BESIDE;
  const back = points.backCut ?? face.inner;
  const neck: SectionPoint = [stem, back[1] + BACK * (back[0] - stem)];
  const top = Math.max(throat[1], neck[1]) + ABOVE;
  const known = { color: colors.ink, width: 1, dash: [] };
  const bold = { color: colors.accent, width: 1.75, dash: [] };
  const dotted = { color: colors.quiet, width: 0.6, dash: [1.2, 1.8] };
  const thin = { color: colors.quiet, width: 0.5, dash: [] };

  type Ink = NonNullable<DrawnShape["stroke"]>;
  const halves = (line: readonly SectionPoint[], stroke: Ink): readonly DrawnShape[] =>
    [line, line.map(mirrored)].map((half) => ({ steps: polyline(half.map(onPaper)), stroke }));
  const wall = [...(points.topCut ? [points.topCut] : []), seat.outer, seat.inner, ...cuts];
  const metal = [...wall, [throat[0], top], ...zigzag([throat[0], top], [out, top]), [out, chamber[1]]] as const;
  const valve: readonly SectionPoint[] = [foot, face.outer, face.inner, ...(points.backCut ? [points.backCut] : [])];
  const fills = [metal, metal.map(mirrored)].map(
    (half): DrawnShape => ({ steps: polyline(half.map(onPaper), true), fill: { color: colors.grid } }),
  );
  return {
    top,
    shapes: [
      ...fills,
      {
        steps: [
          ...polyline(valve.map(onPaper)),
          bend(back, neck),
          ...polyline([[stem, top] as const, [-stem, top] as const, mirrored(neck)].map(onPaper)).map(joined),
          bend(mirrored(neck), mirrored(back)),
          ...polyline(valve.toReversed().map(mirrored).map(onPaper)).map(joined),
          { kind: "close" },
        ],
        fill: { color: colors.grid },
      },
      ...halves([[throat[0], top], ...zigzag([throat[0], top], [out, top])], thin),
      ...halves([throat, [throat[0], top]], dotted),
      ...halves([chamber, [out, chamber[1]]], dotted),
      ...(points.topCut ? halves([points.topCut, seat.outer], known) : []),
      ...halves([seat.inner, ...cuts], points.cutsKnown ? known : dotted),
      ...halves([seat.outer, seat.inner], bold),
      // The valve: what is known of it, joined by what is usual.
      ...[back, mirrored(back)].map(
        (end, i): DrawnShape => ({
          steps: [{ kind: "move", to: onPaper(end) }, bend(end, i === 0 ? neck : mirrored(neck))],
          stroke: dotted,
        }),
      ),
      { steps: polyline([foot, mirrored(foot)].map(onPaper)), stroke: dotted },
      ...halves([face.outer, foot], sizes.margin === undefined ? dotted : known),
      ...(points.backCut ? halves([face.inner, points.backCut], known) : []),
      ...halves([neck, [stem, top]], known),
      { steps: polyline([[-stem, top] as const, ...zigzag([-stem, top], [stem, top])].map(onPaper)), stroke: thin },
      ...halves([face.outer, face.inner], bold),
      {
        steps: polyline([onPaper([0, top]), onPaper([0, foot[1]])]),
        stroke: { ...thin, dash: [8, 2, 1.5, 2] },
      },
    ],
  };
}

/** From the end of the face to the stem, or back: flat at the face, upright at the stem. */
function bend(from: SectionPoint, to: SectionPoint): DrawnStep {
  const [outer, inner] = Math.abs(from[0]) > Math.abs(to[0]) ? [from, to] : [to, from];
  const [wide, high] = [outer[0] - inner[0], inner[1] - outer[1]];
  const flat = onPaper([outer[0] - wide * 0.7, outer[1] + high * 0.15]);
  const upright = onPaper([inner[0], inner[1] - high * 0.6]);
  const [first, second] = outer === from ? [flat, upright] : [upright, flat];
  return { kind: "curve", first, second, to: onPaper(to) };
}

const joined = (step: DrawnStep): DrawnStep => (step.kind === "move" ? { kind: "line", to: step.to } : step);

/** The rest of a level line with a break in its middle, as draughtsmen draw what goes on. */
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
