/** Cylinders of a head as numbers of valves, and how much room their values need. */
export type PlanInput = {
  readonly cylinders: readonly { readonly intake: number; readonly exhaust: number }[];
  /** Values of each valve. */
  readonly values: number;
  /** Width of the widest value in large and in small type [pt], its box included. */
  readonly widest: { readonly large: number; readonly small: number };
  /** Width of the plan [pt]. */
  readonly width: number;
};

/** A valve: its circle, and where its values stand. `labelled`: whether its name fits inside the circle. */
export type PlacedPlanValve = {
  readonly cylinder: number;
  readonly side: "intake" | "exhaust";
  readonly index: number;
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly labelled: boolean;
  /** Top of the name where it stands above the circle. */
  readonly labelTop: number;
  /** Right edge of the values' column beside a circle, its middle under one. */
  readonly valuesX: number;
  readonly valuesTop: number;
};

/** A part of the head: its outline with the cylinders' dividers, from its own top. */
type PlanPart = {
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly middle: number;
  readonly dividers: readonly number[];
  /** Top of the values of each row, for their names at the left. */
  readonly valuesTops: readonly number[];
};

export type PlanGeometry = {
  readonly height: number;
  readonly beside: boolean;
  readonly lead: number;
  readonly parts: readonly PlanPart[];
  readonly valves: readonly PlacedPlanValve[];
};

/** A row holds so many circles at most. */
const MOST_IN_ROW = 12;
/** Heights of a plan with its values beside the circles, and the least radius under which a name stands above its circle. */
const BESIDE = { least: 112, most: 192 } as const;
const INSIDE = 18;
const LEADS = { large: 16, small: 12.2 } as const;
/** From an outline to circles and values; between a circle and its values; between parts; height of a name above. */
const PAD = 6;
const GAP = 3;
const BETWEEN = 8;
const NAME = 11;

type Cylinders = PlanInput["cylinders"];

/** Cylinders in as few parts as keep each row within its circles and each value within its own width. */
export function partsOf({ cylinders, widest, width }: PlanInput): readonly Cylinders[] {
  for (let count = 1; count <= cylinders.length; count++) {
    const size = Math.ceil(cylinders.length / count);
    const parts = Array.from({ length: count }, (_, i) => cylinders.slice(i * size, (i + 1) * size)).filter(
      (part) => part.length > 0,
    );
    const most = Math.max(...cylinders.map(({ intake, exhaust }) => Math.max(intake, exhaust))) * size;
    if (count === cylinders.length || (most <= MOST_IN_ROW && width / most >= widest.small)) return parts;
  }
  return [cylinders];
}

/** Whether values stand beside their circles: one valve a side, up to four cylinders, and room for them. */
function standsBeside({ cylinders, values, widest, width }: PlanInput): boolean {
  const single = cylinders.every(({ intake, exhaust }) => intake <= 1 && exhaust <= 1);
  if (!single || cylinders.length > 4 || values * LEADS.large + PAD > BESIDE.most / 2) return false;
  return PAD + 2 * 28 + GAP + widest.large + GAP <= width / cylinders.length;
}

const rowsOf = (part: Cylinders) =>
  (["intake", "exhaust"] as const).flatMap((side) => {
    const most = Math.max(0, ...part.map((cylinder) => cylinder[side]));
    return most > 0 ? [{ side, most }] : [];
  });

const fullRadius = (most: number, column: number) => Math.max(13, Math.min(28, column / most / 2 - GAP));

/** Least and most height of a plan [pt]. */
export function planHeights(input: PlanInput): readonly [least: number, most: number] {
  const parts = partsOf(input);
  if (standsBeside(input)) {
    const share = rowsOf(input.cylinders).length / 2;
    return [BESIDE.least * share, BESIDE.most * share];
  }
  const columns = Math.max(...parts.map((part) => part.length));
  const height = (shrunk: boolean) =>
    parts.reduce((sum, part, i) => {
      const rows = rowsOf(part).map(({ most }) => rowHeight(radius(most, input.width / columns, shrunk), input.values));
      return sum + rows.reduce((a, b) => a + b, 0) + (i > 0 ? BETWEEN : 0);
    }, 0);
  return [height(true), height(false)];
}

const radius = (most: number, column: number, shrunk: boolean) => {
  const full = fullRadius(most, column);
  return shrunk ? Math.min(full, INSIDE) : full;
};
const rowHeight = (r: number, values: number) =>
  PAD + (r < INSIDE ? NAME : 0) + 2 * r + GAP + values * LEADS.small + PAD;

/** Places every circle and every column of values in a height between least and most. */
export function placePlan(input: PlanInput, height: number): PlanGeometry {
  return standsBeside(input) ? placeBeside(input, height) : placeBelow(input, height);
}

function placeBeside(input: PlanInput, height: number): PlanGeometry {
  const { cylinders, values, width, widest } = input;
  const rows = rowsOf(cylinders);
  const large = height >= (BESIDE.most * rows.length) / 2 - 1e-6;
  const lead = large ? LEADS.large : LEADS.small;
  const column = width / cylinders.length;
  const band = height / rows.length;
  const radii = large ? { intake: 28, exhaust: 24 } : { intake: 25, exhaust: 21.5 };
  const room = large ? widest.large : widest.small;
  // Circle and values stand in the middle of a wide column.
  const used = 2 * radii.intake + GAP + room;
  const left = Math.min(PAD, (column - used) / 2) + Math.max(0, (column - used - 40) / 2);
  const valves = rows.flatMap(({ side }, row) =>
    cylinders.flatMap((cylinder, i): PlacedPlanValve[] =>
      cylinder[side] === 0
        ? []
        : [
            {
              cylinder: i,
              side,
              index: 0,
              cx: i * column + left + radii.intake,
              cy: row * band + band / 2,
              r: radii[side],
              labelled: true,
              labelTop: 0,
              valuesX: Math.min(i * column + left + used, (i + 1) * column - GAP),
              valuesTop: row * band + (band - values * lead) / 2,
            },
          ],
    ),
  );
  const valuesTops = rows.map((_, row) => row * band + (band - values * lead) / 2);
  const dividers = cylinders.slice(1).map((_, i) => (i + 1) * column);
  const part = { top: 0, width, height, middle: rows.length > 1 ? band : height, dividers, valuesTops };
  return { height, beside: true, lead, parts: [part], valves };
}

function placeBelow(input: PlanInput, height: number): PlanGeometry {
  const [least, most] = planHeights(input);
  const share = most > least ? Math.min(1, Math.max(0, (height - least) / (most - least))) : 1;
  const parts = partsOf(input);
  const column = input.width / Math.max(...parts.map((part) => part.length));
  const valves: PlacedPlanValve[] = [];
  const placed: PlanPart[] = [];
  let [top, first] = [0, 0];
  for (const part of parts) {
    let y = top;
    const valuesTops: number[] = [];
    const bottoms: number[] = [];
    for (const { side, most: count } of rowsOf(part)) {
      const [low, high] = [radius(count, column, true), radius(count, column, false)];
      const r = low + share * (high - low);
      const above = r < INSIDE ? NAME : 0;
      const valuesTop = y + PAD + above + 2 * r + GAP;
      part.forEach((cylinder, i) => {
        for (let index = 0; index < cylinder[side]; index++) {
          const cx = i * column + ((index + 0.5) * column) / cylinder[side];
          const cy = y + PAD + above + r;
          const name = { labelled: above === 0, labelTop: y + PAD - 1 };
          valves.push({ cylinder: first + i, side, index, cx, cy, r, ...name, valuesX: cx, valuesTop });
        }
      });
      valuesTops.push(valuesTop);
      y += rowHeight(r, input.values);
      bottoms.push(y);
    }
    const dividers = part.slice(1).map((_, i) => (i + 1) * column);
    placed.push({
      top,
      width: part.length * column,
      height: y - top,
      middle: (bottoms[0] ?? y) - top,
      dividers,
      valuesTops,
    });
    top = y + BETWEEN;
    first += part.length;
  }
  return { height: top - BETWEEN, beside: false, lead: LEADS.small, parts: placed, valves };
}
