import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { type DisplayUnits, SIDES } from "../../model/model.ts";
import { fromSi } from "../../units/convert.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import { defaultDecimals } from "../../units/show.ts";
import { UsageError } from "../environment.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { SHELF_KEYS, type ShelfKey } from "./shelf-keys.ts";

type Test = (entry: ShelfEntry) => boolean;
const FORM = /^\s*([a-z_.]+)\s*(>=|<=|!=|=|>|<|~)\s*(.*?)\s*$/i;

/**
 * Parses a condition: a key, one of >= <= > < = ~, and a value: `intake.valve>=42mm`, `head~alloy`, `issued>=2026-03`. A job that
 * lacks the key never matches.
 */
export function parseCondition(typed: string, units: DisplayUnits): Test {
  const [, name = "", sign = "", value = ""] = FORM.exec(typed) ?? [];
  if (value === "")
    throw new UsageError(
      `--where takes a key, a sign and a value, such as intake.valve>=42mm or head~alloy; this is neither: \`${typed}\``,
    );
  const key = findKey(name, "--where");
  return key.holds === "text" ? textTest(key, sign, value) : numberTest(key, name, sign, value, units);
}

function textTest(key: ShelfKey & { holds: "text" }, sign: string, value: string): Test {
  const wanted = value.toLowerCase();
  const meets: Record<string, (text: string) => boolean> = {
    "~": (text) => text.includes(wanted),
    "=": (text) => text === wanted,
    "!=": (text) => text !== wanted,
    ">=": (text) => text >= wanted,
    ">": (text) => text > wanted,
    "<": (text) => text < wanted,
    // `issued<=2026-03` includes all of March.
    "<=": (text) => text <= wanted || text.startsWith(wanted),
  };
  return (entry) => {
    const text = key.of(entry)?.toLowerCase();
    return text !== undefined && meets[sign]!(text);
  };
}

function numberTest(
  key: ShelfKey & { holds: "number" },
  name: string,
  sign: string,
  value: string,
  units: DisplayUnits,
): Test {
  if (sign === "~") throw new UsageError(`--where: \`${name}\` is a number; ~ looks for words in a text`);
  const unit = key.unit(units);
  const wanted = parseQuantity(value, key.kind, unit);
  if (!wanted.ok) throw new UsageError(`--where: ${wanted.message}${wanted.hint ? ` (${wanted.hint})` : ""}`);
  const limit = wanted.value as number;
  // Compares at the precision of the table: 1.654 in as typed equals 1.654 in as shown.
  const scale = 10 ** defaultDecimals(key.kind, wanted.unit);
  const shown = (si: number) => Math.round(fromSi(si, key.kind, wanted.unit) * scale);
  const meets: Record<string, (steps: number) => boolean> = {
    "=": (steps) => steps === 0,
    "!=": (steps) => steps !== 0,
    ">=": (steps) => steps >= 0,
    "<=": (steps) => steps <= 0,
    ">": (steps) => steps > 0,
    "<": (steps) => steps < 0,
  };
  return (entry) => {
    const si = key.of(entry);
    return si !== undefined && meets[sign]!(shown(si) - shown(limit));
  };
}

/** Finds a key by name; an unknown name is an error with the nearest known one. */
function findKey(name: string, option: string): ShelfKey {
  if (Object.hasOwn(SHELF_KEYS, name)) return SHELF_KEYS[name]!;
  const ofSides = SIDES.map((side) => `${side}.${name}`).filter((one) => Object.hasOwn(SHELF_KEYS, one));
  const near = ofSides.length > 0 ? ofSides : [didYouMean(name, Object.keys(SHELF_KEYS)) ?? []].flat();
  const meant = near.map((one) => `\`${one}\``).join(" or ");
  throw new UsageError(
    `${option}: \`${name}\` is no key of the shelf${meant && ` (did you mean ${meant}?)`}; it is one of ${Object.keys(SHELF_KEYS).join(", ")}`,
  );
}

/** Parses an order: a key, or a key with `:desc`. Jobs without the key come last; ties are ordered by file. */
export function parseOrder(typed: string): (a: ShelfEntry, b: ShelfEntry) => number {
  const [name = "", way = "asc", ...more] = typed.split(":");
  if (more.length > 0 || !["asc", "desc"].includes(way))
    throw new UsageError(`--sort takes a key, or a key with :desc, such as intake.peak:desc: \`${typed}\``);
  const key = findKey(name, "--sort");
  const sign = way === "desc" ? -1 : 1;
  return (a, b) => {
    const [x, y] = [key.of(a), key.of(b)];
    if (x === undefined || y === undefined) return x === y ? compareFiles(a, b) : x === undefined ? 1 : -1;
    const order = typeof x === "number" && typeof y === "number" ? x - y : natural(String(x), String(y));
    return sign * order || compareFiles(a, b);
  };
}

const { compare: natural } = new Intl.Collator("en", { numeric: true });

/** Natural order of file names. */
export const compareFiles = (a: ShelfEntry, b: ShelfEntry): number =>
  natural(a.file, b.file) || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0);
