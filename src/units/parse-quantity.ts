import { shorten } from "../util/shorten.ts";
import { type ParseFailure, parseFailure, parseLeadingNumber } from "./parse-number.ts";
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Kelvin,
  Kilograms,
  Metres,
  MetresPerSecond,
  Newtons,
  NewtonsPerMetre,
  Pascals,
  Radians,
  Ratio,
  Rpm,
  Speed,
  SquareMetres,
  Watts,
  WattsPerFlow,
} from "./quantity.ts";
import { acceptedUnits, findUnit, type Kind, kindsWith, nearestUnit, nounOf, type Unit, unitsOf } from "./table.ts";

/** The SI type of each kind. */
export type ValueOf = {
  readonly length: Metres;
  readonly area: SquareMetres;
  readonly volume: CubicMetres;
  readonly flow: CubicMetresPerSecond;
  readonly pressure: Pascals;
  readonly temperature: Kelvin;
  readonly angle: Radians;
  readonly speed: Speed;
  readonly rotation: Rpm;
  readonly ratio: Ratio;
  readonly force: Newtons;
  readonly springRate: NewtonsPerMetre;
  readonly power: Watts;
  readonly powerPerFlow: WattsPerFlow;
  readonly mass: Kilograms;
};

/** A parsed quantity. */
export type Quantity<K extends Kind> = {
  readonly ok: true;
  readonly value: ValueOf[K];
  /** Name of the unit it was typed in, or that a bare number took. */
  readonly unit: string;
  /** Whether the unit was typed. */
  readonly unitTyped: boolean;
  /** Digits after the point as typed; for a fraction, those usual for the unit. */
  readonly decimals: number;
  /** Size of the last digit typed, in SI; for a fraction, of one part of it. */
  readonly resolution: number;
};

function resolveTypedUnit(unitText: string, number: string, kind: Kind): Unit | ParseFailure {
  const found = findUnit(kind, unitText);
  if (found && found.name !== "plain") return found;
  const typed = shorten(unitText);
  const others = kindsWith(unitText).filter((other) => other !== kind);
  const write = kind === "ratio" ? `write ${number} % or a plain number` : `accepted units: ${acceptedUnits(kind)}`;
  if (others[0]) {
    return parseFailure(
      "units/wrong-kind",
      `\`${typed}\` is the unit of ${nounOf(others[0])}, not of ${nounOf(kind)}`,
      write,
    );
  }
  const near = nearestUnit(kind, unitText);
  const message = `\`${typed}\` is not a unit of ${nounOf(kind)}`;
  return parseFailure(
    "units/unknown-unit",
    message,
    near ? `did you mean ${number} ${near}? Accepted units: ${acceptedUnits(kind)}` : write,
  );
}

function resolveBareUnit(number: string, kind: Kind, bareUnit: string | undefined): Unit | ParseFailure {
  const name = bareUnit ?? (kind === "ratio" ? "plain" : undefined);
  const found = name === undefined ? undefined : findUnit(kind, name);
  if (found) return found;
  const examples = [...unitsOf(kind)].sort((a, b) => hintRank(a) - hintRank(b)).slice(0, 2);
  const hint = `write ${examples.map((unit) => `${number} ${unit.name}`).join(" or ")}`;
  return parseFailure("units/missing-unit", `${nounOf(kind)} needs a unit`, hint);
}

// Units that a hint lists first.
const HINT_UNITS = ["mm", "in", "mm2", "in2", "cc", "cfm", "m3/h", "inH2O", "kPa", "degF", "degC", "Mach", "ft/s"];
const hintRank = (unit: Unit) => (HINT_UNITS.includes(unit.name) ? HINT_UNITS.indexOf(unit.name) : HINT_UNITS.length);

/**
 * Parses a quantity: a number with a unit, or a bare number that takes the unit of its kind.
 *
 *     SI value = (number + offset) · factor of the unit
 *
 * @param text      what was typed: `34.0 mm`, `11/32 in`, `1 1/4 in`, `1.280"`, `45°`, `0.55 Mach`
 * @param kind      which kind of quantity is wanted
 * @param bareUnit  the unit that a bare number takes; left out, a bare number is refused (a ratio's is taken as it is)
 * @returns         the value in SI with its unit, decimals and resolution; or the failure. A negative value parses:
 *                  the key's rule decides whether it is allowed
 * @source          NIST SP 811 (2008), Appendix B.8
 * @example         parseQuantity("11/32 in", "length") // { ok: true, value: 0.00873125, unit: "in", unitTyped: true, decimals: 3, resolution: 0.00079375 }
 */
export function parseQuantity<K extends Kind>(text: string, kind: K, bareUnit?: string): Quantity<K> | ParseFailure {
  const number = parseLeadingNumber(text, kind);
  if (!number.ok) return number;
  const unitTyped = number.rest !== "";
  const unit = unitTyped
    ? resolveTypedUnit(number.rest, number.digits, kind)
    : resolveBareUnit(number.digits, kind, bareUnit);
  if ("ok" in unit) return unit;

  const si = (number.value + unit.offset) * unit.factor;
  const value = (kind === "speed" ? toSpeed(unit, si) : si) as ValueOf[K];
  return {
    ok: true,
    value,
    unit: unit.name,
    unitTyped,
    decimals: number.decimals ?? unit.decimals,
    resolution: number.step * unit.factor,
  };
}

const toSpeed = ({ name }: Unit, si: number): Speed =>
  name === "Mach" ? { kind: "mach", value: si as Ratio } : { kind: "absolute", value: si as MetresPerSecond };

/**
 * A ratio that is a percentage by nature (accuracy, humidity): as a ratio, but a bare number of 1 or more is refused, since
 * `45` may mean 45 % and would be read as 4500 %.
 *
 *     ratio = number ÷ 100 with the sign %, else the number
 *
 * @param text  what was typed: `45 %` or `0.45`
 * @returns     the ratio with its unit, decimals and resolution; or the failure
 * @source      NIST SP 811 (2008), §7.10.2
 * @example     parsePercentage("45 %") // { ok: true, value: 0.45, unit: "%", unitTyped: true, decimals: 0, resolution: 0.01 }
 */
export function parsePercentage(text: string): Quantity<"ratio"> | ParseFailure {
  const parsed = parseQuantity(text, "ratio");
  if (!parsed.ok || parsed.unitTyped || Math.abs(parsed.value) < 1) return parsed;
  return parseFailure("units/missing-percent", "a percentage needs its sign", `write ${text.trim()} %`);
}
