/** Formats rows as comma-separated values. */
export const formatCsv = (rows: readonly (readonly string[])[]) =>
  rows.map((row) => `${row.map(quoteCell).join(",")}\n`).join("");

/** Six significant digits: more than any bench resolves, and without binary rounding noise. */
export const formatNumber = (value: number): string => String(Number(value.toPrecision(6)));

/**
 * Prefixes an apostrophe where a spreadsheet would evaluate a name as a formula, also after separators of some locales. Some
 * spreadsheets accept the full-width forms of the signs too.
 */
export const escapeFormula = (name: string): string =>
  name.replace(/(^|[;\t\r\n])(\s*)([=+\-@|\uff1d\uff0b\uff0d\uff20\uff5c])/g, "$1$2'$3").replace(/^(?=[\t\r])/, "'");

const quoteCell = (cell: string): string => (/[",;\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
