/** A disc in plan, its plane tilted about an axis: `across` is half its extent along `tilt`, `along` half of that square to it. */
export type PlanDisc = {
  readonly centre: readonly [number, number];
  readonly across: number;
  readonly along: number;
  /** Direction in which the disc is foreshortened [rad]. */
  readonly tilt: number;
};

type Point = readonly [number, number];
export type PlanDistance = { readonly distance: number; readonly from: Point; readonly to: Point };

/** A tilted disc seen along the bore: D along the axis it is tilted about, D · cos(angle) square to it. */
export const tiltedDisc = (centre: Point, diameter: number, angle: number, tilt: number): PlanDisc => ({
  centre,
  across: (diameter / 2) * Math.cos(angle),
  along: diameter / 2,
  tilt,
});

/** Edge to edge of two discs in plan; less than zero by as much as they overlap. */
export function discDistance(a: PlanDisc, b: PlanDisc): PlanDistance {
  // Of two convex shapes: the widest strip that parts them, over all directions.
  const gap = (direction: number) =>
    projection(direction, b.centre) -
    projection(direction, a.centre) -
    supportRadius(a, direction) -
    supportRadius(b, direction);
  const direction = maximizeDirection(gap);
  return { distance: gap(direction), from: edgePoint(a, direction), to: edgePoint(b, direction + Math.PI) };
}

/** From a disc's edge to the wall of a bore about the origin; less than zero by as much as it reaches past it. */
export function boreDistance(disc: PlanDisc, radius: number): PlanDistance {
  const room = (direction: number) => radius - projection(direction, disc.centre) - supportRadius(disc, direction);
  const direction = maximizeDirection((one) => -room(one));
  const wall: Point = [radius * Math.cos(direction), radius * Math.sin(direction)];
  return { distance: room(direction), from: edgePoint(disc, direction), to: wall };
}

const projection = (direction: number, [x, y]: Point) => x * Math.cos(direction) + y * Math.sin(direction);

/** How far a disc reaches from its centre in a direction: the support function of an ellipse. */
const supportRadius = ({ across, along: other, tilt }: PlanDisc, direction: number) =>
  Math.hypot(across * Math.cos(direction - tilt), other * Math.sin(direction - tilt));

/** The point of its edge that lies furthest in a direction. */
function edgePoint(disc: PlanDisc, direction: number): Point {
  const [cos, sin] = [Math.cos(direction - disc.tilt), Math.sin(direction - disc.tilt)];
  const furthest = supportRadius(disc, direction);
  const [u, v] = [(disc.across ** 2 * cos) / furthest, (disc.along ** 2 * sin) / furthest];
  const [x, y] = disc.centre;
  return [x + u * Math.cos(disc.tilt) - v * Math.sin(disc.tilt), y + u * Math.sin(disc.tilt) + v * Math.cos(disc.tilt)];
}

const STEPS = 360;

/** The direction in which a smooth function is highest: the best of a round of steps, then thirds of its surroundings. */
function maximizeDirection(value: (direction: number) => number): number {
  const step = (2 * Math.PI) / STEPS;
  let best = 0;
  for (let i = 1; i < STEPS; i++) if (value(i * step) > value(best * step)) best = i;
  let [low, high] = [(best - 1) * step, (best + 1) * step];
  while (high - low > 1e-9) {
    const third = (high - low) / 3;
    if (value(low + third) < value(high - third)) low += third;
    else high -= third;
  }
  return (low + high) / 2;
}
