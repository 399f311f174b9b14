/** Rows as comma-separated values, for a spreadsheet. */
export const csv = (rows: readonly (readonly string[])[]) =>
  rows.map((row) => `${row.map(quoted).join(",")}\n`).join("");

/** Six figures: more than any bench resolves, and free of binary dust. */
export const number = (value: number): string => String(Number(value.toPrecision(6)));

/**
 * A name that a spreadsheet would run as a formula is led by an apostrophe; also where the name goes on after a mark that some
 * countries' spreadsheets take for the end of a cell. Wide forms of the signs are signs to some of them.
 */
export const text = (name: string): string =>
  name.replace(/(^|[;\t\r\n])(\s*)([=+\-@\uff1d\uff0b\uff0d\uff20])/g, "$1$2'$3");

const quoted = (cell: string): string => (/[",;\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
