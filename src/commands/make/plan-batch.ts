import type { Io } from "../../io/io.ts";
import { type IoQuery, recordIo } from "../../io/recording-io.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import { buildIdentity } from "../../model/build-text.ts";
import type { Overrides } from "../../pipeline/evaluate.ts";
import { nameOf, templatesOf } from "../../pipeline/sheets-of-job.ts";
import { createLoadCache } from "../../project/load-cache.ts";
import { loadProject } from "../../project/load-project.ts";
import type { ProjectLoad } from "../../project/project.ts";
import type { Environment } from "../environment.ts";
import { UsageError } from "../usage-error.ts";
import { type BuildRecord, type MadeJob, upToDateCheck } from "./build-record.ts";
import { type Standing, standsAlone } from "./check-issued.ts";

/** A job of a batch before anything is drawn. */
export type PlannedJob = {
  readonly path: string;
  /** As it was made before, where nothing has changed since. */
  readonly kept?: MadeJob;
  /** Its files, read: those of the first jobs were held from looking ahead, and are let go by the asking. */
  readonly open: () => OpenJob;
};

/** A job whose files are read; the disk as it sees it, and what was asked of it so far. */
export type OpenJob = {
  readonly gathered: ProjectLoad;
  readonly io: Io;
  readonly queries: () => readonly IoQuery[];
};

type Seen = { readonly folder: string; readonly standing: Standing; readonly record: BuildRecord };
type Options = Overrides & { readonly png: boolean };

/** Jobs whose files are held from looking ahead to drawing: some 0.2 MB each without pictures. The rest is read again. */
const HELD = 200;

/**
 * Looks at every job of a batch: which is unchanged, and how its sheets are called. Two sheets of one batch under one name
 * would overwrite each other: said before anything is written.
 */
export function planBatch(
  jobs: readonly string[],
  { folder, standing, record }: Seen,
  options: Options,
  world: Environment,
): readonly PlannedJob[] {
  const unchanged = upToDateCheck(folder, world.io);
  const cache = createLoadCache();
  const owners = new Map<string, string>();
  let held = 0;
  return jobs.map((path) => {
    const open = (): OpenJob => {
      const disk = recordIo(world.io);
      return { ...disk, gathered: loadProject(path, disk.io, world.cwd, {}, cache) };
    };
    const before = record.get(keyOf(path, options, world));
    const kept =
      before && unchanged(before, options.png) && before.sheets.every(({ name }) => standsAlone(name, standing))
        ? before
        : undefined;
    // Sheets of one job differ by their template's name, which tells them apart.
    const opened = kept || jobs.length < 2 ? undefined : open();
    const names = kept ? kept.sheets.map(({ name }) => name) : opened ? namesOf(opened.gathered, options) : [];
    for (const name of names) {
      const owner = owners.get(name);
      if (owner !== undefined)
        throw new UsageError(
          `\`${owner}\` and \`${path}\` would both be written as ${name}: give one of them another ticket number`,
        );
      owners.set(name, path);
    }
    let hold = opened && !hasPictures(opened.gathered) && held++ < HELD ? opened : undefined;
    const take = () => {
      const taken = hold ?? open();
      hold = undefined;
      return taken;
    };
    return { path, open: take, ...(kept ? { kept } : {}) };
  });
}

function namesOf({ project }: ProjectLoad, options: Options): readonly string[] {
  if (!project) return [];
  const identity = buildIdentity(project.job, DEFAULTS.revision);
  return templatesOf(project, options).map((template) => nameOf(project, { identity }, template));
}

const hasPictures = ({ project }: ProjectLoad) => project !== undefined && (project.images.size > 0 || project.logo);

/** What a job's entry in a record goes by: where it was asked for from, and all that was asked of it. */
export const keyOf = (
  path: string,
  { templates, paper, units, strict, testPressure, reportLifts, pictures }: Options,
  { cwd }: Environment,
): string => JSON.stringify([cwd, path, templates, paper, units, strict, testPressure, reportLifts, pictures]);
