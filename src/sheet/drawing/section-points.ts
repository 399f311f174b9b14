/** Sizes of a valve, its seat and its throat, in metres and radians; angles from the face of the head. */
export type SectionSizes = {
  readonly head: number;
  readonly stem: number;
  readonly throat: number;
  readonly seatAngle: number;
  /** Along the face. */
  readonly seatWidth: number;
  /** Outside diameter of the seat; not stated: the valve's. */
  readonly seatOutside?: number;
  readonly lift: number;
  readonly margin?: number;
  readonly backCut?: { readonly angle: number; readonly width: number };
  readonly topCut?: number;
  /** From the seat inwards. */
  readonly bottomCuts: readonly number[];
};

/** Radius and height above the outer edge of the seat, up into the port. */
export type SectionPoint = readonly [radius: number, height: number];

/** One half of the section, point by point. */
export type SectionPoints = {
  readonly seat: { readonly outer: SectionPoint; readonly inner: SectionPoint };
  /** Inner ends of the bottom cuts, the last at the throat; at least that. */
  readonly cuts: readonly SectionPoint[];
  /** Whether those follow stated angles. */
  readonly cutsKnown: boolean;
  readonly topCut?: SectionPoint;
  /** The valve's face at this lift, as wide as it meets the seat. */
  readonly face: { readonly outer: SectionPoint; readonly inner: SectionPoint };
  /** Outer edge of the face with the valve shut. */
  readonly shut: SectionPoint;
  readonly backCut?: SectionPoint;
  /** Lower end of the margin. */
  readonly foot: SectionPoint;
  readonly stem: number;
};

/** Length of a top cut's face where only its angle is known, and of a margin that is not stated [m]. */
const TOP_CUT = 0.0012;
const MARGIN = 0.001;
/** From seat to throat where no cut is stated. */
const USUAL_CUT = Math.PI / 3;
/** Cuts steeper than this, as height over the valve's diameter, cannot all run to the throat. */
const HIGHEST = 0.4;

/**
 * Valve, seat and throat in section at one lift. Seat and valve face lie on cones of one angle, the valve's moved down by
 * the lift: the triangle from which Heywood (1988), §6.3.2, takes the smallest flow area. Undefined where sizes do not go together.
 */
export function sectionPoints(sizes: SectionSizes): SectionPoints | undefined {
  const { seatAngle, seatWidth, lift } = sizes;
  const [valve, stem, throat] = [sizes.head / 2, sizes.stem / 2, sizes.throat / 2];
  const outside = (sizes.seatOutside ?? sizes.head) / 2;
  const inside = outside - seatWidth * Math.cos(seatAngle);
  if (!(seatAngle > 0 && seatAngle < Math.PI / 2 && seatWidth > 0 && lift >= 0)) return undefined;
  // A throat measured as wide as the seat's inner edge may differ from it by the last digit.
  if (!(stem > 0 && throat > stem && inside >= throat * (1 - 1e-9) && valve > inside)) return undefined;
  const onCone = (radius: number): SectionPoint => [radius, (outside - radius) * Math.tan(seatAngle)];
  const lifted = ([radius, height]: SectionPoint): SectionPoint => [radius, height - lift];
  const inner = onCone(inside);
  const face = { outer: lifted(onCone(valve)), inner: lifted(inner) };
  const backCut = backCutEnd(face.inner, sizes.backCut, stem);
  return {
    seat: { outer: [outside, 0], inner },
    ...bottomCuts(inner, throat, sizes),
    ...(sizes.topCut === undefined
      ? {}
      : { topCut: [outside + TOP_CUT * Math.cos(sizes.topCut), -TOP_CUT * Math.sin(sizes.topCut)] as const }),
    face,
    shut: onCone(valve),
    ...(backCut ? { backCut } : {}),
    foot: [valve, face.outer[1] - (sizes.margin ?? MARGIN)],
    stem,
  };
}

/** Widths of cuts are not stated: they share the way to the throat, each at its angle. */
function bottomCuts(
  [radius, height]: SectionPoint,
  throat: number,
  { bottomCuts: angles, head }: SectionSizes,
): Pick<SectionPoints, "cuts" | "cutsKnown"> {
  const share = (radius - throat) / Math.max(1, angles.length);
  const ends: SectionPoint[] = [];
  let rise = height;
  for (const [i, angle] of angles.entries()) {
    rise += share * Math.tan(angle);
    ends.push([radius - (i + 1) * share, rise]);
  }
  if (ends.length > 0 && rise - height <= HIGHEST * head) return { cuts: ends, cutsKnown: true };
  return { cuts: [[throat, height + (radius - throat) * Math.tan(USUAL_CUT)]], cutsKnown: false };
}

function backCutEnd(
  [radius, height]: SectionPoint,
  cut: SectionSizes["backCut"],
  stem: number,
): SectionPoint | undefined {
  if (!cut) return undefined;
  const end = radius - cut.width * Math.cos(cut.angle);
  return end > stem ? [end, height + cut.width * Math.sin(cut.angle)] : undefined;
}
