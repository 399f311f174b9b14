import type { BenchSide } from "../take/bench-act.ts";
import type { BenchPlan, BenchRow } from "./bench-messages.ts";

/** Repeats from which a run's own scatter follows. */
const FREEDOM = 3;

export type PlanInput = {
  /** Lifts to be set, rising, as they are to be written. */
  readonly lifts: readonly string[];
  readonly rows: readonly BenchRow[];
  readonly side: BenchSide;
  /** Lifts at which the sheet compares, in the table's unit. */
  readonly report: readonly number[];
  /** The bench states how well it repeats: repeats are an offer, not a request. */
  readonly stated: boolean;
  /** Lifts that are left out for now. */
  readonly skipped: readonly string[];
};

/** The lifts of a sweep, those to measure again afterwards, the highest first, and the one to set next. */
export function planBench({ lifts, rows, side, report, stated, skipped }: PlanInput): BenchPlan {
  const all = [...new Set([...lifts, ...rows.filter(({ rises }) => rises).map(({ lift }) => lift)].map(Number))]
    .sort((a, b) => a - b)
    .map((lift) => [...rows.map((row) => row.lift), ...lifts].find((text) => Number(text) === lift)!);
  const isSkipped = (lift: string) => skipped.some((one) => Number(one) === Number(lift));
  const isDone = (lift: string) =>
    rows.some((row) => Number(row.lift) === Number(lift) && isSettled(row, side)) || isSkipped(lift);
  const open = all.find((lift) => !isDone(lift));
  const taken = all.filter((lift) => rows.some((row) => Number(row.lift) === Number(lift) && isTaken(row, side)));
  const repeats = rows.filter((row) => !row.rises && isTaken(row, side));
  const again = liftsAgain(taken, report);
  const left = again.filter((lift) => !repeats.some((row) => Number(row.lift) === Number(lift)) && !isSkipped(lift));
  const enough = repeats.length >= FREEDOM;
  return {
    lifts: all,
    again,
    offered: stated,
    ...(open !== undefined
      ? { next: { lift: open, again: false } }
      : left[0] !== undefined && !enough
        ? { next: { lift: left[0], again: true } }
        : {}),
  };
}

const isTaken = ({ cells }: BenchRow, side: BenchSide) => /\d/.test(cells[side]?.typed ?? "");
/** Taken, or left out with a reason. */
const isSettled = (row: BenchRow, side: BenchSide) =>
  isTaken(row, side) || (row.rises && row.reason !== undefined && row.cells[side] !== undefined);

/** The highest lift first, as nothing need be moved, then downwards: those of the report first, then the next below. */
function liftsAgain(taken: readonly string[], report: readonly number[]): readonly string[] {
  const [top, ...below] = taken.toReversed();
  if (top === undefined) return [];
  const named = below.filter((lift) => report.some((one) => Math.abs(one - Number(lift)) < 1e-6));
  const others = below.filter((lift) => !named.includes(lift));
  const chosen = [...named, ...others].slice(0, Math.max(FREEDOM, named.length));
  return [top, ...below.filter((lift) => chosen.includes(lift))];
}
