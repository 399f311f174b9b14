import type { Io } from "../../io/io.ts";
import { type IoQuery, recordIo } from "../../io/recording-io.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import { buildIdentity } from "../../model/build-text.ts";
import type { Overrides } from "../../pipeline/evaluate.ts";
import { sheetFileName, templatesOf } from "../../pipeline/file-name.ts";
import { createLoadCache } from "../../project/load-cache.ts";
import { loadProject } from "../../project/load-project.ts";
import type { ProjectLoad } from "../../project/project.ts";
import type { Environment } from "../environment.ts";
import { UsageError } from "../environment.ts";
import type { Registers } from "../issued/register.ts";
import { issueKey } from "../issued/register-text.ts";
import { type BuildRecord, type IssueRecord, type JobRecord, upToDateCheck } from "./build-record.ts";

/** A job of a batch before rendering. */
export type PlannedJob = {
  readonly path: string;
  /** Record of the job's last run, if its inputs and outputs are unchanged. */
  readonly unchanged?: JobRecord;
  /** Opens once, reusing the files read while planning. */
  readonly open: () => OpenJob;
};

/** A loaded job, the recording file access for its rendering, and the queries so far. */
export type OpenJob = {
  readonly load: ProjectLoad;
  readonly io: Io;
  readonly queries: () => readonly IoQuery[];
};

type FolderState = { readonly folder: string; readonly registers: Registers; readonly record: BuildRecord };
type Options = Overrides & { readonly png: boolean };

/** Upper limit of jobs whose files stay in memory from planning to rendering, about 0.2 MB each; the others are read again. */
const MAX_HELD_JOBS = 200;

/**
 * Finds the unchanged jobs of a batch and the file names of all sheets. Throws before anything is written if two jobs would
 * write the same file.
 */
export function planBatch(
  jobs: readonly string[],
  { folder, registers, record }: FolderState,
  options: Options,
  environment: Environment,
): readonly PlannedJob[] {
  const isUpToDate = upToDateCheck(folder, environment.io);
  const cache = createLoadCache();
  const owners = new Map<string, string>();
  let heldJobs = 0;
  return jobs.map((path) => {
    const open = (): OpenJob => {
      const disk = recordIo(environment.io);
      return { ...disk, load: loadProject(path, disk.io, environment.cwd, {}, cache) };
    };
    const before = record.get(recordKey(path, options, environment));
    const current =
      before && isUpToDate(before, options.png) && isRegistered(before.issue, registers) ? before : undefined;
    // Sheets of one job differ by their template's name, so a single job cannot collide.
    const opened = current || jobs.length < 2 ? undefined : open();
    const names = current ? current.sheets.map(({ name }) => name) : opened ? sheetNames(opened.load, options) : [];
    for (const name of names) {
      const owner = owners.get(name);
      if (owner !== undefined)
        throw new UsageError(
          `\`${owner}\` and \`${path}\` would both be written as ${name}: give one of them another ticket number`,
        );
      owners.set(name, path);
    }
    let loaded = opened && !hasPictures(opened.load) && heldJobs++ < MAX_HELD_JOBS ? opened : undefined;
    const take = () => {
      const taken = loaded ?? open();
      loaded = undefined;
      return taken;
    };
    return { path, open: take, ...(current ? { unchanged: current } : {}) };
  });
}

/** Whether the register holds what was issued and nothing else of that ticket and revision; a draft is in none. */
function isRegistered(issue: IssueRecord | undefined, registers: Registers): boolean {
  if (issue === undefined) return true;
  const issued = registers.read(issue.register)?.get(issueKey(issue)) ?? [];
  return issued.length > 0 && issued.every(({ mark, figures }) => mark === issue.mark && figures === issue.figures);
}

function sheetNames({ project }: ProjectLoad, options: Options): readonly string[] {
  if (!project) return [];
  const identity = buildIdentity(project.job, DEFAULTS.revision);
  return templatesOf(project, options).map((template) => sheetFileName(project, { identity }, template));
}

const hasPictures = ({ project }: ProjectLoad) => project !== undefined && (project.images.size > 0 || project.logo);

/** Key of a job's record: working folder, path and every option that changes its sheets. */
export const recordKey = (
  path: string,
  { templates, paper, units, strict, testPressure, reportLifts, pictures }: Options,
  { cwd }: Environment,
): string => JSON.stringify([cwd, path, templates, paper, units, strict, testPressure, reportLifts, pictures]);
