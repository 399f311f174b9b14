import type { EditorPosition, JobText, JobView, Outcome, SheetInfo } from "../messages.ts";
import type { EditorSnapshot } from "./editor.ts";

/** What the page knows of a job; kept while another is shown. */
export type JobState = {
  /** Its number in the running program, and its path, which outlives that. */
  job: number;
  readonly path: string;
  /** Version of the file that the text is based on; undefined before loading and without a file. */
  base: JobText | undefined;
  view: JobView | undefined;
  loaded: boolean;
  conflict: boolean;
  /** Counts edits, so that the result of an older text is discarded. */
  typed: number;
  template: string | undefined;
  /** The last sheets and figures that could be made of this page's text. */
  sheets: readonly SheetInfo[];
  figures: string;
  readingPlaces: Readonly<Record<number, EditorPosition>>;
  others: Outcome["others"];
  /** Text, history and cursor while another job is shown. */
  left: EditorSnapshot | undefined;
  /** Whether the text differed from the file when the job was left. */
  leftUnsaved: boolean;
};

export const newJobState = (job: number, path: string): JobState => ({
  job,
  path,
  base: undefined,
  view: undefined,
  loaded: false,
  conflict: false,
  typed: 0,
  template: undefined,
  sheets: [],
  figures: "",
  readingPlaces: {},
  others: {},
  left: undefined,
  leftUnsaved: false,
});
