import { type Kind, namedUnit } from "./table.ts";

/**
 * A number in some unit, in SI.
 *
 *     SI value = (number + offset) · factor
 *
 * @param value  the number, in `unit`; finite
 * @param kind   which kind of quantity
 * @param unit   a unit of that kind, such as "in"; "Mach" stays a share of the speed of sound
 * @returns      the SI value; 0 for 0 except temperatures
 * @throws       RangeError when the kind has no such unit
 * @source       NIST SP 811 (2008), Appendix B.8
 * @example      toSi(28, "pressure", "inH2O") // 6974.48948
 */
export function toSi(value: number, kind: Kind, unit: string): number {
  const { factor, offset } = namedUnit(kind, unit);
  return (value + offset) * factor;
}

/**
 * An SI value, as a number in some unit.
 *
 *     number = SI value ÷ factor − offset
 *
 * @param value  the SI value; finite
 * @param kind   which kind of quantity
 * @param unit   a unit of that kind, such as "in"; "Mach" takes a share of the speed of sound
 * @returns      the number in that unit; 0 for 0 except temperatures
 * @throws       RangeError when the kind has no such unit
 * @source       NIST SP 811 (2008), Appendix B.8
 * @example      fromSi(0.0127, "length", "in") // 0.5
 */
export function fromSi(value: number, kind: Kind, unit: string): number {
  const { factor, offset } = namedUnit(kind, unit);
  return value / factor - offset;
}

/**
 * A difference of two SI values, as a number in some unit: as `fromSi`, but a difference of temperatures has no zero point.
 *
 *     number = SI difference ÷ factor
 *
 * @param difference  the difference, in SI; finite
 * @param kind        which kind of quantity
 * @param unit        a unit of that kind
 * @returns           the number in that unit; 0 for 0
 * @throws            RangeError when the kind has no such unit
 * @source            NIST SP 811 (2008), Appendix B.8 and B.9
 * @example           differenceFromSi(10, "temperature", "degF") // 18
 */
export function differenceFromSi(difference: number, kind: Kind, unit: string): number {
  return difference / namedUnit(kind, unit).factor;
}
