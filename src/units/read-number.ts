import { type Refused, refuse } from "./refused.ts";
import { acceptedUnits, findUnit, type Kind, nounOf } from "./table.ts";

/** The number at the head of a quantity. */
export type ReadNumber = {
  readonly ok: true;
  readonly value: number;
  /** The number as typed, for hints. */
  readonly digits: string;
  /** Digits after the point; undefined for a fraction. */
  readonly decimals: number | undefined;
  /** Size of the last digit, or of one part of a fraction. */
  readonly step: number;
  /** What follows the number, trimmed. */
  readonly rest: string;
};

const MIXED = /^([+-]?)(\d{1,6})[ -](\d{1,6})\/(\d{1,6})(?![\d.])/;
const FRACTION = /^([+-]?)(\d{1,6})\/(\d{1,6})(?![\d.])/;
const DECIMAL = /^[+-]?(?:\d+(?:\.(\d*))?|\.(\d+))/;
/** Every dash but the one on the keyboard. */
const ODD_MINUS = /^[\u2010-\u2015\u2212\ufe63\uff0d]\s*(?=[\d.])/;

function fraction(match: RegExpExecArray, text: string): ReadNumber | Refused {
  const parts = match.slice(2).map(Number);
  const [whole, above, below] = (parts.length === 3 ? parts : [0, ...parts]) as [number, number, number];
  if (!below) return refuse("units/fraction", `\`${match[0]}\` divides by zero`, "write the fraction as 11/32 in");
  const size = whole + above / below;
  const value = match[1] === "-" ? -size : size;
  return {
    ok: true,
    value,
    digits: match[0],
    decimals: undefined,
    step: 1 / below,
    rest: text.slice(match[0].length).trim(),
  };
}

/**
 * Reads the number at the head of a quantity: a decimal number, a fraction or a whole number with a fraction.
 *
 *     value = whole + above ÷ below, or the decimal number
 *
 * @param text  what was typed
 * @param kind  the kind of quantity wanted, for the wording of a refusal
 * @returns     the number and what follows it; or why it is refused
 * @source      what porters type: common practice
 * @example     readNumber("1 1/4 in", "length") // { ok: true, value: 1.25, digits: "1 1/4", decimals: undefined, step: 0.25, rest: "in" }
 */
export function readNumber(text: string, kind: Kind): ReadNumber | Refused {
  const plain = PLAIN.exec(text);
  return plain === null ? readOther(text, kind) : ofDecimal(plain[1]!, plain[2]?.length ?? 0, plain[3] ?? "");
}

/** What nearly all quantities are: digits, alone or with a unit after a blank. */
const PLAIN = /^(\d{1,7}(?:\.(\d{1,6}))?)(?: ([A-Za-z]\w*))?$/;

/** Size of a last digit, by how many there are after the point: at most 15 digits are read. */
const STEPS = Array.from({ length: 16 }, (_, decimals) => 10 ** -decimals);

const ofDecimal = (digits: string, decimals: number, rest: string): ReadNumber => ({
  ok: true,
  value: Number(digits),
  digits,
  decimals,
  step: STEPS[decimals]!,
  rest,
});

function readOther(text: string, kind: Kind): ReadNumber | Refused {
  const typed = text.replace(/[\s\u00a0\u2000-\u200a\u202f\u205f\u3000]+/g, " ").trim();
  const noun = nounOf(kind);
  const wanted =
    kind === "ratio" ? "write 45 % or a plain number" : `write a number with a unit: ${acceptedUnits(kind)}`;

  if (typed === "") return refuse("units/not-a-number", `${noun} is missing`, wanted);
  const odd = ODD_MINUS.exec(typed);
  if (odd) {
    const plain = typed.slice(odd[0].length);
    return refuse("units/minus", `\`${odd[0].trim()}\` is a dash, not a minus sign`, `write -${plain}`);
  }
  const mixed = MIXED.exec(typed) ?? FRACTION.exec(typed);
  if (mixed) return fraction(mixed, typed);

  const decimal = DECIMAL.exec(typed);
  const swapped = /^([A-Za-z%°]+) ?([\d.]+)$/.exec(typed);
  if (swapped && findUnit(kind, swapped[1]!)) {
    const message = `the unit \`${swapped[1]}\` stands before its number`;
    return refuse("units/order", message, `write ${swapped[2]} ${swapped[1]}`);
  }
  if (!decimal) return refuse("units/not-a-number", `\`${shortened(typed)}\` is not ${noun}`, wanted);
  const digits = decimal[0];
  const rest = typed.slice(digits.length);

  if (/^,\d/.test(rest)) {
    const point = typed.replace(",", ".");
    const comma = /^[+-]?[\d.]+(?:,\d+)+/.exec(typed)![0];
    return refuse(
      "units/decimal-comma",
      `\`${shortened(comma)}\` has a comma in the number`,
      `write ${shortened(point)}; thousands take no comma`,
    );
  }
  if (/^[eE][+-]?\d/.test(rest)) {
    const whole = /^[^\s]+/.exec(typed)![0];
    return refuse("units/exponent", `\`${shortened(whole)}\` is written with an exponent`, "write the number in full");
  }
  if (/^[.\d/]/.test(rest)) return refuse("units/not-a-number", `\`${shortened(typed)}\` is not ${noun}`, wanted);
  if (digits.replace(/\D/g, "").length > 15) {
    return refuse(
      "units/too-many-digits",
      `\`${shortened(digits)}\` has more digits than can be kept`,
      "write at most 15",
    );
  }
  return ofDecimal(digits, (decimal[1] ?? decimal[2] ?? "").length, rest.trim());
}

/** Nobody needs the whole of a pasted page echoed. */
const shortened = (text: string) => (text.length > 40 ? `${text.slice(0, 39)}…` : text);
