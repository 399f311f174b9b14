import type { DisplayUnits } from "../model/model.ts";
import { differenceFromSi, fromSi } from "../units/convert.ts";
import { defaultDecimals, formatNumber, formatSigned, unitSymbol, withUnit } from "../units/show.ts";
import type { Kind } from "../units/table.ts";

/** What a sheet shows. Lifts are lengths with their own decimals; engine speeds and angles have one unit only. */
export type DisplayKind =
  | "lift"
  | "length"
  | "area"
  | "volume"
  | "flow"
  | "pressure"
  | "barometer"
  | "temperature"
  | "speed"
  | "force"
  | "power"
  | "angle"
  | "rotation";

/** SI values in the units and decimals of this sheet. */
export type Display = {
  /** In the display unit, unrounded: for charts. */
  readonly number: (kind: DisplayKind, si: number) => number;
  /** Rounded, without its unit. */
  readonly digits: (kind: DisplayKind, si: number, decimals?: number) => string;
  /** Rounded, with its unit. */
  readonly full: (kind: DisplayKind, si: number, decimals?: number) => string;
  /** A difference without its unit, plus or minus first. */
  readonly signed: (kind: DisplayKind, si: number, decimals?: number) => string;
  readonly unit: (kind: DisplayKind) => string;
  readonly decimals: (kind: DisplayKind) => number;
};

/**
 * How this sheet shows numbers. `lifts` are all lifts that it prints: they share the fewest decimals that tell them as typed.
 * A gas speed shown as Mach takes the speed of sound of the reference air.
 */
export function createDisplay(units: DisplayUnits, lifts: readonly number[], soundSpeed: number): Display {
  const kindOf = (shown: DisplayKind): Kind =>
    shown === "lift" ? "length" : shown === "barometer" ? "pressure" : shown;
  const unitOf = (shown: DisplayKind): string => {
    if (shown === "lift") return units.length;
    if (shown === "barometer") return barometerUnit(unitSymbol("pressure", units.pressure));
    if (shown === "angle") return "deg";
    return shown === "rotation" ? "rpm" : units[shown];
  };
  const mach = unitSymbol("speed", units.speed) === "Mach";
  const number = (shown: DisplayKind, si: number) =>
    fromSi(shown === "speed" && mach ? si / soundSpeed : si, kindOf(shown), unitOf(shown));
  const liftDecimals = lengthDecimals(
    unitSymbol("length", units.length),
    lifts.map((lift) => number("lift", lift)),
    defaultDecimals("length", units.length),
  );
  const decimals = (shown: DisplayKind) =>
    shown === "lift" ? liftDecimals : defaultDecimals(kindOf(shown), unitOf(shown));
  const digits = (shown: DisplayKind, si: number, places = decimals(shown)) => formatNumber(number(shown, si), places);
  return {
    number,
    digits,
    full: (shown, si, places) => withUnit(digits(shown, si, places), kindOf(shown), unitOf(shown)),
    signed: (shown, si, places = decimals(shown)) =>
      formatSigned(differenceFromSi(si, kindOf(shown), unitOf(shown)), places),
    unit: (shown) => unitSymbol(kindOf(shown), unitOf(shown)),
    decimals,
  };
}

/** The fewest decimals that show every value as typed; `most` where there is no end to them. */
export function fewestDecimals(values: readonly number[], most: number): number {
  for (let places = 0; places < most; places += 1) if (isExactAt(values, places)) return places;
  return most;
}

const isExactAt = (values: readonly number[], places: number): boolean => {
  const scale = 10 ** places;
  return values.every((value) => Math.abs(value * scale - Math.round(value * scale)) < 1e-6 * scale);
};

/**
 * Inches go by thousandths, millimetres by tenths, unless one was typed finer: a flatness of 0.0015 in keeps its tenths of a
 * thou. A conversion has no last digit and stays at the usual ones.
 */
function lengthDecimals(symbol: string, values: readonly number[], most: number): number {
  const least = symbol === "in" ? most : Math.max(0, most - 1);
  const typedFiner = !isExactAt(values, most) && isExactAt(values, most + 1);
  return typedFiner ? most + 1 : Math.max(least, fewestDecimals(values, most));
}

/** A barometer is read in the big units of its bench's family: no porter reads 406.8 inches of water. */
const barometerUnit = (symbol: string): string =>
  ["inH₂O", "inHg", "psi"].includes(symbol)
    ? "inHg"
    : symbol === "mmHg"
      ? "mmHg"
      : /^k?Pa$/.test(symbol)
        ? "kPa"
        : "mbar";

/** Decimals that numbers of one kind share: the fewest that keep what was typed. Numbers are in the display unit already. */
export function sharedDecimals(display: Display, kind: DisplayKind, numbers: readonly number[]): number {
  const most = display.decimals(kind);
  if (kind === "length") return lengthDecimals(display.unit(kind), numbers, most);
  return kind === "pressure" || kind === "temperature" ? fewestDecimals(numbers, most) : most;
}

/** One SI value in the fewest decimals that keep it, with its unit. */
export const formatShortest = (display: Display, kind: DisplayKind, si: number): string =>
  display.full(kind, si, sharedDecimals(display, kind, [display.number(kind, si)]));

/** A ratio in percent. */
export const formatPercent = (ratio: number, decimals = 1): string =>
  withUnit(formatPercentDigits(ratio, decimals), "ratio", "%");

/** The same without the unit, for a column that has it in its head. */
export const formatPercentDigits = (ratio: number, decimals = 1): string => formatNumber(ratio * 100, decimals);

/** A change in percent without the unit, plus or minus first. */
export const formatSignedPercentDigits = (ratio: number, decimals = 1): string => formatSigned(ratio * 100, decimals);
