import { differenceFromSi, fromSi } from "./convert.ts";
import { type Kind, namedUnit } from "./table.ts";

const MINUS = "\u2212";
/** A thin space that does not break: between groups of three digits. */
const THIN_SPACE = "\u202f";
/** Between number and unit. */
const NO_BREAK_SPACE = "\u00a0";

/** Digits of a rounded number without sign. Half away from zero, once the noise of binary fractions is dropped. */
function roundToDigits(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a number to show must be finite: ${value}`);
  if (Math.abs(value) >= 1e15) throw new RangeError(`a number to show must be below 1e15: ${value}`);
  if (!(Number.isInteger(decimals) && decimals >= 0 && decimals <= 12)) {
    throw new RangeError(`decimals must be a whole number from 0 to 12: ${decimals}`);
  }
  // Far from a half the noise has no effect, and plain rounding gives the same result.
  const near = Math.abs(value) * 10 ** decimals;
  if (near < 1e8 && Math.abs((near % 1) - 0.5) > 1e-4) return (Math.round(near) / 10 ** decimals).toFixed(decimals);
  const [mantissa, exponent] = Math.abs(value).toExponential(13).split("e") as [string, string];
  const scaled = Math.round(Number(`${mantissa}e${Number(exponent) + decimals}`));
  return Number(`${scaled}e-${decimals}`).toFixed(decimals);
}

/** Groups of three from the decimal point outwards, on a side that has more than four digits. */
function groupDigits(digits: string): string {
  const dot = digits.indexOf(".");
  if (dot < 0 ? digits.length <= 4 : dot <= 4 && digits.length <= dot + 5) return digits;
  const [whole = "", fraction] = digits.split(".");
  const left = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE) : whole;
  if (fraction === undefined) return left;
  return `${left}.${fraction.length > 4 ? fraction.replace(/(\d{3})(?=\d)/g, `$1${THIN_SPACE}`) : fraction}`;
}

const isZero = (digits: string) => !/[1-9]/.test(digits);

/**
 * A number as it is printed: rounded once, true minus, thin spaces between thousands from five digits on, never an exponent.
 *
 *     text = value rounded half away from zero to `decimals`
 *
 * @param value     the number, in the unit in which it is printed; finite, below 1e15 in size
 * @param decimals  digits after the point, 0 to 12
 * @returns         the text; what rounds to zero has no sign
 * @throws          RangeError outside those limits: a non-finite number must never be printed
 * @source          NIST SP 811 (2008), §10.5.2 and §10.5.3
 * @example         formatNumber(15739.012, 3) // "15\u202f739.012"
 */
export function formatNumber(value: number, decimals: number): string {
  const digits = roundToDigits(value, decimals);
  return `${value < 0 && !isZero(digits) ? MINUS : ""}${groupDigits(digits)}`;
}

/**
 * A change as it is printed: as `formatNumber`, with a plus sign where it grew.
 *
 *     text = sign, then the size rounded half away from zero to `decimals`
 *
 * @param value     the change, in the unit in which it is printed; finite, below 1e15 in size
 * @param decimals  digits after the point, 0 to 12
 * @returns         the text; what rounds to zero has no sign
 * @throws          RangeError outside those limits
 * @source          NIST SP 811 (2008), §10.5.2 and §10.5.3
 * @example         formatSigned(9.94, 1) // "+9.9"
 */
export function formatSigned(value: number, decimals: number): string {
  const text = formatNumber(value, decimals);
  return value > 0 && !isZero(text) ? `+${text}` : text;
}

/**
 * The symbol that is printed for a unit.
 *
 *     unitSymbol(kind, unit) = the table's symbol
 *
 * @param kind  which kind of quantity
 * @param unit  a unit of that kind
 * @returns     the symbol; empty for a plain ratio
 * @throws      RangeError when the kind has no such unit
 * @source      NIST SP 811 (2008), chapter 6; cfm, cc, thou and psi are the trade's own
 * @example     unitSymbol("area", "in2") // "in²"
 */
export const unitSymbol = (kind: Kind, unit: string): string => namedUnit(kind, unit).symbol;

/**
 * Usual number of decimals on a sheet.
 *
 *     defaultDecimals(kind, unit) = the table's decimals
 *
 * @param kind  which kind of quantity
 * @param unit  a unit of that kind
 * @returns     digits after the point
 * @throws      RangeError when the kind has no such unit
 * @source      common practice: what benches, calipers and burettes resolve
 * @example     defaultDecimals("length", "in") // 3
 */
export const defaultDecimals = (kind: Kind, unit: string): number => namedUnit(kind, unit).decimals;

/**
 * A printed number with its unit: a no-break space between them, none before a plane angle's degree sign.
 *
 *     text = number, no-break space, symbol
 *
 * @param number  the number as printed
 * @param kind    which kind of quantity
 * @param unit    a unit of that kind
 * @returns       number and unit; the number alone for a plain ratio
 * @throws        RangeError when the kind has no such unit
 * @source        NIST SP 811 (2008), §7.2
 * @example       withUnit("45", "angle", "deg") // "45°"
 */
export function withUnit(number: string, kind: Kind, unit: string): string {
  const symbol = unitSymbol(kind, unit);
  if (symbol === "") return number;
  return symbol === "°" ? `${number}°` : `${number}${NO_BREAK_SPACE}${symbol}`;
}

/**
 * An SI value as a printed number without its unit, for table cells whose head names the unit.
 *
 *     text = formatNumber(fromSi(value))
 *
 * @param value     the SI value; finite
 * @param kind      which kind of quantity
 * @param unit      the unit in which it is printed
 * @param decimals  digits after the point; left out, those of `defaultDecimals`
 * @returns         the number; what rounds to zero has no sign
 * @throws          RangeError for a value that is not finite, or a unit that the kind lacks
 * @source          NIST SP 811 (2008), Appendix B.8, §10.5
 * @example         showNumber(0.0439928, "length", "mm", 2) // "43.99"
 */
export function showNumber(value: number, kind: Kind, unit: string, decimals = defaultDecimals(kind, unit)): string {
  return formatNumber(fromSi(value, kind, unit), decimals);
}

/**
 * An SI value as printed, with its unit.
 *
 *     text = withUnit(showNumber(value))
 *
 * @param value     the SI value; finite. For "Mach" a share of the speed of sound
 * @param kind      which kind of quantity
 * @param unit      the unit in which it is printed
 * @param decimals  digits after the point; left out, those of `defaultDecimals`
 * @returns         number and unit
 * @throws          RangeError for a value that is not finite, or a unit that the kind lacks
 * @source          NIST SP 811 (2008), Appendix B.8, §7.2, §10.5
 * @example         show(0.034, "length", "mm", 1) // "34.0\u00a0mm"
 */
export function show(value: number, kind: Kind, unit: string, decimals = defaultDecimals(kind, unit)): string {
  return withUnit(showNumber(value, kind, unit, decimals), kind, unit);
}

/**
 * A difference of two SI values as a printed number with its sign, without its unit.
 *
 *     text = formatSigned(differenceFromSi(difference))
 *
 * @param difference  the difference, in SI; finite
 * @param kind        which kind of quantity
 * @param unit        the unit in which it is printed
 * @param decimals    digits after the point; left out, those of `defaultDecimals`
 * @returns           the signed number; what rounds to zero has no sign
 * @throws            RangeError for a value that is not finite, or a unit that the kind lacks
 * @source            NIST SP 811 (2008), Appendix B.8, §10.5
 * @example           showChangeNumber(-0.0005, "length", "mm", 1) // "−0.5"
 */
function showChangeNumber(
  difference: number,
  kind: Kind,
  unit: string,
  decimals = defaultDecimals(kind, unit),
): string {
  return formatSigned(differenceFromSi(difference, kind, unit), decimals);
}

/**
 * A difference of two SI values as printed, with sign and unit.
 *
 *     text = withUnit(showChangeNumber(difference))
 *
 * @param difference  the difference, in SI; finite
 * @param kind        which kind of quantity
 * @param unit        the unit in which it is printed
 * @param decimals    digits after the point; left out, those of `defaultDecimals`
 * @returns           signed number and unit
 * @throws            RangeError for a value that is not finite, or a unit that the kind lacks
 * @source            NIST SP 811 (2008), Appendix B.8, §7.2, §10.5
 * @example           showChange(0.064, "ratio", "%", 1) // "+6.4\u00a0%"
 */
export function showChange(
  difference: number,
  kind: Kind,
  unit: string,
  decimals = defaultDecimals(kind, unit),
): string {
  return withUnit(showChangeNumber(difference, kind, unit, decimals), kind, unit);
}
