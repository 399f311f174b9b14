import { editDistance } from "../diagnostics/did-you-mean.ts";
import { shorten } from "../util/shorten.ts";
import { acceptedUnits, findUnit, type Kind, nounOf } from "./table.ts";

/** Why a quantity could not be parsed, as parts of a diagnostic. */
export type ParseFailure = {
  readonly ok: false;
  readonly code: `units/${string}`;
  readonly message: string;
  readonly hint?: string;
};

/** Builds a failure, with the accepted form as its hint. */
export const parseFailure = (code: ParseFailure["code"], message: string, hint: string): ParseFailure => ({
  ok: false,
  code,
  message,
  hint,
});

/** The number at the head of a quantity. */
type LeadingNumber = {
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
/** A number in which an O stands for a 0, or an l for a 1. */
const LETTERED = /^[\dOolI]+(?:\.[\dOolI]+)?(?=$| )/;
/** Every dash but the ASCII hyphen-minus. */
const ODD_MINUS = /^[\u2010-\u2015\u2212\ufe63\uff0d]\s*(?=[\d.])/;

/** The parts into which an inch is divided on a rule. */
const INCH_DENOMINATORS = [2, 4, 8, 16, 32, 64, 128];

/** The part that a mistyped one most likely stands for: with its digits swapped, with one digit wrong, else the nearest in size. */
function nearestPart(typed: string): number {
  const size = Number(typed);
  const distance = (part: number) => editDistance(typed, String(part)) + Math.abs(Math.log(part / size)) / 10;
  return INCH_DENOMINATORS.reduce((best, part) => (distance(part) < distance(best) ? part : best));
}

function parseFraction(match: RegExpExecArray, text: string): LeadingNumber | ParseFailure {
  const parts = match.slice(2).map(Number);
  const [whole, above, below] = (parts.length === 3 ? parts : [0, ...parts]) as [number, number, number];
  if (!below)
    return parseFailure("units/fraction", `\`${match[0]}\` divides by zero`, "write the fraction as 11/32 in");
  if (!INCH_DENOMINATORS.includes(below)) {
    const meant = nearestPart(match.at(-1)!);
    const rest = text.slice(match[0].length);
    const whole = `${match[0].slice(0, -match.at(-1)!.length)}${meant}${rest}`;
    return parseFailure(
      "units/fraction",
      `\`${match[0]}\` is not a fraction of an inch: no rule is divided into ${below} parts`,
      `did you mean ${whole}? The lower number is ${INCH_DENOMINATORS.slice(0, -1).join(", ")} or ${INCH_DENOMINATORS.at(-1)}`,
    );
  }
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
 * Parses the number at the head of a quantity: a decimal number, a fraction or a whole number with a fraction.
 *
 *     value = whole + above ÷ below, or the decimal number
 *
 * @param text  what was typed
 * @param kind  the kind of quantity wanted, for the wording of a refusal
 * @returns     the number and what follows it; or the failure
 * @source      what porters type: common practice
 * @example     parseLeadingNumber("1 1/4 in", "length") // { ok: true, value: 1.25, digits: "1 1/4", decimals: undefined, step: 0.25, rest: "in" }
 */
export function parseLeadingNumber(text: string, kind: Kind): LeadingNumber | ParseFailure {
  const plain = PLAIN.exec(text);
  return plain === null
    ? parseUncommonNumber(text, kind)
    : decimalNumber(plain[1]!, plain[2]?.length ?? 0, plain[3] ?? "");
}

/** Fast path for the common form: digits, alone or with a unit after a blank. */
const PLAIN = /^(\d{1,7}(?:\.(\d{1,6}))?)(?: ([A-Za-z]\w*))?$/;

/** Size of a last digit, by how many there are after the point: at most 15 digits are read. */
const STEPS = Array.from({ length: 16 }, (_, decimals) => 10 ** -decimals);

const decimalNumber = (digits: string, decimals: number, rest: string): LeadingNumber => ({
  ok: true,
  value: Number(digits),
  digits,
  decimals,
  step: STEPS[decimals]!,
  rest,
});

function parseUncommonNumber(text: string, kind: Kind): LeadingNumber | ParseFailure {
  const typed = text.replace(/[\s\u00a0\u2000-\u200a\u202f\u205f\u3000]+/g, " ").trim();
  const noun = nounOf(kind);
  const wanted =
    kind === "ratio" ? "write 45 % or a plain number" : `write a number with a unit: ${acceptedUnits(kind)}`;

  if (typed === "") return parseFailure("units/not-a-number", `${noun} is missing`, wanted);
  const odd = ODD_MINUS.exec(typed);
  if (odd) {
    const plain = typed.slice(odd[0].length);
    return parseFailure("units/minus", `\`${odd[0].trim()}\` is a dash, not a minus sign`, `write -${plain}`);
  }
  const mixed = MIXED.exec(typed) ?? FRACTION.exec(typed);
  if (mixed) return parseFraction(mixed, typed);

  const lettered = LETTERED.exec(typed)?.[0];
  if (lettered && /\d/.test(lettered) && /[OolI]/.test(lettered)) {
    const digits = lettered.replace(/[Oo]/g, "0").replace(/[lI]/g, "1") + typed.slice(lettered.length);
    const message = `\`${shorten(lettered)}\` has a letter among its digits`;
    return parseFailure("units/not-a-number", message, `did you mean ${shorten(digits)}?`);
  }
  const decimal = DECIMAL.exec(typed);
  const swapped = /^([A-Za-z%°]+) ?([\d.]+)$/.exec(typed);
  if (swapped && findUnit(kind, swapped[1]!)) {
    const message = `the unit \`${swapped[1]}\` stands before its number`;
    return parseFailure("units/order", message, `write ${swapped[2]} ${swapped[1]}`);
  }
  if (!decimal) return parseFailure("units/not-a-number", `\`${shorten(typed)}\` is not ${noun}`, wanted);
  const digits = decimal[0];
  const rest = typed.slice(digits.length);

  if (/^,\d/.test(rest)) {
    const comma = /^[+-]?[\d.]+(?:,\d+)+/.exec(typed)![0];
    const { message, hint } = decimalCommaWords(comma, typed.replace(",", "."));
    return parseFailure("units/decimal-comma", message, hint);
  }
  if (/^[eE][+-]?\d/.test(rest)) {
    const whole = /^[^\s]+/.exec(typed)![0];
    return parseFailure(
      "units/exponent",
      `\`${shorten(whole)}\` is written with an exponent`,
      "write the number in full",
    );
  }
  if (/^[.\d/]/.test(rest)) return parseFailure("units/not-a-number", `\`${shorten(typed)}\` is not ${noun}`, wanted);
  if (digits.replace(/\D/g, "").length > 15) {
    return parseFailure(
      "units/too-many-digits",
      `\`${shorten(digits)}\` has more digits than can be kept`,
      "write at most 15",
    );
  }
  return decimalNumber(digits, (decimal[1] ?? decimal[2] ?? "").length, rest.trim());
}

/**
 * The words of the error about a number that has a comma.
 *
 *     message and hint
 *
 * @param comma  the number as typed
 * @param point  the same with a point
 * @returns      both, long texts shortened
 * @source       ISO 80000-1 (2022), 7.3.2: the decimal sign (from memory)
 * @example      decimalCommaWords("1,5", "1.5") // { message: "`1,5` has a comma in the number", hint: "write 1.5; thousands take no comma" }
 */
export const decimalCommaWords = (comma: string, point: string) => ({
  message: `\`${shorten(comma)}\` has a comma in the number`,
  hint: `write ${shorten(point)}; thousands take no comma`,
});
