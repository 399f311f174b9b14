import type { DisplayUnits, Side } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import { formatPercent, formatSignedPercentDigits } from "../../sheet/display.ts";
import { claimableVerdict, verdictWords } from "../../sheet/words/verdicts.ts";
import { formatNumber, show, showNumber, unitSymbol } from "../../units/show.ts";
import type { ShelfChange, ShelfEntry } from "./shelf-entry.ts";

/** Cells of one side of a job; empty for unknown values. */
export type SideCells = {
  /** Number of valves of a cylinder, their diameter, and both as text. */
  readonly count: number;
  readonly size: string;
  readonly valve: string;
  readonly peak: string;
  readonly lift: string;
  readonly low: string;
  readonly mid: string;
  readonly high: string;
  readonly coefficient: string;
  readonly pinch: string;
  readonly change: string;
};

/** Formats the cells of one side; undefined for a side that is neither described nor flowed. */
export function sideCells(entry: ShelfEntry, side: Side, units: DisplayUnits): SideCells | undefined {
  const own = entry[side];
  if (!own) return undefined;
  const count = own.valves * own.ports;
  const flow = (si: number | undefined) => (si === undefined ? "" : showNumber(si, "flow", units.flow));
  const flowAt = (name: string) => flow(own.compared.find((one) => one.at === name)?.flow_m3_s);
  const length = (si: number | undefined) => (si === undefined ? "" : showNumber(si, "length", units.length));
  const size = length(own.valve_diameter_m);
  return {
    count,
    size,
    valve: size !== "" && count > 1 ? `${count}×${size}` : size,
    peak: flow(own.peak?.flow_m3_s),
    lift: length(own.peak?.lift_m),
    low: flowAt("low"),
    mid: flowAt("mid"),
    high: flowAt("high"),
    coefficient:
      own.curtain_coefficient_at_quarter === undefined ? "" : formatNumber(own.curtain_coefficient_at_quarter, 3),
    pinch: own.pinch_area_m2 === undefined ? "" : showNumber(own.pinch_area_m2, "area", units.area),
    change:
      entry.sample === undefined
        ? own.latest_change === undefined
          ? ""
          : formatChange(own.latest_change)
        : `mean of ${entry.sample} ${entry.sample === 1 ? "head" : "heads"}`,
  };
}

/** Notes printed above the table. */
export function shelfNote(testPressure: number, units: DisplayUnits): readonly string[] {
  return [
    `All flows at ${show(testPressure, "pressure", units.pressure)} and reference air, in ${unitSymbol("flow", units.flow)}; sizes in ${unitSymbol("length", units.length)} and ${unitSymbol("area", units.area)}. Readings at other pressures are converted. Where a job has several sets, the leading one.`,
    "Low, mid, high: the readings nearest 0.10, 0.18 and 0.25 lift ÷ diameter. C¼: coefficient on the curtain at 0.25 lift ÷ diameter. Change: average, from the stage before the last.",
  ];
}

/** Formats a change with its verdict: the number only where the change is clear; conditions that differ always. */
function formatChange(change: ShelfChange): string {
  const { ratio, uncertainty_ratio: uncertainty } = change;
  const verdict = claimableVerdict(change.verdict, uncertainty);
  const number = isClear(verdict)
    ? `${formatSignedPercentDigits(ratio)}\u00a0±\u00a0${formatPercent(uncertainty as number)}, `
    : "";
  return `${number}${qualifyUnlike(verdictWords(verdict, change).text, change)}`;
}

/** A verdict under unlike conditions says so; one that is withheld for them does already. */
export const qualifyUnlike = (words: string, change: ShelfChange): string =>
  change.like_for_like || change.verdict_withheld === "conditions" ? words : `${words}; measured unlike`;
