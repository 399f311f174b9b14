import { dirname, isAbsolute, relative } from "node:path";
import { hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";
import { inheritStages } from "../job/inherit.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { type ReadJob, readJob } from "../job/read-job.ts";
import type { ReadShop } from "../job/read-shop.ts";
import { type RunTable, readTableFile } from "../job/readings/run-tables.ts";
import { lifts } from "../job/rules/lifts.ts";
import { testPressureStated } from "../job/rules/readings.ts";
import { isInside, readConfined } from "./confine.ts";
import { checkCounts, checkTableLengths } from "./count-faults.ts";
import { findShop } from "./find-shop.ts";
import { FILE_LIMITS } from "./limits.ts";
import { createLoadCache, type LoadCache } from "./load-cache.ts";
import { decodeText, type FileError, loadFile } from "./load-file.ts";

/** State of loading one project: the files read so far, for messages and for watching. */
export type LoadContext = {
  readonly io: Io;
  /** The name of a file in messages. */
  readonly nameOf: (path: string) => string;
  readonly sources: Map<string, string>;
  readonly filesRead: Set<string>;
  readonly cache: LoadCache;
};

/** Creates a context that names files as the job's own path was typed: relative stays relative. */
export function createLoadContext(jobPath: string, io: Io, cwd = "", cache = createLoadCache()): LoadContext {
  const name = (path: string) => (isAbsolute(jobPath) ? path : relative(cwd, path)).replaceAll("\\", "/");
  const names = new Map<string, string>();
  const nameOf = (path: string) => {
    const known = names.get(path) ?? name(path);
    names.set(path, known);
    return known;
  };
  return { io, nameOf, sources: new Map(), filesRead: new Set(), cache };
}

/** Records a text of the project and returns it. */
function recordSource(path: string, text: string, { nameOf, sources, filesRead }: LoadContext): string {
  filesRead.add(path);
  sources.set(nameOf(path), text);
  return text;
}

/** A job loaded with its shop and its readings files. */
type JobLoad = {
  /** Absent when there is an error. */
  readonly loaded?: LoadedJob;
  readonly read: ReadJob;
  readonly root: string;
  readonly shop?: LoadedShop;
  /** A count limit is exceeded: none of its files was read. */
  readonly tooMany: boolean;
  readonly diagnostics: readonly Diagnostic[];
};

/** A parsed shop.yaml and its path. */
export type LoadedShop = ReadShop & { readonly path: string; readonly file: string };

/** Parses the text of a job and loads its shop and its readings files. */
export function loadJob(path: string, jobText: string, context: LoadContext): JobLoad {
  const shopPath = findShop(dirname(path), context.io);
  const root = shopPath === undefined ? dirname(path) : dirname(shopPath);
  const shop = shopPath === undefined ? undefined : loadShopFile(shopPath, context);
  const file = context.nameOf(path);
  const bench = shop?.shop?.bench;
  const text = recordSource(path, jobText, context);
  const ofShop = { units: shop?.units ?? {}, bench };
  const read = readJob(file, text, ofShop);
  const counted = read.located ? checkCounts(read.located) : [];
  const files = counted.length > 0 ? { tables: [], diagnostics: [] } : loadTableFiles(path, root, read, context);
  const ofFiles = lifts(inheritStages(read.sound?.stages ?? []), files.tables);
  const pressure = read.located ? testPressureStated(read.runs, [...read.tables, ...files.tables], read.located) : [];
  const diagnostics = sortDiagnostics([
    ...(shop?.diagnostics ?? []),
    ...read.diagnostics,
    ...counted,
    ...checkTableLengths([...read.tables, ...files.tables]),
    ...files.diagnostics,
    ...ofFiles,
    ...pressure,
  ]);
  const { job, located, units, runs, tables } = read;
  const bad = hasError(diagnostics);
  const loaded =
    job && located && !bad
      ? {
          file,
          job,
          located,
          units,
          runs,
          tables: [...tables, ...files.tables],
          shopFile: shop?.file,
          shop: shop?.shop,
          shopLocated: shop?.located,
        }
      : undefined;
  return {
    loaded,
    read,
    root,
    shop,
    tooMany: counted.length > 0,
    diagnostics,
  };
}

/** Loads a shop.yaml. Its folder is the root, so a link that leads out of the folder is refused. */
export function loadShopFile(path: string, context: LoadContext): LoadedShop {
  const { io } = context;
  const file = context.nameOf(path);
  const refuse = (why: FileError): LoadedShop => ({
    units: {},
    diagnostics: [{ severity: "error", ...why, at: { file, start: 0, end: 0 } }],
    path,
    file,
  });
  const real = io.realPath(path) ?? path;
  if (!isInside(io.realPath(dirname(path)) ?? dirname(path), real))
    return refuse({
      code: "project/path-outside",
      message: `\`${file}\` is a link that leaves its folder`,
      hint: "put a copy of the file there",
    });
  const read = loadFile({ real, name: file, what: "shop file", largest: FILE_LIMITS.yaml }, io);
  if ("why" in read) return refuse(read.why);
  const { shop, located, units, diagnostics } = context.cache.readShop(
    file,
    recordSource(path, decodeText(read.bytes), context),
  );
  return { shop, located, units, diagnostics, path, file };
}

function loadTableFiles(
  path: string,
  root: string,
  read: ReadJob,
  context: LoadContext,
): { tables: RunTable[]; diagnostics: Diagnostic[] } {
  const tables: RunTable[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const run of read.runs) {
    if (run.file === undefined || read.located === undefined) continue;
    const at = read.located.span([...run.path, "file"]);
    const found = readConfined(
      { typed: run.file, from: path, root, at, what: "readings file", largest: FILE_LIMITS.readings },
      context.io,
    );
    if ("fault" in found) {
      diagnostics.push(found.fault);
      continue;
    }
    const table = readTableFile(
      run,
      context.nameOf(found.path),
      recordSource(found.path, decodeText(found.bytes), context),
      read.units,
    );
    tables.push(...table.tables);
    diagnostics.push(...table.diagnostics);
  }
  return { tables, diagnostics };
}
