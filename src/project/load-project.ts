import { basename, resolve } from "node:path";
import { hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { Job } from "../job/schema/job.ts";
import type { ShopFile } from "../job/schema/shop.ts";
import { FILE_LIMITS } from "./limits.ts";
import { createLoadCache } from "./load-cache.ts";
import { decodeText, loadFile } from "./load-file.ts";
import { createLoadContext, loadJob } from "./load-job.ts";
import { loadOtherHeads } from "./other-heads.ts";
import { loadLogo, loadPhotos } from "./pictures.ts";
import type { ProjectLoad } from "./project.ts";

type LoadOptions = { readonly pictures?: false };

/**
 * Loads a job with its shop, other heads, readings files and pictures, and collects the diagnostics of all of them. With
 * `pictures: false`, pictures are neither loaded nor checked.
 */
export function loadProject(
  jobPath: string,
  io: Io,
  cwd = "",
  options: LoadOptions = {},
  cache = createLoadCache(),
): ProjectLoad {
  const path = resolve(cwd, jobPath);
  const context = createLoadContext(jobPath, io, cwd, cache);
  // The job named by the user may be a link to anywhere; files named in it are confined to the root.
  const file = { real: io.realPath(path) ?? path, name: context.nameOf(path), what: "file", largest: FILE_LIMITS.yaml };
  if (basename(path) === "shop.yaml")
    return { diagnostics: [SHOP_NAMED], sources: context.sources, filesRead: [], shopFile: file.name };
  const text = loadFile(file, io);
  if ("why" in text)
    return {
      diagnostics: [{ severity: "error", ...text.why, at: { file: file.name, start: 0, end: 0 } }],
      sources: context.sources,
      filesRead: [],
    };

  const own = loadJob(path, decodeText(text.bytes), context);
  const { sound, located } = own.tooMany ? {} : own.read;
  const parsed = sound && located && { job: sound, located, path, root: own.root };
  const others = parsed && loadOtherHeads(parsed, context);
  const pictures = options.pictures !== false;
  const photos = pictures ? parsed && loadPhotos(parsed, context) : NO_PHOTOS;
  const logo = loadLogo(pictures ? own.shop : undefined, context);
  const diagnostics = sortDiagnostics([
    ...own.diagnostics,
    ...(others?.diagnostics ?? []),
    ...(photos?.diagnostics ?? []),
    ...logo.diagnostics,
  ]);
  const bad = hasError(diagnostics);
  const { loaded, root } = own;
  return {
    project:
      loaded && others && photos && !bad
        ? {
            ...loaded,
            compared: others.compared,
            samples: others.samples,
            images: photos.images,
            logo: logo.bytes,
            root,
          }
        : undefined,
    diagnostics,
    sources: context.sources,
    filesRead: [...context.filesRead],
    shopFile: own.shop?.file,
  };
}

const SHOP_NAMED: Diagnostic = {
  severity: "error",
  code: "project/shop-file",
  message: "`shop.yaml` is the shop of the jobs around it, not a job",
  hint: "name a job, or their folder: faults of the shop are shown with each job",
};

const NO_PHOTOS: ReturnType<typeof loadPhotos> = { images: new Map(), diagnostics: [] };

/** The paper size of the job, else of the shop, else the default. */
export const paperOf = (job: Job, shop: ShopFile | undefined) => job.paper ?? shop?.paper ?? DEFAULTS.paper;
