/** What a PDF says about itself. The date is the sheet's own, never the clock's: same sheet, same bytes. */
export type Meta = {
  readonly title: string;
  readonly author?: string;
  readonly subject: string;
  readonly language: string;
  /** Day of issue, YYYY-MM-DD. */
  readonly issued: string;
  /** Which document this is, for a machine to compare. */
  readonly identifier?: string;
  /** Name and version of the program. */
  readonly producer: string;
};

/** Noon of the day of issue, by Greenwich: the same day wherever the file is opened. */
export function issuedAt(meta: Meta): Date {
  const date = new Date(`${meta.issued}T12:00:00Z`);
  if (Number.isNaN(date.getTime())) throw new RangeError(`not a day of issue: ${meta.issued}`);
  return date;
}
