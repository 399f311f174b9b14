import { resolve } from "node:path";
import type { DisplayUnits } from "../../model/model.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import type { Pascals } from "../../units/quantity.ts";
import { counted } from "../report.ts";
import type { ExitCode, World } from "../world.ts";
import { WrongUse } from "../wrong-use.ts";
import { type OpenShelf, openShelf, readShelf, shopOf } from "./read-shelf.ts";
import { csvHead, csvRow } from "./shelf-csv.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { jobInText, shelfText } from "./shelf-text.ts";
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
export async function shelf(asked: string | undefined, options: ShelfOptions, world: World): Promise<ExitCode> {
  const opened = openShelf(folderOf(asked, world), options.cache, world);
  try {
    return await show(asked, opened, options, world);
  } finally {
    opened.cache?.close();
  }
}

async function show(
  asked: string | undefined,
  opened: OpenShelf,
  options: ShelfOptions,
  world: World,
): Promise<ExitCode> {
  const shop = await shopOf(opened, world);
  const units = { ...shop.units, ...options.units };
  const testPressure = pressureOf(options.pressure, units) ?? shop.testPressure;
  const shown = { folder: opened.folder, units, testPressure };
  const tests = options.where.map((one) => where(one, units));
  const order = orderBy(options.sort ?? "file");

  /** The jobs to be shown, sorted, each as `form` makes it of its entry; and what is to be said of all. */
  const listed = async <T>(form: (entry: ShelfEntry) => T) => {
    const all = await readShelf(opened, shop, testPressure, world, (entry) =>
      // What is asked of its figures, a refused job cannot meet; what cannot be read is named all the same.
      isSound(entry) && !tests.every((test) => test(entry))
        ? undefined
        : { file: entry.file, key: order.of(entry), sound: isSound(entry), formed: form(entry) },
    );
    if (all.length === 0)
      throw new WrongUse(
        `no job file under \`${asked ?? "jobs"}\`: a job file is a .yaml with \`job:\` or \`product:\``,
      );
    const jobs = all.flatMap((one) => one ?? []).toSorted(order.compare);
    const refused = jobs.filter(({ sound }) => !sound).length;
    return {
      jobs: jobs.map(({ formed }) => formed),
      code: (refused > 0 ? 1 : 0) as ExitCode,
      summary: `${counted(jobs.length - refused, "job")}${refused > 0 ? `, ${refused} refused` : ""}\n`,
    };
  };

  if (options.near !== undefined) {
    const { jobs, code } = await listed((entry) => entry);
    const { near } = await import("./near.ts");
    return Math.max(near(options.near, jobs, shown, options, world), code) as ExitCode;
  }
  if (options.pdf !== undefined) {
    const { jobs, code } = await listed((entry) => entry);
    // Fonts and layout take longer to load than a kept shelf to show.
    const { printShelf } = await import("./print-shelf.ts");
    const printed = await printShelf(options.pdf, jobs, shown, world);
    return printed === 0 ? code : printed;
  }
  const say = (out: string, { code, summary }: { readonly code: ExitCode; readonly summary: string }) => {
    world.out(out);
    world.err(summary);
    return code;
  };
  if (options.form === "json") {
    // A job on each line: quicker by half than indented, and to be searched line by line.
    const found = await listed((entry) => JSON.stringify(entry));
    const reference = JSON.stringify({ test_pressure_Pa: testPressure });
    return say(`{"reference":${reference},"jobs":[\n${found.jobs.join(",\n")}\n]}\n`, found);
  }
  if (options.form === "csv") {
    const found = await listed((entry) => csvRow(entry, units));
    return say(csvHead(units) + found.jobs.join(""), found);
  }
  const found = await listed((entry) => jobInText(entry, units));
  return say(shelfText(found.jobs, units, testPressure, world.width), found);
}

function folderOf(asked: string | undefined, { io, cwd }: World): string {
  const folder = resolve(cwd, asked ?? "jobs");
  const kind = io.stat(folder)?.kind;
  if (kind === "folder") return folder;
  if (asked === undefined)
    throw new WrongUse("there is no `jobs` folder here: name the folder that your jobs stand in");
  throw new WrongUse(`\`${asked}\` is ${kind === undefined ? "not there" : "no folder"}: shelf takes a folder of jobs`);
}

function pressureOf(typed: string | undefined, units: DisplayUnits): Pascals | undefined {
  if (typed === undefined) return undefined;
  const read = parseQuantity(typed, "pressure", units.pressure);
  if (!read.ok) throw new WrongUse(`--pressure: ${read.message}${read.hint ? ` (${read.hint})` : ""}`);
  if (!(read.value > 0)) throw new WrongUse("--pressure: a test pressure is above zero");
  return read.value;
}
