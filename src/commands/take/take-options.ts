import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { acceptedUnits, findUnit, type Kind, nounOf } from "../../units/table.ts";
import { UsageError } from "../environment.ts";
import { type ColumnHead, parseColumnHead, type When } from "./column-head.ts";
import type { DecimalMark } from "./decimal-mark.ts";
import type { RunKeys } from "./find-place.ts";
import { DELIMITER_NAMES, DELIMITERS, type Delimiter } from "./split-rows.ts";

/** Options of `take` for parsing readings, as typed. */
export type ReadingOptions = {
  readonly separator?: string;
  readonly decimal?: string;
  readonly columns?: string;
  readonly side?: string;
  readonly units?: string;
};

/** Options of how readings are parsed, from the options of `take`. */
export type PastedOptions = {
  readonly delimiter?: Delimiter;
  readonly decimal?: DecimalMark;
  /** One entry a column; undefined for a column to leave out. */
  readonly columns?: readonly (ColumnHead | undefined)[];
  readonly side?: "intake" | "exhaust";
  readonly units: Readonly<Partial<Record<Kind, string>>>;
  /** Which columns to take from a table of two stages. */
  readonly when?: When;
};

const suggestWord = (typed: string, words: readonly string[]): string => {
  const near = didYouMean(typed, words);
  return near ? ` (did you mean ${near}?)` : "";
};

/** Parses the options. */
export function parsePastedOptions({ separator, decimal, columns, side, units }: ReadingOptions): PastedOptions {
  return {
    ...(separator === undefined ? {} : { delimiter: parseSeparator(separator) }),
    ...(decimal === undefined
      ? {}
      : { decimal: parseChoice("--decimal", decimal, { point: "point", ".": "point", comma: "comma", ",": "comma" }) }),
    ...(columns === undefined ? {} : { columns: parseColumns(columns) }),
    ...(side === undefined ? {} : { side: parseChoice("--side", side, { intake: "intake", exhaust: "exhaust" }) }),
    units: units === undefined ? {} : parseUnitPairs(units),
  };
}

function parseChoice<T>(option: string, typed: string, words: Readonly<Record<string, T>>): T {
  const known = Object.keys(words).filter((word) => /\w/.test(word));
  const found = Object.hasOwn(words, typed) ? words[typed] : undefined;
  if (found === undefined)
    throw new UsageError(`${option} is ${known.join(" or ")}, not \`${typed}\`${suggestWord(typed, known)}`);
  return found;
}

function parseSeparator(typed: string): Delimiter {
  const names = Object.fromEntries(
    DELIMITERS.flatMap((one) => [
      [DELIMITER_NAMES[one], one],
      [one, one],
    ]),
  );
  return parseChoice("--separator", typed, { ...names, "\\t": "\t" });
}

function parseColumns(typed: string): readonly (ColumnHead | undefined)[] {
  const columns = typed.split(",").map((name): ColumnHead | undefined => {
    if (name.trim() === "-") return undefined;
    const read = parseColumnHead(name);
    const known = ["lift", "intake", "exhaust", "flow", "pressure", "range", "note"];
    if (!read)
      throw new UsageError(
        `--columns: \`${name}\` is none of ${known.join(", ")}, or - for one to leave out${suggestWord(name, known)}`,
      );
    return read;
  });
  if (!columns.some((one) => one?.name === "lift"))
    throw new UsageError("--columns: there is no `lift` among them, such as lift,intake,exhaust");
  return columns;
}

function parseUnitPairs(typed: string): Readonly<Partial<Record<Kind, string>>> {
  const kinds = ["length", "flow", "pressure"] as const;
  const pairs = typed.split(",").map((pair) => {
    const [kind = "", unit = ""] = pair.split("=").map((part) => part.trim());
    const known = kinds.find((one) => one === kind) ?? (kind === "lift" ? "length" : undefined);
    if (!known)
      throw new UsageError(
        `--units takes pairs such as length=mm,flow=l/s; \`${kind}\` is none of ${kinds.join(", ")}${suggestWord(kind, kinds)}`,
      );
    if (!findUnit(known, unit))
      throw new UsageError(
        `--units: \`${unit}\` is not a unit of ${nounOf(known)}; it is one of ${acceptedUnits(known)}`,
      );
    return [known, unit];
  });
  return Object.fromEntries(pairs);
}

/** Parses the keys of a run; undefined for the short form. */
export function parseRunKeys(keys: RunKeys): RunKeys | undefined {
  for (const key of ["cylinder", "mount"] as const)
    if (keys[key] !== undefined && !/^[1-9]\d{0,5}$/.test(keys[key]))
      throw new UsageError(`--${key} is a whole number of 1 or more, not \`${keys[key]}\``);
  for (const key of ["set", "hand"] as const)
    if (keys[key] !== undefined && keys[key].trim() === "") throw new UsageError(`--${key} is empty`);
  const { cylinder, set, mount, hand } = keys;
  const stated = Object.fromEntries(
    Object.entries({ cylinder, set, mount, hand }).filter(([, value]) => value !== undefined),
  );
  return Object.keys(stated).length > 0 ? stated : undefined;
}
