import type { ComparedFigures, Verdict } from "../../figures/figures.ts";

/** One job as it stands on the shelf: SI, keys as `shelf --json` prints them. What is not known is absent. No customer. */
export type ShelfEntry = {
  /** Path from the shelf's folder, with `/`. */
  file: string;
  /** The first fault of a job that is refused; nothing else of it is known. */
  refused?: { code: string; text: string; line?: number };
  kind?: "job" | "product";
  /** Ticket or part number. */
  number?: string;
  revision?: number | string;
  issued?: string;
  head?: string;
  material?: string;
  /** The stage that the figures are of, and the set that leads in it. */
  stage?: string;
  set?: string;
  /** Of a product: how many heads its figures are the mean of. */
  sample?: number;
  bore_m?: number;
  intake?: ShelfSide;
  exhaust?: ShelfSide;
  conditions?: ShelfConditions;
  may_compare?: "yes" | "no" | "samples only";
  hold_back?: string[];
};

export type ShelfSide = {
  /** Valves of one port, and ports of one cylinder. */
  valves: number;
  ports: number;
  valve_diameter_m?: number;
  throat_m?: number;
  pinch_area_m2?: number;
  peak?: { lift_m: number; flow_m3_s: number; uncertainty_m3_s?: number };
  /** At low, mid, high and, where it is known, the cam's net lift. */
  compared: ComparedFigures[];
  /** On the curtain at 0.25 lift ÷ diameter, between readings; absent where they do not reach it. */
  curtain_coefficient_at_quarter?: number;
  latest_change?: ShelfChange;
};

/** Mean change from the stage before the finished one. */
export type ShelfChange = {
  from: string;
  ratio: number;
  uncertainty_ratio?: number;
  verdict: Verdict;
  verdict_withheld?: "check plate" | "two benches";
  like_for_like: boolean;
  differences: string[];
};

/** How the leading set was taken; an entry, a fixture or a pipe that nobody stated is absent. */
export type ShelfConditions = {
  test_pressure_Pa: number;
  bore_fixture_m?: number;
  intake_entry?: string;
  exhaust_pipe?: { diameter_m?: number; length_m?: number };
  on_intake?: string;
  on_exhaust?: string;
  bench?: string;
};

/** A sound job's entry has all of these. */
export type SoundEntry = ShelfEntry & Required<Pick<ShelfEntry, "kind" | "number" | "issued" | "head">>;

/** Whether the job was not refused. */
export const isSound = (entry: ShelfEntry): entry is SoundEntry => entry.refused === undefined;
