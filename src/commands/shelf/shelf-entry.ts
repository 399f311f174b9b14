import type { SideFigures, Verdict } from "../../figures/figures.ts";

/** One job as it stands on the shelf: SI, keys as `shelf --json` prints them. What is not known is absent. No customer. */
export type ShelfEntry = {
  /** Path from the shelf's folder, with `/`. */
  readonly file: string;
  /** The first fault of a job that is refused; nothing else of it is known. */
  readonly refused?: { readonly code: string; readonly text: string; readonly line?: number };
  readonly kind?: "job" | "product";
  /** Ticket or part number. */
  readonly number?: string;
  readonly revision?: number | string;
  readonly issued?: string;
  readonly head?: string;
  readonly material?: string;
  /** The stage that the figures are of, and the set that leads in it. */
  readonly stage?: string;
  readonly set?: string;
  /** Of a product: how many heads its figures are the mean of. */
  readonly sample?: number;
  readonly bore_m?: number;
  readonly intake?: ShelfSide;
  readonly exhaust?: ShelfSide;
  readonly conditions?: ShelfConditions;
  readonly may_compare?: "yes" | "no" | "samples only";
  readonly hold_back?: readonly string[];
};

/** A side of the finished head; `compared` at low, mid, high and, where it is known, the cam's net lift. */
export type ShelfSide = Pick<
  SideFigures,
  "valves" | "ports" | "valve_diameter_m" | "throat_m" | "pinch_area_m2" | "peak" | "compared"
> & {
  /** On the curtain at 0.25 lift ÷ diameter, between readings; absent where they do not reach it. */
  readonly curtain_coefficient_at_quarter?: number;
  readonly latest_change?: ShelfChange;
};

/** Mean change from the stage before the finished one. */
export type ShelfChange = {
  readonly from: string;
  readonly ratio: number;
  readonly uncertainty_ratio?: number;
  readonly verdict: Verdict;
  readonly verdict_withheld?: "check plate" | "two benches";
  readonly like_for_like: boolean;
  readonly differences: readonly string[];
};

/** How the leading set was taken; an entry, a fixture or a pipe that nobody stated is absent. */
export type ShelfConditions = {
  readonly test_pressure_Pa: number;
  readonly bore_fixture_m?: number;
  readonly intake_entry?: string;
  readonly exhaust_pipe?: { readonly diameter_m?: number; readonly length_m?: number };
  readonly on_intake?: string;
  readonly on_exhaust?: string;
  readonly bench?: string;
};

/** A sound job's entry has all of these. */
export type SoundEntry = ShelfEntry & Required<Pick<ShelfEntry, "kind" | "number" | "issued" | "head">>;

/** Whether the job was not refused. */
export const isSound = (entry: ShelfEntry): entry is SoundEntry => entry.refused === undefined;
