/** Messages about the bench view. Types only, as both sides import this file. */
export type { BenchAct, TextEdit } from "../take/bench-act.ts";

import type { BenchAct, BenchSide, TextEdit } from "../take/bench-act.ts";
import type { Draft, Problem } from "./messages.ts";

/** What the findings say of a reading: the most telling one, and the others. */
export type Verdict = {
  readonly level: "off" | "impossible";
  readonly words: string;
  /** What was probably meant, as it would be typed. */
  readonly meant?: string;
  readonly more: readonly string[];
};
export type BenchCell = { readonly typed: string; readonly verdict?: Verdict };
export type BenchRow = {
  readonly lift: string;
  /** Of the rise; else a fall or a repeat. */
  readonly rises: boolean;
  readonly cells: Readonly<Partial<Record<BenchSide, BenchCell>>>;
  readonly reason?: string;
};
export type BenchPlan = {
  readonly lifts: readonly string[];
  readonly again: readonly string[];
  readonly next?: { readonly lift: string; readonly again: boolean };
  /** Repeats are an offer, as the bench states how well it repeats. */
  readonly offered: boolean;
};
export type ChartPoint = {
  readonly lift: number;
  readonly flow: number;
  readonly kind: "good" | "doubtful" | "noisy" | "off";
};

/** What is asked for: one side of a stage's table, and the lifts that are left out for now. */
export type BenchChoice = {
  readonly stage?: string;
  readonly run?: number;
  readonly side: BenchSide;
  readonly skipped?: readonly string[];
};
export type BenchView = {
  readonly stages: readonly string[];
  readonly stage: string;
  readonly runs: readonly { readonly index?: number; readonly label: string; readonly file?: string }[];
  readonly run?: number;
  readonly side: BenchSide;
  readonly draft: boolean;
  readonly title: string;
  readonly units: { readonly lift: string; readonly flow: string };
  readonly pressure?: string;
  readonly rows: readonly BenchRow[];
  readonly plan: BenchPlan;
  readonly now: readonly ChartPoint[];
  /** The stage before, at the lifts only that have been entered. */
  readonly before?: { readonly stage: string; readonly points: readonly ChartPoint[] };
  /** Fewer than three readings: no trend yet. */
  readonly early: boolean;
  readonly sized: boolean;
  readonly problems: readonly Problem[];
  /** Why nothing can be entered, and where. */
  readonly fault?: string;
};

export type BenchRequest = Draft & { readonly choice: BenchChoice };
export type EnterRequest = BenchRequest & { readonly act: BenchAct };
export type Entered =
  | { readonly edit: TextEdit; readonly bench: BenchView }
  | { readonly fault: string; readonly ask?: true };

/** A new job: ticket, customer and name of the head, and what the shop does not state. */
export type NewJob = {
  readonly ticket: string;
  readonly customer: string;
  readonly head: string;
  readonly issued: string;
  readonly units?: "in, cfm" | "mm, l/s" | "mm, m3/h";
  /** Test pressure [inH2O]. */
  readonly pressure?: string;
};
export type NewJobResult =
  | { readonly kind: "made"; readonly path: string }
  | { readonly kind: "ask"; readonly units: boolean; readonly pressure: boolean }
  | { readonly kind: "refused"; readonly why: string };
/** Result of making a job's sheets: the files, and what `make` said. */
export type MakeResult = { readonly made: boolean; readonly files: readonly string[]; readonly said: string };
