import { dirname, isAbsolute, relative } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import type { Io } from "../io/io.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { type ReadJob, readJob } from "../job/read-job.ts";
import type { ReadShop } from "../job/read-shop.ts";
import { type RunTable, readTableFile } from "../job/readings/run-tables.ts";
import { testPressureStated } from "../job/rules/test-pressure-stated.ts";
import { isInside, readConfined } from "./confine.ts";
import { countFaults, longTables } from "./count-faults.ts";
import { findShop } from "./find-shop.ts";
import { FILE_LIMITS } from "./limits.ts";
import { createLoadCache, type LoadCache } from "./load-cache.ts";
import { type FileError, loadFile, textOf } from "./load-file.ts";

/** What is read while one project is gathered, kept for messages and for watching. */
export type LoadContext = {
  readonly io: Io;
  /** How a file is called in messages. */
  readonly nameOf: (path: string) => string;
  readonly sources: Map<string, string>;
  readonly filesRead: Set<string>;
  readonly cache: LoadCache;
};

/** A notebook whose names are as the job's own path was typed: relative stays relative. */
export function notebook(jobPath: string, io: Io, cwd = "", cache = createLoadCache()): LoadContext {
  const name = (path: string) => (isAbsolute(jobPath) ? path : relative(cwd, path)).replaceAll("\\", "/");
  const names = new Map<string, string>();
  const nameOf = (path: string) => {
    const known = names.get(path) ?? name(path);
    names.set(path, known);
    return known;
  };
  return { io, nameOf, sources: new Map(), filesRead: new Set(), cache };
}

/** A text of the project, noted. */
function recordSource(path: string, text: string, { nameOf, sources, filesRead }: LoadContext): string {
  filesRead.add(path);
  sources.set(nameOf(path), text);
  return text;
}

/** A job as it stands on the disk: read with its own shop, its readings files with it. */
export type ReadOnFile = {
  /** There only when nothing is wrong with it. */
  readonly onFile?: LoadedJob;
  readonly read: ReadJob;
  readonly root: string;
  readonly shop?: LoadedShop;
  /** It names more than is followed: nothing else of it was read. */
  readonly tooMany: boolean;
  readonly diagnostics: readonly Diagnostic[];
};

/** A shop.yaml as it stands on the disk. */
export type LoadedShop = ReadShop & { readonly path: string; readonly file: string };

/** Reads a job whose text is at hand, with what stands beside it. */
export function loadJob(path: string, jobText: string, book: LoadContext): ReadOnFile {
  const shopPath = findShop(dirname(path), book.io);
  const root = shopPath === undefined ? dirname(path) : dirname(shopPath);
  const shop = shopPath === undefined ? undefined : shopAt(shopPath, book);
  const file = book.nameOf(path);
  const bench = shop?.shop?.bench;
  const text = recordSource(path, jobText, book);
  const ofShop = { units: shop?.units ?? {}, bench };
  const read = readJob(file, text, ofShop);
  const counted = read.located ? countFaults(read.located) : [];
  const files = counted.length > 0 ? { tables: [], diagnostics: [] } : tableFiles(path, root, read, book);
  const pressure = read.located ? testPressureStated(read.runs, [...read.tables, ...files.tables], read.located) : [];
  const diagnostics = sortDiagnostics([
    ...(shop?.diagnostics ?? []),
    ...read.diagnostics,
    ...counted,
    ...longTables([...read.tables, ...files.tables]),
    ...files.diagnostics,
    ...pressure,
  ]);
  const { job, located, units, runs, tables } = read;
  const bad = hasError(diagnostics);
  const onFile =
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
    onFile,
    read,
    root,
    shop,
    tooMany: counted.length > 0,
    diagnostics,
  };
}

/** The shop's folder is the root: a shop.yaml that is a link out of it would lead out of the root. */
export function shopAt(path: string, book: LoadContext): LoadedShop {
  const { io } = book;
  const file = book.nameOf(path);
  const refuse = (why: FileError): LoadedShop => ({
    units: {},
    diagnostics: [{ severity: "error", ...why }],
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
  const { shop, located, units, diagnostics } = book.cache.readShop(file, recordSource(path, textOf(read.bytes), book));
  return { shop, located, units, diagnostics, path, file };
}

function tableFiles(
  path: string,
  root: string,
  read: ReadJob,
  book: LoadContext,
): { tables: RunTable[]; diagnostics: Diagnostic[] } {
  const tables: RunTable[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const run of read.runs) {
    if (run.file === undefined || read.located === undefined) continue;
    const at = read.located.span([...run.path, "file"]);
    const found = readConfined(
      { typed: run.file, from: path, root, at, what: "readings file", largest: FILE_LIMITS.readings },
      book.io,
    );
    if ("fault" in found) {
      diagnostics.push(found.fault);
      continue;
    }
    const table = readTableFile(
      run,
      book.nameOf(found.path),
      recordSource(found.path, textOf(found.bytes), book),
      read.units,
    );
    tables.push(...table.tables);
    diagnostics.push(...table.diagnostics);
  }
  return { tables, diagnostics };
}
