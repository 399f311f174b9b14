import { resolve } from "node:path";
import type { DisplayUnits } from "../../model/model.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { counted } from "../report.ts";
import { UsageError } from "../usage-error.ts";
import { readShelf } from "./read-shelf.ts";
import { shelfCsv } from "./shelf-csv.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { shownAs } from "./shelf-shop.ts";
import { shelfText } from "./shelf-text.ts";
import { orderBy } from "./sorted.ts";
import { where } from "./where.ts";

export type ShelfOptions = {
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

/** Every job of a folder in one table; or the heads most alike to one; or an index to print. */
export async function shelf(asked: string | undefined, options: ShelfOptions, world: Environment): Promise<ExitCode> {
  const folder = folderOf(asked, world);
  const shop = shownAs(folder, world.io, world.cwd);
  const units = { ...shop.units, ...options.units };
  const testPressure = pressureOf(options.pressure, units) ?? shop.testPressure;
  const shown = { folder, units, testPressure };
  const tests = options.where.map((one) => where(one, units));
  const order = orderBy(options.sort ?? "file");
  const all = await readShelf(folder, testPressure, options.cache, world);
  if (all.length === 0)
    throw new UsageError(
      `no job file under \`${asked ?? "jobs"}\`: a job file is a .yaml with \`job:\` or \`product:\``,
    );
  // A refused job meets no condition on its figures, but is listed all the same.
  const entries = all.filter((entry) => !isSound(entry) || tests.every((test) => test(entry))).toSorted(order);
  const refused = entries.filter((entry) => !isSound(entry)).length;
  const code = refused > 0 ? 1 : 0;

  if (options.near !== undefined) {
    const { near } = await import("./near.ts");
    return Math.max(near(options.near, entries, shown, options, world), code) as ExitCode;
  }
  if (options.pdf !== undefined) {
    // Fonts and layout take longer to load than a cached shelf to show.
    const { printShelf } = await import("./print-shelf.ts");
    return (await printShelf(options.pdf, entries, shown, world)) || code;
  }
  world.out(
    options.form === "json"
      ? shelfJson(entries, testPressure)
      : options.form === "csv"
        ? shelfCsv(entries, units)
        : shelfText(entries, units, testPressure, world.width),
  );
  world.err(`${counted(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused` : ""}\n`);
  return code;
}

/** A job on each line: quicker by half than indented, and to be searched line by line. */
function shelfJson(entries: readonly ShelfEntry[], testPressure: Pascals): string {
  const reference = JSON.stringify({ test_pressure_Pa: testPressure });
  return `{"reference":${reference},"jobs":[\n${entries.map((entry) => JSON.stringify(entry)).join(",\n")}\n]}\n`;
}

function folderOf(asked: string | undefined, { io, cwd }: Environment): string {
  const folder = resolve(cwd, asked ?? "jobs");
  const kind = io.stat(folder)?.kind;
  if (kind === "folder") return folder;
  if (asked === undefined)
    throw new UsageError("there is no `jobs` folder here: name the folder that your jobs stand in");
  throw new UsageError(
    `\`${asked}\` is ${kind === undefined ? "not there" : "no folder"}: shelf takes a folder of jobs`,
  );
}

function pressureOf(typed: string | undefined, units: DisplayUnits): Pascals | undefined {
  if (typed === undefined) return undefined;
  const read = parseQuantity(typed, "pressure", units.pressure);
  if (!read.ok) throw new UsageError(`--pressure: ${read.message}${read.hint ? ` (${read.hint})` : ""}`);
  if (!(read.value > 0)) throw new UsageError("--pressure: a test pressure is above zero");
  return read.value;
}
