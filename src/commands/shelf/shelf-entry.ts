import type { Comparison, SideFigures, Verdict } from "../../figures/figures.ts";

/** One job on the shelf, in SI with the keys of `shelf --json`. Unknown values are absent; it holds no customer. */
export type ShelfEntry = {
  /** Path relative to the shelf's folder, with `/`. */
  readonly file: string;
  /** First error of a refused job, whose other fields are absent. */
  readonly refused?: { readonly code: string; readonly text: string; readonly line?: number };
  readonly kind?: "job" | "product";
  /** Ticket or part number. */
  readonly number?: string;
  readonly revision?: number | string;
  readonly issued?: string;
  readonly head?: string;
  readonly material?: string;
  /** The stage of the figures, and its leading set. */
  readonly stage?: string;
  readonly set?: string;
  /** For a product: number of heads in the mean. */
  readonly sample?: number;
  readonly bore_m?: number;
  readonly intake?: ShelfSide;
  readonly exhaust?: ShelfSide;
  readonly conditions?: ShelfConditions;
  readonly may_compare?: "yes" | "no" | "samples only";
  readonly hold_back?: readonly string[];
};

/** A side of the finished head; `compared` at low, mid, high and, if known, the cam's net lift. */
export type ShelfSide = Pick<
  SideFigures,
  "valves" | "ports" | "valve_diameter_m" | "throat_m" | "pinch_area_m2" | "peak" | "compared"
> & {
  /** Curtain coefficient at 0.25 lift ÷ diameter, interpolated; absent beyond the readings. */
  readonly curtain_coefficient_at_quarter?: number;
  readonly latest_change?: ShelfChange;
};

/** Mean change from the stage before the finished one. */
export type ShelfChange = {
  readonly from: string;
  readonly ratio: number;
  readonly uncertainty_ratio?: number;
  readonly verdict: Verdict;
  readonly verdict_withheld?: Comparison["verdict_withheld"];
  readonly like_for_like: boolean;
  readonly differences: readonly string[];
};

/** Conditions of the leading set; absent where not stated. */
export type ShelfConditions = {
  readonly test_pressure_Pa: number;
  readonly bore_fixture_m?: number;
  readonly intake_entry?: string;
  readonly exhaust_pipe?: { readonly diameter_m?: number; readonly length_m?: number };
  readonly on_intake?: string;
  readonly on_exhaust?: string;
  readonly bench?: string;
};

/** Entry of a job that was not refused. */
export type SoundEntry = ShelfEntry & Required<Pick<ShelfEntry, "kind" | "number" | "issued" | "head">>;

export const isSound = (entry: ShelfEntry): entry is SoundEntry => entry.refused === undefined;
