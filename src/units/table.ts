import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { memoize } from "../util/memoize.ts";

/** Kind of quantity. */
export type Kind =
  | "length"
  | "area"
  | "volume"
  | "flow"
  | "pressure"
  | "temperature"
  | "angle"
  | "speed"
  | "rotation"
  | "ratio"
  | "force"
  | "springRate"
  | "power"
  | "powerPerFlow"
  | "mass";

/** One accepted unit. SI value = (number + offset) × factor. */
export type Unit = {
  /** As it is typed in a job file, and as other folders name it. */
  readonly name: string;
  /** As it is printed. */
  readonly symbol: string;
  /** Size in SI. For Mach the share of the speed of sound itself. */
  readonly factor: number;
  /** Added before the factor applies; only temperatures have one. */
  readonly offset: number;
  /** Usual number of decimals on a sheet. */
  readonly decimals: number;
  /** Other ways of typing it, already folded (see `fold`). */
  readonly aliases: readonly string[];
};

type KindRow = { readonly noun: string; readonly units: readonly Unit[] };

const unit = (
  name: string,
  symbol: string,
  factor: number,
  decimals: number,
  aliases: readonly string[] = [],
  offset = 0,
): Unit => ({ name, symbol, factor, offset, decimals, aliases });

// The defining numbers: NIST SP 811 (2008), Appendix B.8; everything below is a product of them.
const INCH = 0.0254;
const FOOT = 12 * INCH;
const POUND = 0.45359237;
const GRAVITY = 9.80665;
const WATER = 1000; // conventional, kg/m³
const MERCURY = 13595.1; // conventional, kg/m³
const POUND_FORCE = POUND * GRAVITY;
const HORSEPOWER = 550 * FOOT * POUND_FORCE; // mechanical
const CFM = FOOT ** 3 / 60;

/** Every kind with its accepted units, in the order in which messages list them. */
const TABLE: Readonly<Record<Kind, KindRow>> = {
  length: {
    noun: "a length",
    units: [
      unit("in", "in", INCH, 3, ["inch", "inches", '"', "''"]),
      unit("thou", "thou", INCH / 1000, 0, ["mil", "thousandths"]),
      unit("mm", "mm", 1e-3, 2, ["millimetre", "millimetres", "millimeter", "millimeters"]),
      unit("cm", "cm", 1e-2, 3, ["centimetre", "centimetres", "centimeter", "centimeters"]),
      unit("um", "µm", 1e-6, 1, ["micrometre", "micrometres", "micron", "microns", "\u03bcm"]),
      unit("uin", "µin", INCH / 1e6, 0, ["microinch", "microinches", "\u03bcin"]),
    ],
  },
  area: {
    noun: "an area",
    units: [
      unit("in2", "in²", INCH ** 2, 3, ["sqin", "squareinch", "squareinches"]),
      unit("mm2", "mm²", 1e-6, 0, ["sqmm"]),
      unit("cm2", "cm²", 1e-4, 2, ["sqcm"]),
    ],
  },
  volume: {
    noun: "a volume",
    units: [
      unit("cc", "cc", 1e-6, 1, ["ccm"]),
      unit("cm3", "cm³", 1e-6, 1),
      unit("ml", "mL", 1e-6, 1, ["millilitre", "millilitres", "milliliter", "milliliters"]),
      unit("in3", "in³", INCH ** 3, 2, ["cuin", "cubicinch", "cubicinches"]),
    ],
  },
  flow: {
    noun: "a flow",
    units: [
      unit("cfm", "cfm", CFM, 1, ["ft3/min", "cuft/min"]),
      unit("m3/h", "m³/h", 1 / 3600, 1, ["m3/hr", "cbm/h"]),
      unit("l/s", "L/s", 1e-3, 1, ["litres/s", "liters/s", "lps"]),
      unit("m3/s", "m³/s", 1, 4),
    ],
  },
  pressure: {
    noun: "a pressure",
    units: [
      unit("inH2O", "inH₂O", INCH * WATER * GRAVITY, 1, ["inwater", "inwc", "inwg", '"h2o', '"wc']),
      unit("cmH2O", "cmH₂O", 0.01 * WATER * GRAVITY, 1),
      unit("mmH2O", "mmH₂O", 0.001 * WATER * GRAVITY, 0),
      unit("kPa", "kPa", 1e3, 2),
      unit("mbar", "mbar", 100, 1, ["hpa"]),
      unit("Pa", "Pa", 1, 0),
      unit("inHg", "inHg", INCH * MERCURY * GRAVITY, 2, ['"hg']),
      unit("mmHg", "mmHg", 0.001 * MERCURY * GRAVITY, 1),
      unit("psi", "psi", POUND_FORCE / INCH ** 2, 2, ["lbf/in2", "lb/in2"]),
    ],
  },
  temperature: {
    noun: "a temperature",
    units: [
      unit("degF", "°F", 5 / 9, 0, ["f", "fahrenheit"], 459.67),
      unit("degC", "°C", 1, 1, ["c", "celsius"], 273.15),
      unit("K", "K", 1, 1, ["kelvin"]),
    ],
  },
  angle: { noun: "an angle", units: [unit("deg", "°", Math.PI / 180, 0, ["degree", "degrees"])] },
  speed: {
    noun: "a speed",
    units: [
      unit("ft/s", "ft/s", FOOT, 0, ["fps", "ft/sec"]),
      unit("m/s", "m/s", 1, 1, ["m/sec"]),
      unit("Mach", "Mach", 1, 2, ["ma"]),
    ],
  },
  rotation: { noun: "an engine speed", units: [unit("rpm", "rpm", 1, 0, ["r/min", "1/min", "rev/min"])] },
  ratio: {
    noun: "a percentage or plain number",
    units: [unit("%", "%", 0.01, 1, ["percent", "pct"]), unit("plain", "", 1, 3)],
  },
  force: {
    noun: "a force",
    units: [
      unit("lbf", "lbf", POUND_FORCE, 0, ["lb", "lbs", "pounds"]),
      unit("N", "N", 1, 0, ["newton", "newtons"]),
      unit("kgf", "kgf", GRAVITY, 1, ["kp"]),
    ],
  },
  springRate: {
    noun: "a spring rate",
    units: [
      unit("lbf/in", "lbf/in", POUND_FORCE / INCH, 0, ["lb/in", "lbs/in"]),
      unit("N/mm", "N/mm", 1e3, 1),
      unit("kgf/mm", "kgf/mm", GRAVITY * 1e3, 2, ["kp/mm"]),
    ],
  },
  power: {
    noun: "a power",
    units: [
      unit("hp", "hp", HORSEPOWER, 0, ["bhp", "horsepower"]),
      unit("kW", "kW", 1e3, 0),
      unit("PS", "PS", 75 * GRAVITY, 0),
    ],
  },
  powerPerFlow: {
    noun: "a power per flow",
    units: [unit("hp/cfm", "hp/cfm", HORSEPOWER / CFM, 3), unit("kW/(l/s)", "kW/(L/s)", 1e6, 3, ["kw/l/s"])],
  },
  mass: {
    noun: "a mass",
    units: [unit("g", "g", 1e-3, 1, ["gram", "grams"]), unit("oz", "oz", POUND / 16, 2, ["ounce", "ounces"])],
  },
};

/**
 * All kinds of quantity, in the order of the table.
 *
 *     KINDS = the keys of the table
 *
 * @source   the accepted units of the job file; NIST SP 811 (2008), Appendix B.8, for their sizes
 * @example  KINDS.length // 15
 */
export const KINDS = Object.keys(TABLE) as readonly Kind[];

/** Folds case, spacing and typographic forms of a unit. */
const fold = (text: string) =>
  text
    .normalize("NFKC") // ² → 2, ₂ → 2, thin and no-break spaces → a blank
    .toLowerCase()
    .replace(/\s+/g, "")
    .replace(/°/g, "deg")
    .replace(/[″”“]|′′|’’/g, '"')
    .replace(/\^/g, "")
    .replace(/\.$/, "");

/**
 * The accepted units of a kind, in the order in which messages list them.
 *
 *     unitsOf(kind) = the table's rows for that kind
 *
 * @param kind  which kind of quantity
 * @returns     its units, at least one
 * @source      NIST SP 811 (2008), Appendix B.8
 * @example     unitsOf("temperature").map((unit) => unit.name) // ["degF", "degC", "K"]
 */
export const unitsOf = (kind: Kind): readonly Unit[] => TABLE[kind].units;

/**
 * Noun of a kind for a sentence.
 *
 *     nounOf(kind) = the table's noun for that kind, with its article
 *
 * @param kind  which kind of quantity
 * @returns     article and noun, lower case
 * @example     nounOf("area") // "an area"
 */
export const nounOf = (kind: Kind): string => TABLE[kind].noun;

/**
 * Finds a unit by its typed name, ignoring case, spacing and typographic forms.
 *
 *     findUnit(kind, typed) = the row whose name or alias equals `typed` once both are folded
 *
 * @param kind   which kind of quantity
 * @param typed  the unit as typed, such as `in²`, `INH2O` or `"`
 * @returns      the unit; undefined when this kind has none of that name
 * @source       NIST SP 811 (2008), Appendix B.8, for the units; the forms accepted are of our own
 * @example      findUnit("area", "IN²")?.name // "in2"
 */
export function findUnit(kind: Kind, typed: string): Unit | undefined {
  return lookUpUnit(kind, typed);
}

const lookUpUnit = memoize(
  (kind: Kind, typed: string): Unit | undefined => {
    const wanted = fold(typed);
    return TABLE[kind].units.find(({ name, aliases }) => fold(name) === wanted || aliases.includes(wanted));
  },
  { max: 256, key: (kind, typed) => `${kind} ${typed}` },
);

/** Index of units by exact name, as a sheet needs thousands of look-ups. */
const NAMED: ReadonlyMap<Kind, ReadonlyMap<string, Unit>> = new Map(
  KINDS.map((kind) => [kind, new Map(TABLE[kind].units.map((one) => [one.name, one]))]),
);

/**
 * The unit of a kind by the name used inside the program.
 *
 *     namedUnit(kind, name) = findUnit(kind, name), which must exist
 *
 * @param kind  which kind of quantity
 * @param name  a unit of that kind
 * @returns     the unit
 * @throws      RangeError when the kind has no such unit: a bug in the caller, for job/ has already checked `units`
 * @source      NIST SP 811 (2008), Appendix B.8
 * @example     namedUnit("length", "in").factor // 0.0254
 */
export function namedUnit(kind: Kind, name: string): Unit {
  const known = NAMED.get(kind)!.get(name);
  if (known) return known;
  const found = findUnit(kind, name);
  if (!found) throw new RangeError(`${nounOf(kind)} has no unit ${JSON.stringify(name)}`);
  return found;
}

/**
 * The kinds that have a unit, to name the kind that was typed instead of the expected one.
 *
 *     kindsWith(typed) = every kind for which findUnit(kind, typed) finds a row
 *
 * @param typed  the unit as typed
 * @returns      kinds in the order of the table; empty when no kind has it
 * @source       NIST SP 811 (2008), Appendix B.8
 * @example      kindsWith("kpa") // ["pressure"]
 */
export const kindsWith = (typed: string): readonly Kind[] => KINDS.filter((kind) => findUnit(kind, typed));

/**
 * The accepted units of a kind, spelled out for a message.
 *
 *     acceptedUnits(kind) = "a, b, c or d"
 *
 * @param kind  which kind of quantity
 * @returns     the names, as they are typed
 * @example     acceptedUnits("length") // "in, thou, mm, cm, um or uin"
 */
export function acceptedUnits(kind: Kind): string {
  const names = TABLE[kind].units.map((unit) => (unit.name === "plain" ? "a plain number" : unit.name));
  return names.length < 2 ? names.join() : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}

/**
 * The accepted unit that a mistyped one most likely stands for.
 *
 *     nearestUnit(kind, typed) = the name or alias within a slip or two of `typed`
 *
 * @param kind   which kind of quantity
 * @param typed  the unit as typed
 * @returns      its name; undefined when nothing is near
 * @example      nearestUnit("pressure", "inH20") // "inH2O"
 */
export function nearestUnit(kind: Kind, typed: string): string | undefined {
  // "plain" is an internal name that is not accepted as input.
  const typeable = TABLE[kind].units.filter((unit) => unit.name !== "plain");
  const forms = typeable.flatMap((unit) => [unit.name, ...unit.aliases]);
  const near = didYouMean(fold(typed), forms);
  return near === undefined ? undefined : findUnit(kind, near)!.name;
}
