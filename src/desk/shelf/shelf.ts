import { relative, resolve } from "node:path";
import { writeBesideThenRename } from "../../io/write-beside-then-rename.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import type { Pascals } from "../../units/quantity.ts";
import { inBrief, workOut } from "../../work-out.ts";
import { shortest } from "../find-jobs.ts";
import { counted, report } from "../report.ts";
import type { ExitCode, World } from "../world.ts";
import { WrongUse } from "../wrong-use.ts";
import { entryOf } from "./entry-of.ts";
import { nearText } from "./near-text.ts";
import { nearest } from "./nearest.ts";
import { readShelf } from "./read-shelf.ts";
import { shelfCsv } from "./shelf-csv.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { holdsPinch } from "./shelf-sheet.ts";
import { type ShelfShop, shelfShop } from "./shelf-shop.ts";
import { shelfText } from "./shelf-text.ts";
import { orderBy } from "./sorted.ts";
import { where } from "./where.ts";
import { SHELF_LIFTS } from "./work-out-share.ts";

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

/** What is shown, and how. */
type Shown = { readonly folder: string; readonly units: DisplayUnits; readonly testPressure: Pascals };

/** Every job of a folder in one table; or the heads most alike to one; or an index to print. */
export async function shelf(asked: string | undefined, options: ShelfOptions, world: World): Promise<ExitCode> {
  const folder = folderOf(asked, world);
  const whose = shelfShop(folder, world);
  const units = { ...whose.units, ...options.units };
  const testPressure = pressureOf(options.pressure, units) ?? whose.testPressure;
  const shown = { folder, units, testPressure };
  const tests = options.where.map((one) => where(one, units));
  const order = orderBy(options.sort ?? "file");
  const all = await readShelf(folder, { testPressure, cache: options.cache }, world);
  if (all.length === 0)
    throw new WrongUse(`no job file under \`${asked ?? "jobs"}\`: a job file is a .yaml with \`job:\` or \`product:\``);
  // What is asked of its figures, a refused job cannot meet; what cannot be read is named all the same.
  const entries = all.filter((entry) => !isSound(entry) || tests.every((test) => test(entry))).toSorted(order);
  const refused = entries.filter((entry) => !isSound(entry)).length;
  const code: ExitCode = refused > 0 ? 1 : 0;
  if (options.near !== undefined) return Math.max(near(options.near, entries, shown, options, world), code) as ExitCode;
  if (options.pdf !== undefined) {
    const printed = await print(options.pdf, entries, whose, shown, world);
    return printed === 0 ? code : printed;
  }
  if (options.form === "json") world.out(`${JSON.stringify(asJson(entries, shown), null, 2)}\n`);
  else if (options.form === "csv") world.out(shelfCsv(entries, units));
  else world.out(shelfText(entries, units, testPressure, world.width));
  world.err(`${counted(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused` : ""}\n`);
  return code;
}

const asJson = (entries: readonly ShelfEntry[], { testPressure }: Shown) => ({
  reference: { test_pressure_Pa: testPressure },
  jobs: entries,
});

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

/** The heads most alike to a job, whether that one stands on this shelf or not. */
function near(
  typed: string,
  entries: readonly ShelfEntry[],
  { folder, units, testPressure }: Shown,
  { form, most }: ShelfOptions,
  world: World,
): ExitCode {
  if (form === "csv") throw new WrongUse("--near has no --csv: it is words, or --json");
  const path = resolve(world.cwd, typed);
  const worked = workOut(typed, { testPressure, reportLifts: SHELF_LIFTS, pictures: false }, world.io, world.cwd);
  const here = entryOf(relative(folder, path).replaceAll("\\", "/"), inBrief(worked));
  if (!worked.drawable || !isSound(here)) {
    report(worked.diagnostics, worked.sources, world);
    return 1;
  }
  const { root, job } = worked.drawable.project;
  const real = (file: string) => world.io.realPath(resolve(folder, file)) ?? file;
  const others = entries.filter(({ file }) => real(file) !== (world.io.realPath(path) ?? path));
  const found = nearest(here, others, { folder, asking: { path, root, job }, units, most });
  world.out(
    form === "json"
      ? `${JSON.stringify({ reference: { test_pressure_Pa: testPressure }, job: here, near: found.map(({ entry, ...one }) => ({ ...one, job: entry })) }, null, 2)}\n`
      : nearText(here, shortest(world.cwd, path), found, units),
  );
  return 0;
}

async function print(
  asked: string,
  entries: readonly ShelfEntry[],
  whose: ShelfShop,
  { units, testPressure }: Shown,
  world: World,
): Promise<ExitCode> {
  // Fonts and layout take longer to load than a kept shelf to show.
  const { pdfPath, shelfPdf } = await import("./shelf-pdf.ts");
  const { pdf, diagnostics } = await shelfPdf(entries, whose, { units, testPressure }, world);
  report(diagnostics, new Map(), world);
  if (!pdf) return 1;
  const path = pdfPath(asked, world);
  writeBesideThenRename(path, pdf);
  world.out(`${shortest(world.cwd, path)}\n`);
  const held = entries.filter(
    (entry) => holdsPinch(entry) && (entry.intake?.pinch_area_m2 ?? entry.exhaust?.pinch_area_m2),
  );
  const refused = entries.filter((entry) => !isSound(entry)).length;
  world.err(
    `${counted(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused and not in the index` : ""}${held.length > 0 ? `; pinch held back by ${counted(held.length, "job")}` : ""}\n`,
  );
  return 0;
}
