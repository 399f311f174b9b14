import { resolve } from "node:path";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import type { Io } from "../io/io.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { Job } from "../job/schema/job.ts";
import type { ShopFile } from "../job/schema/shop.ts";
import { FILE_LIMITS } from "./limits.ts";
import { otherHeads } from "./other-heads.ts";
import { readLogo, readPhotos } from "./pictures.ts";
import type { Gathered, Project } from "./project.ts";
import { notebook, readOnFile } from "./read-on-file.ts";
import { readPlain, textOf } from "./read-plain.ts";

type Wanted = { readonly pictures?: false; readonly remarks?: false };

/**
 * Everything a job's path leads to: its shop, other heads, readings files, pictures. Every fault of all of them in one go.
 * Pictures are left where they are when they are not wanted: then nothing can be drawn, and nothing is said of them. Nor is
 * what is odd in a job and no fault, without remarks.
 */
export function gather(jobPath: string, io: Io, cwd = "", wanted: Wanted = {}): Gathered {
  const path = resolve(cwd, jobPath);
  const book = notebook(jobPath, io, cwd, wanted.remarks);
  // The job that a person names may be a link to wherever he likes; what it names itself may not.
  const file = { real: io.realPath(path) ?? path, name: book.nameOf(path), what: "file", largest: FILE_LIMITS.yaml };
  const text = readPlain(file, io);
  if ("why" in text) return { diagnostics: [{ severity: "error", ...text.why }], sources: book.sources, filesRead: [] };

  const own = readOnFile(path, textOf(text.bytes), book);
  const { sound, located } = own.tooMany ? {} : own.read;
  const others = sound && located ? otherHeads({ job: sound, located, path, root: own.root }, book) : undefined;
  const pictures = wanted.pictures !== false;
  const seen = { job: pictures ? sound : sound && { ...sound, photos: [] }, path, root: own.root };
  const photos = seen.job && located ? readPhotos({ ...seen, job: seen.job, located }, book) : undefined;
  const logo = readLogo(pictures ? own.shop : undefined, book);
  const diagnostics = sortDiagnostics([
    ...own.diagnostics,
    ...(others?.diagnostics ?? []),
    ...(photos?.diagnostics ?? []),
    ...logo.diagnostics,
  ]);
  const bad = diagnostics.some((each) => each.severity === "error");
  const project: Project | undefined =
    own.onFile && others && photos && !bad
      ? {
          ...own.onFile,
          compared: others.compared,
          samples: others.samples,
          images: photos.images,
          ...(logo.bytes === undefined ? {} : { logo: logo.bytes }),
          templates: templatesOf(own.onFile.job),
          root: own.root,
        }
      : undefined;
  return {
    ...(project ? { project } : {}),
    diagnostics,
    sources: book.sources,
    filesRead: [...book.filesRead],
    ...(own.shop === undefined ? {} : { shopFile: own.shop.file }),
  };
}

/** What the job is to be printed as. */
const templatesOf = (job: Job): readonly string[] =>
  job.sheet ?? (job.product === undefined ? DEFAULTS.sheet.job : DEFAULTS.sheet.product);

/** The paper that job or shop name. */
export const paperOf = (job: Job, shop: ShopFile | undefined) => job.paper ?? shop?.paper ?? DEFAULTS.paper;
