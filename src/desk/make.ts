import { join, resolve } from "node:path";
import { visible } from "../diagnostics/visible.ts";
import { inWords, isWorldly } from "../io/in-words.ts";
import { clearLitter } from "../io/temporary-file.ts";
import { writeBesideThenRename } from "../io/write-beside-then-rename.ts";
import { DEFAULTS } from "../job/defaults.ts";
import { type Asked, type Kit, makeSheet, nameOf, templatesOf, workOut } from "../make-sheet.ts";
import { buildIdentity } from "../model/build-text.ts";
import { gather } from "../project/gather.ts";
import { findJobs, shortest } from "./find-jobs.ts";
import { issuedBefore, type Standing, standingSheets } from "./issued.ts";
import { openKit } from "./open-kit.ts";
import { counted, refused, report } from "./report.ts";
import type { ExitCode, World } from "./world.ts";
import { WrongUse } from "./wrong-use.ts";

export type MakeOptions = Asked & { readonly outFolder: string; readonly png: boolean };

/** Makes the sheets of the jobs. One bad job never stops the rest and never touches the PDF that is there. */
export async function make(asked: readonly string[], options: MakeOptions, world: World): Promise<ExitCode> {
  const jobs = findJobs(asked, world);
  const folder = resolve(world.cwd, options.outFolder);
  refuseSharedNames(jobs, options, world);
  clearLitter(folder);
  const standing = standingSheets(folder, world.io);
  const kit = openKit(world);
  let sheets = 0;
  let bad = 0;
  let failed = 0;
  for (const [index, job] of jobs.entries()) {
    if (world.terminal && jobs.length > 1) world.err(`\r\u001b[K${index + 1}/${jobs.length} ${visible(job)}\r\u001b[K`);
    const made = await makeJob(job, { folder, standing }, options, kit, world);
    if (made === undefined) {
      bad++;
      continue;
    }
    for (const sheet of made)
      if (await written(sheet, folder, options, world)) sheets++;
      else failed++;
  }
  const sum = [
    `${counted(sheets, "sheet")} written`,
    ...(bad > 0 ? [`${counted(bad, "job")} refused`] : []),
    ...(failed > 0 ? [`${counted(failed, "sheet")} could not be written`] : []),
  ];
  if (jobs.length > 1 || bad > 0 || failed > 0) world.err(`${sum.join(", ")}\n`);
  return failed > 0 ? 2 : bad > 0 ? 1 : 0;
}

/** Where the sheets go, and which stood there before. */
type Place = { readonly folder: string; readonly standing: Standing };
type Sheet = { readonly name: string; readonly pdf: Uint8Array };

/** All sheets of one job; undefined when it was refused. Nothing is written unless every sheet of it could be made. */
async function makeJob(
  path: string,
  { folder, standing }: Place,
  options: MakeOptions,
  kit: Kit,
  world: World,
): Promise<readonly Sheet[] | undefined> {
  const { drawable, diagnostics, sources } = workOut(path, options, world.io, world.cwd);
  report(diagnostics, sources, world);
  if (!drawable) return undefined;
  const made: Sheet[] = [];
  for (const template of templatesOf(drawable.project, options)) {
    const sheet = await makeSheet(drawable, template, options, kit);
    report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), world);
    if (!sheet.pdf || refused(sheet.diagnostics)) return undefined;
    const issued = issuedBefore(sheet.name, sheet.pdf, folder, standing, world.io);
    if (issued) report([issued], sources, world);
    if (issued?.severity === "error") return undefined;
    made.push({ name: sheet.name, pdf: sheet.pdf });
  }
  return made;
}

/** Whether a sheet stands in its folder. What the disk will not take is said; the other sheets are tried all the same. */
async function written({ name, pdf }: Sheet, folder: string, options: MakeOptions, world: World): Promise<boolean> {
  const file = join(folder, name);
  try {
    writeBesideThenRename(file, pdf);
    world.out(`${shortest(world.cwd, file)}\n`);
    if (options.png) await writePages(file, pdf, world);
    return true;
  } catch (error) {
    if (!isWorldly(error)) throw error;
    world.err(`error: ${visible(inWords(error))}\n`);
    return false;
  }
}

/** Each page beside its PDF, as it looks at 100 dots an inch. */
async function writePages(file: string, pdf: Uint8Array, world: World): Promise<void> {
  const { pageImages } = await import("./page-images.ts");
  for (const [index, image] of (await pageImages(pdf, 100)).entries()) {
    const page = file.replace(/\.pdf$/, `_${index + 1}.png`);
    writeBesideThenRename(page, image);
    world.out(`${shortest(world.cwd, page)}\n`);
  }
}

/** Two sheets of one batch under one name would overwrite each other: said before anything is written. */
function refuseSharedNames(jobs: readonly string[], options: MakeOptions, world: World): void {
  // Sheets of one job differ by their template's name, which tells them apart.
  if (jobs.length < 2) return;
  const owners = new Map<string, string>();
  for (const job of jobs) {
    const { project } = gather(job, world.io, world.cwd);
    if (!project) continue;
    const identity = buildIdentity(project.job, DEFAULTS.revision);
    for (const template of templatesOf(project, options)) {
      const name = nameOf(project, { identity }, template);
      const owner = owners.get(name);
      if (owner !== undefined)
        throw new WrongUse(
          `\`${owner}\` and \`${job}\` would both be written as ${name}: give one of them another ticket number`,
        );
      owners.set(name, job);
    }
  }
}
