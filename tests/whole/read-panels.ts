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
      ({ points: [a, b] }) =>
        near(a![0], b![0], 0.001) &&
        near(a![1], bottom) &&
        b![1] > bottom &&
        b![1] < bottom + 6 &&
        a![0] > left - 1 &&
        a![0] < right + 1,
    );
    const top = Math.min(bottom, ...grid.map(({ points }) => points[0]![1]));
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
    const inside = ({ points }: ReadPath) =>
      points.every(([px, py]) => px > left - 5 && px < right + 5 && py > top - 5 && py < bottom + 5);
    const marks = page.paths
      .filter((path) => path.fill !== undefined && path.stroke !== undefined && path.points.length > 3 && inside(path))
      .map(({ points, fill, stroke }) => {
        const [x1, x2] = extent(points.map(([px]) => px));
        const [y1, y2] = extent(points.map(([, py]) => py));
        return { x: x((x1 + x2) / 2), y: y((y1 + y2) / 2), filled: fill!, stroke: stroke!.color };
      });
    return [{ marks }];
  });
}

/** From two labelled ticks, the furthest apart, to a scale. */
function scale(
  places: readonly number[],
  labelAt: (place: number) => ReadText | undefined,
): ((place: number) => number) | undefined {
  const known = places.flatMap((place) => {
    const label = labelAt(place);
    const value = label && Number(label.text.replace("−", "-"));
    return value === undefined || Number.isNaN(value) ? [] : [{ place, value }];
  });
  const first = known.reduce((a, b) => (b.value < a.value ? b : a), known[0]!);
  const last = known.reduce((a, b) => (b.value > a.value ? b : a), known[0]!);
  if (known.length < 2 || first.value === last.value) return undefined;
  const slope = (last.value - first.value) / (last.place - first.place);
  return (place) => first.value + (place - first.place) * slope;
}
