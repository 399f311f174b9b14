import { resolve } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import type { Io } from "../io/io.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { Job } from "../job/schema/job.ts";
import type { ShopFile } from "../job/schema/shop.ts";
import { FILE_LIMITS } from "./limits.ts";
import { createLoadCache } from "./load-cache.ts";
import { loadFile, textOf } from "./load-file.ts";
import { loadJob, notebook } from "./load-job.ts";
import { otherHeads } from "./other-heads.ts";
import { readLogo, readPhotos } from "./pictures.ts";
import type { ProjectLoad } from "./project.ts";

type Wanted = { readonly pictures?: false };

/**
 * Everything a job's path leads to: its shop, other heads, readings files, pictures. Every fault of all of them in one go.
 * Pictures are left where they are when they are not wanted: then nothing can be drawn, and nothing is said of them.
 */
export function loadProject(
  jobPath: string,
  io: Io,
  cwd = "",
  wanted: Wanted = {},
  cache = createLoadCache(),
): ProjectLoad {
  const path = resolve(cwd, jobPath);
  const book = notebook(jobPath, io, cwd, cache);
  // The job that a person names may be a link to wherever he likes; what it names itself may not.
  const file = { real: io.realPath(path) ?? path, name: book.nameOf(path), what: "file", largest: FILE_LIMITS.yaml };
  const text = loadFile(file, io);
  if ("why" in text) return { diagnostics: [{ severity: "error", ...text.why }], sources: book.sources, filesRead: [] };

  const own = loadJob(path, textOf(text.bytes), book);
  const { sound, located } = own.tooMany ? {} : own.read;
  const inHand = sound && located && { job: sound, located, path, root: own.root };
  const others = inHand && otherHeads(inHand, book);
  const pictures = wanted.pictures !== false;
  const photos = pictures ? inHand && readPhotos(inHand, book) : NO_PHOTOS;
  const logo = readLogo(pictures ? own.shop : undefined, book);
  const diagnostics = sortDiagnostics([
    ...own.diagnostics,
    ...(others?.diagnostics ?? []),
    ...(photos?.diagnostics ?? []),
    ...logo.diagnostics,
  ]);
  const bad = hasError(diagnostics);
  const { onFile, root } = own;
  return {
    project:
      onFile && others && photos && !bad
        ? {
            ...onFile,
            compared: others.compared,
            samples: others.samples,
            images: photos.images,
            logo: logo.bytes,
            root,
          }
        : undefined,
    diagnostics,
    sources: book.sources,
    filesRead: [...book.filesRead],
    shopFile: own.shop?.file,
  };
}

const NO_PHOTOS: ReturnType<typeof readPhotos> = { images: new Map(), diagnostics: [] };

/** The paper that job or shop name. */
export const paperOf = (job: Job, shop: ShopFile | undefined) => job.paper ?? shop?.paper ?? DEFAULTS.paper;
