import type { ReadPage, ReadPath, ReadText } from "../pdf/read-back.ts";

/** A chart's panel as somebody with a ruler would read it: from tick labels to scales, from marks to numbers. */
export type ReadPanel = {
  readonly marks: readonly {
    readonly x: number;
    readonly y: number;
    readonly filled: string;
    readonly stroke: string;
  }[];
};

const near = (a: number, b: number, by = 0.3) => Math.abs(a - b) <= by;
const isLine = ({ points }: ReadPath) => points.length === 2;
const extent = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;

/** Every panel of a page that has numbers along both axes. */
export function readPanels(page: ReadPage): readonly ReadPanel[] {
  const axes = page.paths.filter(
    (path) => isLine(path) && path.stroke?.width === 0.75 && path.points[0]![1] === path.points[1]![1],
  );
  return axes.flatMap((axis) => {
    const [left, right] = extent(axis.points.map(([x]) => x));
    const bottom = axis.points[0]![1];
    const lines = page.paths.filter(isLine);
    const grid = lines.filter(
      ({ points: [a, b], stroke }) =>
        stroke?.width === 0.5 && near(a![1], b![1], 0.001) && near(a![0], left) && near(b![0], right),
    );
    const ticks = lines.filter(
      ({ points: [a, b], stroke }) =>
        stroke?.width === 0.5 &&
        near(a![0], b![0], 0.001) &&
        near(a![1], bottom) &&
        b![1] > bottom &&
        b![1] < bottom + 6 &&
        a![0] > left - 1 &&
        a![0] < right + 1,
    );
    const top = Math.min(bottom, ...grid.map(({ points }) => points[0]![1]));
    if (ticks.length === 0) return readBarePanel(page, { left, right, bottom }, grid);
    const x = scale(
      ticks.map(({ points }) => points[0]![0]),
      (at) =>
        page.texts.find((text) => near(text.x + text.width / 2, at, 1.5) && text.y > bottom && text.y < bottom + 16),
    );
    const y = scale(
      grid.map(({ points }) => points[0]![1]),
      (at) => page.texts.find((text) => text.x + text.width < left && text.x > left - 40 && near(text.y - 3, at, 2.5)),
    );
    if (!x || !y) return [];
    return [{ marks: readMarks(page, { left, right, top: top - 5, bottom: bottom + 5 }, x, y) }];
  });
}

type Frame = { readonly left: number; readonly right: number; readonly bottom: number };
type Scale = (place: number) => number;

/** Largest mark, a ring round a reading [pt]; a ground is larger. */
const LARGEST = 12;

/** Filled shapes with an outline, by their middles. */
function readMarks(
  page: ReadPage,
  { left, right, top, bottom }: Frame & { readonly top: number },
  x: Scale,
  y: Scale,
): ReadPanel["marks"] {
  const inside = ({ points }: ReadPath) => {
    const [x1, x2] = extent(points.map(([px]) => px));
    return x2 - x1 < LARGEST && points.every(([px, py]) => px > left - 5 && px < right + 5 && py > top && py < bottom);
  };
  return page.paths
    .filter((path) => path.fill !== undefined && path.stroke !== undefined && path.points.length > 3 && inside(path))
    .map(({ points, fill, stroke }) => {
      const [x1, x2] = extent(points.map(([px]) => px));
      const [y1, y2] = extent(points.map(([, py]) => py));
      return { x: x((x1 + x2) / 2), y: y((y1 + y2) / 2), filled: fill!, stroke: stroke!.color };
    });
}

/** Height over the topmost line, where the highest mark may stand [pt]. */
const OVER = 48;

/**
 * A panel without ticks: labels of y stand on their grid lines at the left edge inside the plot, the unit after the topmost;
 * numbers of x in the row below it that begins with the axis' name, each under its place.
 */
function readBarePanel(
  page: ReadPage,
  { left, right, bottom }: Frame,
  grid: readonly ReadPath[],
): readonly ReadPanel[] {
  const feet = page.texts.filter((text) => near(text.x, left, 0.5) && /^(lift, |cylinder)/.test(text.text));
  const foot = Math.min(...feet.map((text) => text.y).filter((at) => at > bottom));
  const above = Math.max(0, ...feet.map((text) => text.y).filter((at) => at < bottom));
  const own = grid.map(({ points }) => points[0]![1]).filter((at) => at > above && at < foot);
  const y = scale([bottom, ...own], (at) =>
    at === bottom ? { text: "0" } : page.texts.find((text) => near(text.x, left, 0.5) && near(at - text.y, 2.5, 0.6)),
  );
  const numbers = page.texts.filter((text) => near(text.y, foot, 0.1) && text.x > left && text.x < right);
  const middle = (text: ReadText) => text.x + text.width / 2;
  const x = scale(numbers.map(middle), (at) => numbers.find((text) => middle(text) === at));
  if (!x || !y) return [];
  return [{ marks: readMarks(page, { left, right, top: Math.min(bottom, ...own) - OVER, bottom: foot }, x, y) }];
}

/** From two labelled ticks, the furthest apart, to a scale. */
function scale(
  places: readonly number[],
  labelAt: (place: number) => Pick<ReadText, "text"> | undefined,
): ((place: number) => number) | undefined {
  const known = places.flatMap((place) => {
    const label = labelAt(place);
    const value = label && Number(label.text.replace("−", "-").replace(/\s.*$/u, ""));
    return value === undefined || Number.isNaN(value) ? [] : [{ place, value }];
  });
  const first = known.reduce((a, b) => (b.value < a.value ? b : a), known[0]!);
  const last = known.reduce((a, b) => (b.value > a.value ? b : a), known[0]!);
  if (known.length < 2 || first.value === last.value) return undefined;
  const slope = (last.value - first.value) / (last.place - first.place);
  return (place) => first.value + (place - first.place) * slope;
}
