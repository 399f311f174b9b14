/** Messages between server and page. Types only, as both sides import this file. */

/** Position in a text as an editor counts: lines from 1, characters from 0. */
export type EditorPosition = { readonly line: number; readonly ch: number };

/** A problem as `check` reports it. */
export type Problem = {
  readonly severity: "error" | "warning";
  readonly code: string;
  readonly message: string;
  readonly note?: string;
  readonly hint?: string;
  /** File, line and column, and the line itself with carets. */
  readonly place?: { readonly file: string; readonly line: number; readonly column: number };
  readonly excerpt?: { readonly text: string; readonly before: number; readonly carets: number };
  /** The same for the editor, if the problem is in the job file. */
  readonly span?: { readonly from: EditorPosition; readonly to: EditorPosition };
  /** What to write over the span's text, where the hint proposes it. */
  readonly fix?: { readonly before: string; readonly after: string };
};

/** A finished sheet; its id is a hash of its bytes. */
export type SheetInfo = {
  readonly id: string;
  readonly template: string;
  readonly name: string;
  readonly title: string;
  /** Each page's size in points. */
  readonly pages: readonly { readonly width: number; readonly height: number }[];
};

/** Text of the job file with its hash; `why` gives the reason why it is read-only. */
export type JobText = { readonly text: string; readonly stamp: string; readonly why?: string };

/** Result of evaluating a text: its problems, and its sheets and figures; of a file with errors, the last that could be made. */
export type Outcome = {
  readonly problems: readonly Problem[];
  /** Texts of the other files in which problems stand, by name. */
  readonly others: Readonly<Record<string, string>>;
  readonly sheets: readonly SheetInfo[];
  readonly figures: string;
  /** Places in the job of the readings behind the lines of `figures`, by the line's index. */
  readonly readingPlaces: Readonly<Record<number, EditorPosition>>;
  /** Sheets and figures are those of an earlier text, as this one has errors. */
  readonly outOfDate: boolean;
  readonly shopFile?: string;
};

/** Pushed whenever a file that the job reads has changed. `saved` is missing when the job file is. */
export type JobView = { readonly job: number; readonly saved?: JobText; readonly outcome: Outcome };

/** What the list of jobs shows beside a path, as far as it could be read. */
export type JobFacts = {
  readonly path: string;
  readonly ticket?: string;
  readonly head?: string;
  readonly customer?: string;
  readonly draft: boolean;
};

/** The jobs to choose from. */
export type JobList = { readonly jobs: readonly { readonly job: number; readonly path: string }[] };

/** Unsaved text to be evaluated. `path` is the job's, as numbers of jobs do not outlive the program. */
export type Draft = { readonly text: string; readonly path?: string };

/** Text to save over the file with that hash; without `over`, only if there is no file. */
export type SaveRequest = Draft & { readonly over?: string };

/**
 * Result of saving; a conflict carries the file's current text. `otherVersion` names the file beside the job that keeps what another
 * program saved in the same moment.
 */
export type SaveResult =
  | { readonly kind: "saved"; readonly stamp: string; readonly otherVersion?: string }
  | { readonly kind: "conflict"; readonly theirs?: JobText }
  | { readonly kind: "refused"; readonly why: string };
