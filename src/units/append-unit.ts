import { type Kind, namedUnit } from "./table.ts";

/**
 * A quantity as it was typed, with the unit that a bare number took.
 *
 *     the text itself where a unit was typed, else text, a blank and the unit's symbol
 *
 * @param text      what was typed
 * @param kind      its kind of quantity
 * @param bareUnit  the unit of bare numbers, if any
 * @returns         the text with its unit
 * @source          NIST SP 811 (2008), 7.2: a blank between number and unit
 * @example         appendUnit("0.300", "length", "in") // "0.300 in"
 */
export const appendUnit = (text: string, kind: Kind, bareUnit: string | undefined): string =>
  bareUnit !== undefined && /^[\d./ -]+$/.test(text)
    ? `${text}${kind === "angle" ? "" : " "}${namedUnit(kind, bareUnit).symbol}`
    : text;
