export type BenchSide = "intake" | "exhaust";

/** What was entered at the bench. Rows are counted without the head. */
export type BenchAct =
  | {
      readonly kind: "reading";
      readonly lift: string;
      readonly side: BenchSide;
      readonly typed: string;
      /** Measured again: the first reading at this lift stays. */
      readonly again?: boolean;
      /** Also where a reason stands why the reading was not taken. */
      readonly over?: boolean;
    }
  | { readonly kind: "cell"; readonly row: number; readonly side: BenchSide; readonly typed: string }
  | { readonly kind: "reason"; readonly row: number; readonly words: string };

/** The stage, and the run of it by index, whose table is edited; a stage that is not there yet is added. */
export type BenchTarget = { readonly stage: string; readonly run?: number };

/** Replacement of the characters [from, to) of a text. */
export type TextEdit = { readonly from: number; readonly to: number; readonly insert: string };
export type BenchEdit = { readonly edit: TextEdit } | { readonly fault: string; readonly ask?: true };
