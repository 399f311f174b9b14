import { dirname } from "node:path";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { stripMetadata } from "../images/strip-metadata.ts";
import type { Job } from "../job/schema/job.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { readConfined, type TypedPath } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import type { LoadContext, LoadedShop } from "./load-job.ts";
import { pictureFault } from "./picture-fault.ts";

/** A job being gathered: sound as far as it goes. */
export type InHand = {
  readonly job: Job;
  readonly located: SourceDocument;
  readonly path: string;
  readonly root: string;
};

type Picture = { readonly bytes?: Uint8Array; readonly fault?: Diagnostic };

function readPicture(typed: TypedPath, { io, filesRead }: LoadContext): Picture {
  const found = readConfined(typed, io);
  if ("fault" in found) return { fault: found.fault };
  filesRead.add(found.path);
  const why = pictureFault(found.bytes, typed.typed);
  return why === undefined
    ? { bytes: stripMetadata(found.bytes) }
    : { fault: { severity: "error", at: typed.at, ...why } };
}

/** The photos of a job, each read once. */
export function readPhotos({ job, located, path, root }: InHand, book: LoadContext) {
  const images = new Map<string, Uint8Array>();
  const diagnostics: Diagnostic[] = [];
  const seen = new Set<string>();
  (job.photos ?? []).forEach((photo, index) => {
    if (seen.has(photo.file)) return;
    seen.add(photo.file);
    const at = located.span(["photos", index, "file"]);
    const { bytes, fault } = readPicture(
      { typed: photo.file, from: path, root, at, what: "photo", largest: FILE_LIMITS.picture },
      book,
    );
    if (fault) diagnostics.push(fault);
    if (bytes) images.set(photo.file, bytes);
  });
  return { images, diagnostics };
}

/** The shop's logo. */
export function readLogo(
  onFile: LoadedShop | undefined,
  book: LoadContext,
): { readonly bytes?: Uint8Array; readonly diagnostics: readonly Diagnostic[] } {
  const typed = onFile?.shop?.shop?.logo;
  if (onFile?.located === undefined || typed === undefined) return { diagnostics: [] };
  const at = onFile.located.span(["shop", "logo"]);
  const place = { typed, from: onFile.path, root: dirname(onFile.path), at, what: "logo", largest: FILE_LIMITS.logo };
  const { bytes, fault } = readPicture(place, book);
  return { ...(bytes ? { bytes } : {}), diagnostics: fault ? [fault] : [] };
}
