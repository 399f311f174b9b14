import type { Span } from "../../diagnostics/diagnostic.ts";

/** What a rule found: the fact with its reading, and the likely cause with what to look at. */
export type Finding = {
  readonly code: `figures/${string}`;
  /** Names the reading; lower case, no full stop. */
  readonly message: string;
  /** A likely cause, in words a porter uses. */
  readonly hint: string;
  readonly at?: Span;
  /** Only of a rule that refuses the job; else a warning. */
  readonly severity?: "error";
};
