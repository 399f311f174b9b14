import type { Shapes } from "../charts/scenegraph.ts";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { type Attachment, buildAttachments } from "../embed/embedded-files.ts";

import type { Io } from "../io/io.ts";
import type { MissingGlyph } from "../layout/missing-glyphs.ts";
import type { Model } from "../model/model.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import type { Fonts } from "../pdf/font/fonts.ts";
import { paintPdf } from "../pdf/paint.ts";
import { imageSizes } from "../pdf/pictures.ts";
import { findCharacter } from "../project/find-character.ts";
import { findTemplate } from "../project/find-template.ts";
import type { LoadCache } from "../project/load-cache.ts";
import { paperOf } from "../project/load-project.ts";
import type { Project } from "../project/project.ts";
import type { Downscale } from "../raster/fit-photo.ts";
import { BLOCKS } from "../sheet/blocks.ts";
import { buildSheet } from "../sheet/build-sheet.ts";
import type { Sheet } from "../sheet/content.ts";
import { placeBlocks } from "../sheet/template.ts";
import { makeTheme } from "../theme/make-theme.ts";
import type { Evaluation, Overrides } from "./evaluate.ts";
import { sheetFileName } from "./file-name.ts";
import { fitPhotos } from "./fit-photos.ts";
import { layOut, sheetMetadata } from "./lay-out.ts";
import { checkFileSize, checkPageCount } from "./limits.ts";
import { placeFaults } from "./place-faults.ts";
import { sheetMark } from "./sheet-mark.ts";

/** Resources that are opened once and shared by all sheets. */
export type Resources = {
  readonly io: Io;
  readonly fonts: Fonts;
  readonly shapes: Shapes;
  readonly downscale: Downscale;
  /** Folder of the built-in templates. */
  readonly templates: string;
  readonly cache: LoadCache;
  readonly version: string;
};

/** A finished sheet, or the errors that prevented it. */
export type RenderedSheet = {
  readonly name: string;
  readonly pdf?: Uint8Array;
  /** The document's title, and each page's size in points. */
  readonly title?: string;
  readonly pages?: readonly { readonly width: number; readonly height: number }[];
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: Sources;
};

/** Sheet content, or the errors that prevented it. */
export type ContentResult = {
  readonly sheet?: Sheet;
  /** Source of the template, unless it is built in. */
  readonly templateSource?: SourceDocument;
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: Sources;
};

/** Figures → sheet content. */
export function sheetContent(
  { project, model, figures }: NonNullable<Evaluation["drawable"]>,
  template: string,
  overrides: Overrides,
  resources: Resources,
): ContentResult {
  const read = findTemplate(
    template,
    { root: project.root, builtIn: resources.templates, ...templateSpan(template, project) },
    Object.keys(BLOCKS),
    resources.io,
    resources.cache.readTemplate,
  );
  const sources = new Map(read.source ? [read.source] : []);
  if (!read.template) return { diagnostics: read.diagnostics, sources };
  const paper = overrides.paper ?? read.template.paper ?? paperOf(project.job, project.shop);
  const accent = model.shop.accent && project.shopLocated?.span(["shop", "accent"]);
  const { theme, diagnostics: themeDiagnostics } = makeTheme(
    { accent: model.shop.accent, paper },
    accent ? { accent } : {},
  );
  const { sheet, diagnostics: sheetDiagnostics } = buildSheet({
    model,
    figures,
    mark: sheetMark(project),
    template: placeBlocks(read.template),
    theme,
  });

  const found = [...themeDiagnostics, ...sheetDiagnostics];
  const diagnostics = [...read.diagnostics, ...placeFaults(found, project, read.located)];
  return { sheet, ...(read.located ? { templateSource: read.located } : {}), diagnostics, sources };
}

/** Figures → sheet content → drawings + pages → bytes. */
export async function renderSheet(
  drawable: NonNullable<Evaluation["drawable"]>,
  template: string,
  overrides: Overrides,
  resources: Resources,
): Promise<RenderedSheet> {
  const { project, model, figures } = drawable;
  const name = sheetFileName(project, model, template);
  const { sheet, templateSource, diagnostics: known, sources } = sheetContent(drawable, template, overrides, resources);
  if (!sheet) return { name, diagnostics: known, sources };
  const attachments = buildAttachments(project, model, figures);
  const rendered = await renderDocument(sheet, drawable, resources, {
    attachments,
    ...(templateSource ? { templateSource } : {}),
  });
  const diagnostics = [...known, ...rendered.diagnostics];
  return hasError(diagnostics) || !rendered.pdf
    ? { name, diagnostics, sources }
    : { ...rendered, name, diagnostics, sources };
}

/** Sheet content → drawings + pages, with the pictures on them. */
export function layOutDocument(
  sheet: Sheet,
  { project, model }: Pick<NonNullable<Evaluation["drawable"]>, "project" | "model">,
  resources: Resources,
) {
  const images = picturesOf(project, model);
  const sizes = imageSizes(images);
  return { images, sizes, layout: layOut(sheet, sizes, resources) };
}

/** Sheet content → drawings + pages → bytes; no bytes if the diagnostics contain an error. */
export async function renderDocument(
  sheet: Sheet,
  { project, model }: Pick<NonNullable<Evaluation["drawable"]>, "project" | "model">,
  resources: Resources,
  {
    attachments = [],
    templateSource,
  }: { readonly attachments?: readonly Attachment[]; readonly templateSource?: SourceDocument } = {},
): Promise<Omit<RenderedSheet, "name" | "sources">> {
  const { images, sizes, layout } = layOutDocument(sheet, { project, model }, resources);
  const known = [
    ...(layout.missing ? locateMissingGlyphs(layout.missing, project, templateSource) : layout.diagnostics),
    ...checkPageCount(layout.pages.length, sheet.template),
  ];
  const place = (faults: readonly Diagnostic[]) => placeFaults(faults, project, templateSource);
  if (hasError(known)) return { diagnostics: place(known) };

  const photos = await fitPhotos(layout.pages, sizes, project.images, resources.downscale, (name) => {
    const index = project.job.photos?.findIndex(({ file }) => file === name) ?? 0;
    return project.located.span(["photos", index, "file"]);
  });
  const pdf = await paintPdf(layout.pages, {
    fonts: resources.fonts,
    images: new Map([...images, ...photos.fitted]),
    attachments,
    meta: sheetMetadata(sheet, resources.version),
  });
  const diagnostics = place([...known, ...photos.diagnostics, ...checkFileSize(pdf.length, sheet.template)]);
  const pages = layout.pages.map(({ width, height }) => ({ width, height }));
  return { pdf, title: sheet.documentTitle, pages, diagnostics };
}

/** Locates each missing glyph in the source files (job, compared and sampled jobs, shop, template), once a place. */
function locateMissingGlyphs(
  missing: readonly MissingGlyph[],
  project: Project,
  template?: SourceDocument,
): readonly Diagnostic[] {
  const others = [...project.compared, ...project.samples].map(({ from }) => from);
  const documents = [project, ...others].flatMap((one) => [one.located, one.shopLocated]);
  const sources = [...new Set([...documents, template])].filter((one) => one !== undefined);
  const found = missing.flatMap(({ letter, text, about }): Diagnostic[] => {
    const places = findCharacter(letter, text, sources);
    return places.length > 0 ? places.map((at) => ({ ...about, at })) : [about];
  });
  const keyOf = ({ at, message }: Diagnostic) => (at ? `${at.file} ${at.start}` : message);
  return [...new Map(found.map((one) => [keyOf(one), one])).values()];
}

/** Span of the template's name in the job, for the error about an unknown template. */
function templateSpan(template: string, { job, located }: Project) {
  if (!job.sheet?.includes(template)) return {};
  return {
    at: located.span(
      Array.isArray(job.sheet) && job.sheet.length > 1 ? ["sheet", job.sheet.indexOf(template)] : ["sheet"],
    ),
  };
}

export function picturesOf(project: Project, model: Model): ReadonlyMap<string, Uint8Array> {
  const logo = project.logo && model.shop.logo ? ([[model.shop.logo, project.logo]] as const) : [];
  return new Map([...project.images, ...logo]);
}
