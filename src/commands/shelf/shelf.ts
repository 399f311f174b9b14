import { resolve } from "node:path";
import type { DisplayUnits } from "../../model/model.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { countNoun } from "../report.ts";
import { readShelf } from "./read-shelf.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { formatShelfCsv } from "./shelf-keys.ts";
import { loadDisplay } from "./shelf-shop.ts";
import { formatShelf } from "./shelf-text.ts";
import { parseCondition, parseOrder } from "./where.ts";

type ShelfOptions = {
  readonly units?: Partial<DisplayUnits>;
  readonly pressure?: string;
  readonly sort?: string;
  readonly where: readonly string[];
  readonly near?: string;
  readonly most: number;
  readonly form: "text" | "json" | "csv";
  readonly pdf?: string;
  readonly cache: boolean;
};

/** Prints every job of a folder as one table, ranks the heads most alike to one, or writes an index to print. */
export async function showShelf(
  typed: string | undefined,
  options: ShelfOptions,
  environment: Environment,
): Promise<ExitCode> {
  const folder = findFolder(typed, environment);
  const shop = loadDisplay(folder, environment.io, environment.cwd);
  const units = { ...shop.units, ...options.units };
  const testPressure = parsePressure(options.pressure, units) ?? shop.testPressure;
  const shown = { folder, units, testPressure };
  const tests = options.where.map((one) => parseCondition(one, units));
  const order = parseOrder(options.sort ?? "file");
  const all = await readShelf(folder, testPressure, options.cache, environment);
  if (all.length === 0)
    throw new UsageError(
      `no job file under \`${typed ?? "jobs"}\`: a job file is a .yaml with \`job:\` or \`product:\``,
    );
  // Refused jobs have no figures to filter by and are always listed.
  const entries = all.filter((entry) => !isSound(entry) || tests.every((test) => test(entry))).toSorted(order);
  const refused = entries.filter((entry) => !isSound(entry)).length;
  const code = refused > 0 ? 1 : 0;

  if (options.near !== undefined) {
    const { showNearest: near } = await import("./near.ts");
    return Math.max(near(options.near, entries, shown, options, environment), code) as ExitCode;
  }
  if (options.pdf !== undefined) {
    // Importing fonts and layout takes longer than showing a cached shelf.
    const { printShelf } = await import("./print-shelf.ts");
    return (await printShelf(options.pdf, entries, shown, environment)) || code;
  }
  environment.out(
    options.form === "json"
      ? formatShelfJson(entries, testPressure)
      : options.form === "csv"
        ? formatShelfCsv(entries, units)
        : formatShelf(entries, units, testPressure, environment.width),
  );
  environment.err(`${countNoun(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused` : ""}\n`);
  return code;
}

/** One job a line: half the time of indented JSON, and searchable by line. */
function formatShelfJson(entries: readonly ShelfEntry[], testPressure: Pascals): string {
  const reference = JSON.stringify({ test_pressure_Pa: testPressure });
  return `{"reference":${reference},"jobs":[\n${entries.map((entry) => JSON.stringify(entry)).join(",\n")}\n]}\n`;
}

function findFolder(typed: string | undefined, { io, cwd }: Environment): string {
  const folder = resolve(cwd, typed ?? "jobs");
  const kind = io.stat(folder)?.kind;
  if (kind === "folder") return folder;
  if (typed === undefined)
    throw new UsageError("there is no `jobs` folder here: name the folder that your jobs stand in");
  throw new UsageError(
    `\`${typed}\` is ${kind === undefined ? "not there" : "no folder"}: shelf takes a folder of jobs`,
  );
}

function parsePressure(typed: string | undefined, units: DisplayUnits): Pascals | undefined {
  if (typed === undefined) return undefined;
  const read = parseQuantity(typed, "pressure", units.pressure);
  if (!read.ok) throw new UsageError(`--pressure: ${read.message}${read.hint ? ` (${read.hint})` : ""}`);
  if (!(read.value > 0)) throw new UsageError("--pressure: a test pressure is above zero");
  return read.value;
}
