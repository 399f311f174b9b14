import { type Cell, cfm, inches, type RunSketch } from "../model-fixture.ts";
import { fc } from "../seeded.ts";

/** One reading as typed: lift in inches, intake in cfm with its mark. */
type Typed = readonly [lift: number, cell: Cell];
/** A run of one port: intake alone. */
export type PortRun = {
  readonly cylinder: number;
  readonly hand?: string;
  readonly mount: number;
  readonly rows: readonly Typed[];
};

const LIFTS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6] as const;

const cell = fc
  .tuple(fc.integer({ min: -40, max: 40 }), fc.constantFrom("", "", "", "", "", "", "!", "?", "~", "-"))
  .map(([off, mark]) => ({ off, mark }));

/** Flow ÷ lift of an invented port, with a small irregularity and a mark. */
const cellAt = (lift: number, { off, mark }: { readonly off: number; readonly mark: string }): Cell => {
  if (mark === "-") return "-";
  const flow = (420 * lift - 260 * lift * lift + off / 10).toFixed(1);
  return mark === "~" ? `~${flow}` : `${flow}${mark}`;
};

const rows = (least: number) =>
  fc
    .tuple(
      fc.subarray([...LIFTS], { minLength: least }),
      fc.array(cell, { minLength: 12, maxLength: 12 }),
      fc.boolean(),
    )
    .map(([lifts, cells, down]): Typed[] => [
      ...lifts.map((lift, k): Typed => [lift, cellAt(lift, cells[k]!)]),
      ...(down ? [...lifts].reverse().map((lift, k): Typed => [lift, cellAt(lift, cells[6 + k]!)]) : []),
    ]);

const port = (cylinder: number) =>
  fc
    .tuple(
      fc.constantFrom(undefined, undefined, "end", "middle"),
      fc.oneof(rows(5), rows(5), rows(1)),
      fc.option(rows(2), { freq: 4, nil: undefined }),
    )
    .map(([hand, first, again]): PortRun[] => [
      { cylinder, ...(hand && { hand }), mount: 1, rows: first },
      ...(again ? [{ cylinder, ...(hand && { hand }), mount: 2, rows: again }] : []),
    ]);

/** Heads of one to five ports: full and partly read, doubtful, struck out, missing, of unlike hands, on one mount or two. */
export const generatedRuns = fc
  .tuple(...[2, 1, 3, 4, 6].map(port))
  .chain((ports) => fc.integer({ min: 1, max: 5 }).map((n) => ports.slice(0, n).flat()));

/** As the sketch of a model. */
export const sketchRuns = (runs: readonly PortRun[]): RunSketch[] => runs.map((run) => ({ ...run }));

/** A value as typed, with its mark; undefined for one that is missing. */
export function readCell(typed: Cell): { readonly value: number; readonly mark: string } | undefined {
  const [, before, digits, after] = /^(~?)([\d.]+)([?!]?)$/.exec(String(typed)) ?? [];
  return digits === undefined ? undefined : { value: Number(digits), mark: `${before}${after}` };
}

/** One port as a plain calculation sees it: its good and its doubtful readings [cfm] by lift [in]. */
export type PlainPort = {
  readonly key: string;
  readonly cylinder: number;
  readonly hand: string;
  readonly good: ReadonlyMap<number, readonly number[]>;
  readonly doubtful: ReadonlyMap<number, readonly number[]>;
};

export function plainPorts(runs: readonly PortRun[]): PlainPort[] {
  const ports = new Map<string, PlainPort & { good: Map<number, number[]>; doubtful: Map<number, number[]> }>();
  for (const { cylinder, hand = "", rows: typed } of runs) {
    const key = `${cylinder} ${hand}`;
    const own = ports.get(key) ?? { key, cylinder, hand, good: new Map(), doubtful: new Map() };
    ports.set(key, own);
    for (const [lift, text] of typed) {
      const read = readCell(text);
      if (read === undefined || read.mark === "~") continue;
      const list = read.mark === "?" ? own.doubtful : own.good;
      list.set(lift, [...(list.get(lift) ?? []), read.value]);
    }
  }
  return [...ports.values()].filter(({ good, doubtful }) => good.size + doubtful.size > 0);
}

export const average = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
export { cfm, inches, LIFTS };
