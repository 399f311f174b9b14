import type { SeriesStyle } from "../theme/theme.ts";
import { formatNumber } from "../units/show.ts";
import type { FlowPanel, Series } from "./content.ts";
import { PLOT } from "./flow-panel.ts";
import { panelAxis } from "./panel-axis.ts";
import { joinWords } from "./words/text.ts";

/** A value that rises with engine speed, of one stage or of another head; `met`: the speeds at which it meets a mark [rpm]. */
export type SpeedLine = {
  readonly name: string;
  /** Its name within a sentence. */
  readonly said: string;
  readonly style: SeriesStyle;
  readonly values: readonly (readonly [rpm: number, value: number])[];
  readonly met?: readonly number[];
};

/** Width of a plot in half of the page and in a third; white left of the first mark, for the labels, and right of the last [pt]. */
const HALF = 239.6;
export const THIRD = 155.1;
const WHITE = { left: 24, right: 12 } as const;
/** Marks stand at these steps of engine speed [rpm]. */
const STEP = 1000;
/** Lines nearer than this are one line to the eye [pt]. */
const ALIKE = 6;

/** A panel of lines against engine speed; `reach` is a value that the axis must reach. Undefined without a line. */
export function speedPanel(
  lines: readonly SpeedLine[],
  unit: string,
  reach: number,
  width = HALF,
): FlowPanel | undefined {
  const speeds = lines.flatMap(({ values }) => values.map(([rpm]) => rpm));
  const [from, to] = [Math.min(...speeds), Math.max(...speeds)];
  if (!(to > from)) return undefined;
  const highest = Math.max(reach, ...lines.flatMap(({ values }) => values.map(([, value]) => value)));
  const scale = (to - from) / (width - WHITE.left - WHITE.right);
  const steps = multiples(from, to, width < HALF ? 2 * STEP : STEP);
  const y = { title: unit, ...panelAxis(highest, PLOT.least) };
  return {
    kind: "flow-panel",
    x: { title: "rpm", start: from - WHITE.left * scale, end: to + WHITE.right * scale, ticks: steps, decimals: 0 },
    y,
    series: mergeAlike(lines, (y.end / PLOT.least) * ALIKE).map(({ name, style, values }) => ({
      name,
      label: name,
      style,
      curve: values,
      points: steps.flatMap((x) => pointAt(values, x)),
    })),
  };
}

const multiples = (from: number, to: number, step: number) =>
  Array.from(
    { length: Math.floor(to / step) - Math.ceil(from / step) + 1 },
    (_, i) => (Math.ceil(from / step) + i) * step,
  );

/** The reading of a line at an engine speed; both measures rise in proportion to it, so lines are straight. */
function pointAt(values: SpeedLine["values"], x: number): Series["points"] {
  const k = values.findIndex(([rpm]) => rpm >= x);
  const [b, a] = [values[k], values[k - 1]];
  if (!b || (!a && b[0] !== x)) return [];
  const y = a ? a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]) : b[1];
  return [{ x, y, kind: "good" }];
}

/** Lines that lie on the latest carry one name with it. */
function mergeAlike(lines: readonly SpeedLine[], apart: number): readonly SpeedLine[] {
  const last = lines.at(-1)!;
  const end = ({ values }: SpeedLine) => values.at(-1)![1];
  const alike = lines.slice(0, -1).filter((one) => Math.abs(end(one) - end(last)) < apart);
  if (alike.length === 0) return lines;
  const names = joinWords([...alike, last].map(({ name, said }, i) => (i === 0 ? name : said)));
  return [...lines.filter((one) => one !== last && !alike.includes(one)), { ...last, name: `${names}, alike` }];
}

/** At which engine speeds each line meets its marks, to the nearest hundred: "5,800 to 7,100 rpm as received"; none that has none. */
export function meetingSpeedWords(lines: readonly SpeedLine[]): string | undefined {
  const said = lines.flatMap(({ said, met = [] }) =>
    met.length === 0 ? [] : [`${met.map(formatRpm).join(" to ")} rpm (${said})`],
  );
  return said.length === 0 ? undefined : joinWords(said);
}

/** Engine speeds to the nearest hundred: neither measure is finer. */
export const formatRpm = (speed: number): string => formatNumber(Math.round(speed / 100) * 100, 0);
