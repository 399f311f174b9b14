import { dirname, resolve } from "node:path";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { stripMetadata } from "../images/strip-metadata.ts";
import { isSvg } from "../images/svg/parse-svg.ts";
import type { Job } from "../job/schema/job.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { readConfined, type TypedPath } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import type { LoadContext, LoadedShop } from "./load-job.ts";
import { svgFault } from "./picture-fault.ts";

/** A parsed job without errors of its own, and where it lies. */
export type ParsedJob = {
  readonly job: Job;
  readonly located: SourceDocument;
  readonly path: string;
  readonly root: string;
};

type Picture = { readonly bytes?: Uint8Array; readonly fault?: Diagnostic };

function loadPicture(typed: TypedPath, { io, filesRead, cache }: LoadContext): Picture {
  const found = readConfined(typed, io);
  if ("fault" in found) return { fault: found.fault };
  filesRead.add(found.path);
  const why =
    typed.what === "logo" && isSvg(found.bytes)
      ? svgFault(found.bytes, typed.typed)
      : cache.checkPicture(found.bytes, typed.typed);
  return why === undefined
    ? { bytes: stripMetadata(found.bytes) }
    : { fault: { severity: "error", at: typed.at, ...why } };
}

/** Loads the photos of a job, each once; a fault is said once, however often and in whichever spelling its file is named. */
export function loadPhotos({ job, located, path, root }: ParsedJob, context: LoadContext) {
  const images = new Map<string, Uint8Array>();
  const diagnostics: Diagnostic[] = [];
  const seen = new Set<string>();
  const faulty = new Set<string>();
  for (const { file, at } of photoFiles({ job, located })) {
    if (seen.has(file)) continue;
    seen.add(file);
    const { bytes, fault } = loadPicture(
      { typed: file, from: path, root, at, what: "photo", largest: FILE_LIMITS.picture },
      context,
    );
    const place = resolve(dirname(path), file);
    if (fault && !faulty.has(place)) diagnostics.push(fault);
    if (fault) faulty.add(place);
    if (bytes) images.set(file, bytes);
  }
  return { images, diagnostics };
}

/** Files of the photos and of a product's cover, with their places. */
export const photoFiles = ({ job, located }: Pick<ParsedJob, "job" | "located">) => [
  ...(job.photos ?? []).map(({ file }, i) => ({ file, at: located.span(["photos", i, "file"]) })),
  ...(job.product?.photo ? [{ file: job.product.photo, at: located.span(["product", "photo"]) }] : []),
];

/** Loads the shop's logo. */
export function loadLogo(
  shop: LoadedShop | undefined,
  context: LoadContext,
): { readonly bytes?: Uint8Array; readonly diagnostics: readonly Diagnostic[] } {
  const own = shop?.shop?.brand?.logo;
  const typed = own ?? shop?.shop?.shop?.logo;
  if (shop?.located === undefined || typed === undefined) return { diagnostics: [] };
  const at = shop.located.span([own === undefined ? "shop" : "brand", "logo"]);
  const place = { typed, from: shop.path, root: dirname(shop.path), at, what: "logo", largest: FILE_LIMITS.logo };
  const { bytes, fault } = loadPicture(place, context);
  return { ...(bytes ? { bytes } : {}), diagnostics: fault ? [fault] : [] };
}
