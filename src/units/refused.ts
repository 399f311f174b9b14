/** A quantity as refused; parts of a diagnostic. */
export type Refused = {
  readonly ok: false;
  readonly code: `units/${string}`;
  readonly message: string;
  readonly hint?: string;
};

/** Refuses a quantity, with what to write instead. */
export const refuse = (code: Refused["code"], message: string, hint: string): Refused => ({
  ok: false,
  code,
  message,
  hint,
});
