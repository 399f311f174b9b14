/** A slip that a new user makes: one change of a sound file, what the program says first, and the cure. */
export type Slip = {
  readonly name: string;
  /** The file that is harmed; not stated: the job in inches. */
  readonly file?: string;
  readonly harm: readonly [from: string, to: string];
  /** A part of the message. */
  readonly says: string;
  /** A warning: the sheet is still made. */
  readonly warns?: true;
  /**
   * The cure: not stated, what the hint prints after "write" or "did you mean" goes where the carets stand; else the words of the
   * hint that name it, and the edits that follow them: pairs of a text and what is typed in its place.
   */
  readonly cure?: readonly [hint: string, ...edits: string[]];
};
