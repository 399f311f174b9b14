/** A figure parted where its decimals begin, so that a column's figures stand with their units under each other. */
export type Figure = { readonly whole: string; readonly rest: string };

const figure = /^([^\p{L}\d]*\d+(?:[\u00a0\u2009\u202f ]\d{3})*)(?![\d])(.*)$/u;

/** Parts "−12.4", "+3", "± 0.8" before the decimal mark or where the whole number ends; a lone dash stands on the units. */
export function figureOf(text: string): Figure | undefined {
  if (/^[–—-]$/.test(text)) return { whole: text, rest: "" };
  const match = figure.exec(text);
  return match ? { whole: match[1]!, rest: match[2]! } : undefined;
}
