/** A place in a text file: offsets into its text, [start, end). */
export type Span = { readonly file: string; readonly start: number; readonly end: number };

/** A mistake of the user, as a value; bugs of the program are thrown errors. */
export type Diagnostic = {
  readonly severity: "error" | "warning";
  /** Stable identifier `folder/what`; tests assert it. */
  readonly code: `${string}/${string}`;
  /** What is wrong: lower case, no full stop. */
  readonly message: string;
  readonly at?: Span;
  /** The block of a sheet that it is about, from which its place is found. */
  readonly block?: string;
  /** Why it matters. */
  readonly note?: string;
  /** What to write instead. */
  readonly hint?: string;
};

/** The texts that spans point into, by file name. */
export type Sources = ReadonlyMap<string, string>;
