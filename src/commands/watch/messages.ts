/** What the program and its page in the browser say to each other. Types only: both sides import this file. */

/** A place in a text as an editor counts: lines from 1, characters from 0. */
export type At = { readonly line: number; readonly ch: number };

/** A problem as `check` says it. */
export type Problem = {
  readonly severity: "error" | "warning";
  readonly code: string;
  readonly message: string;
  readonly note?: string;
  readonly hint?: string;
  /** Where it stands: the file's name, line and column, and the line itself with carets under the spot. */
  readonly place?: { readonly file: string; readonly line: number; readonly column: number };
  readonly excerpt?: { readonly text: string; readonly before: number; readonly carets: number };
  /** The same for the editor, when it stands in the job itself. */
  readonly span?: { readonly from: At; readonly to: At };
};

/** One finished sheet. Its id is made from its bytes: equal sheets, equal ids. */
export type SheetShown = {
  readonly id: string;
  readonly template: string;
  readonly name: string;
  readonly title: string;
  /** Each page's size in points. */
  readonly pages: readonly { readonly width: number; readonly height: number }[];
};

/** The text of the job as it stands on the disk; `why` says why it cannot be edited here. */
export type JobText = { readonly text: string; readonly stamp: string; readonly why?: string };

/** What came of a text: its problems, and the last sheets and figures that could be made. */
export type Outcome = {
  readonly problems: readonly Problem[];
  readonly sheets: readonly SheetShown[];
  readonly figures: string;
  /** Sheets and figures are those of an earlier text: this one was refused. */
  readonly outOfDate: boolean;
  readonly shopFile?: string;
};

/** Pushed whenever a file that the job reads has changed. `saved` is missing when the job file is. */
export type View = { readonly job: number; readonly saved?: JobText; readonly outcome: Outcome };

/** The jobs to choose from. */
export type JobList = { readonly jobs: readonly { readonly job: number; readonly path: string }[] };

/** Unsaved text, to be looked at. */
export type Draft = { readonly text: string };

/** Text to be saved over the file of that stamp; no stamp: over none. */
export type Save = { readonly text: string; readonly over?: string };

/** What came of saving. A conflict says what stands there instead. */
export type Saved =
  | { readonly kind: "saved"; readonly stamp: string }
  | { readonly kind: "conflict"; readonly theirs?: JobText }
  | { readonly kind: "refused"; readonly why: string };
