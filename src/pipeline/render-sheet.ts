import type { Shapes } from "../charts/scenegraph.ts";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic, Sources, Span } from "../diagnostics/diagnostic.ts";
import { type Attachment, buildAttachments } from "../embed/embedded-files.ts";
import type { Io } from "../io/io.ts";
import type { Page } from "../layout/page.ts";
import type { Model } from "../model/model.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import type { Fonts } from "../pdf/font/fonts.ts";
import { paintPdf } from "../pdf/paint.ts";
import { type ImageSize, imageSizes } from "../pdf/pictures.ts";
import { findTemplate } from "../project/find-template.ts";
import type { LoadCache } from "../project/load-cache.ts";
import { paperOf } from "../project/load-project.ts";
import { photoFiles } from "../project/pictures.ts";
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
import { locateMissingGlyphs } from "./locate-missing-glyphs.ts";
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
  if (model.firstHead && !read.template.rows.some(({ blocks }) => blocks.some(({ block }) => block === "side-flow")))
    return { diagnostics: [...read.diagnostics, headsOfOnly(template, project)], sources };
  const asked = read.template.paper;
  const paper = asked === "phone" ? asked : (overrides.paper ?? asked ?? paperOf(project.job, project.shop));
  const holder = project.shop?.brand?.accent === undefined ? "shop" : "brand";
  const accent = model.shop.accent && project.shopLocated?.span([holder, "accent"]);
  const { theme, diagnostics: themeDiagnostics } = makeTheme(
    { accent: model.shop.accent, paper, font: model.shop.font },
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

/** Figures → sheet content → drawings + pages: all that `renderSheet` finds wrong before it paints, in the same words. */
export async function checkSheet(
  drawable: NonNullable<Evaluation["drawable"]>,
  template: string,
  overrides: Overrides,
  resources: Resources,
): Promise<Pick<RenderedSheet, "diagnostics" | "sources"> & { readonly pages?: readonly Page[] }> {
  const { sheet, templateSource, diagnostics: known, sources } = sheetContent(drawable, template, overrides, resources);
  if (!sheet) return { diagnostics: known, sources };
  const { pages, sizes, diagnostics: found } = layOutDocument(sheet, drawable, resources, templateSource);
  if (!pages) return { diagnostics: [...known, ...found], sources };
  const photos = await fitPhotosOf(drawable.project, pages, sizes, async (bytes) => bytes);
  const diagnostics = [...known, ...found, ...photos.diagnostics];
  return { diagnostics, sources, ...(hasError(diagnostics) ? {} : { pages }) };
}

type Drawn = Pick<NonNullable<Evaluation["drawable"]>, "project" | "model">;

/** Sheet content → drawings + pages → bytes; no bytes if the diagnostics contain an error. */
export async function renderDocument(
  sheet: Sheet,
  { project, model }: Drawn,
  resources: Resources,
  {
    attachments = [],
    templateSource,
  }: { readonly attachments?: readonly Attachment[]; readonly templateSource?: SourceDocument } = {},
): Promise<Omit<RenderedSheet, "name" | "sources">> {
  const laid = layOutDocument(sheet, { project, model }, resources, templateSource);
  if (!laid.pages) return { diagnostics: laid.diagnostics };
  const photos = await fitPhotosOf(project, laid.pages, laid.sizes, resources.downscale);
  const pdf = await paintPdf(photos.pages, {
    fonts: resources.fonts.family(sheet.theme.font),
    images: new Map([...laid.images, ...photos.fitted]),
    attachments,
    meta: sheetMetadata(sheet, resources.version),
  });
  const diagnostics = [
    ...laid.diagnostics,
    ...photos.diagnostics,
    ...placeFaults(checkFileSize(pdf.length, sheet.template), project, templateSource),
  ];
  const pages = laid.pages.map(({ width, height }) => ({ width, height }));
  return { pdf, title: sheet.documentTitle, pages, diagnostics };
}

/** Sheet content → drawings + pages; no pages if the diagnostics contain an error. */
export function layOutDocument(
  sheet: Sheet,
  { project, model }: Drawn,
  resources: Resources,
  templateSource?: SourceDocument,
) {
  const images = picturesOf(project, model);
  const sizes = imageSizes(images);
  const layout = layOut(sheet, sizes, resources);
  const found = [
    ...(layout.missing ? locateMissingGlyphs(layout.missing, project, templateSource) : layout.diagnostics),
    ...checkPageCount(layout.pages.length, sheet.template),
  ];
  const diagnostics = placeFaults(found, project, templateSource);
  return { images, sizes, diagnostics, ...(hasError(diagnostics) ? {} : { pages: layout.pages }) };
}

function fitPhotosOf(
  project: Project,
  pages: readonly Page[],
  sizes: ReadonlyMap<string, ImageSize>,
  downscale: Downscale,
) {
  return fitPhotos(pages, sizes, project.images, downscale, (name) => photoSpan(name, project));
}

/** Where a job names a photo. */
export function photoSpan(name: string, project: Pick<Project, "job" | "located">): Span | undefined {
  return photoFiles(project).find(({ file }) => file === name)?.at;
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

function headsOfOnly(template: string, project: Project): Diagnostic {
  const at = templateSpan(template, project).at ?? project.located.keySpan(["heads_of"]);
  return {
    severity: "error",
    code: "pipeline/heads-of",
    message: `the sheet \`${template}\` is about one head, and \`heads_of\` names several`,
    at,
    hint: "write `sheet: side-by-side`",
  };
}

export function picturesOf(project: Project, model: Model): ReadonlyMap<string, Uint8Array> {
  const logo = project.logo && model.shop.logo ? ([[model.shop.logo, project.logo]] as const) : [];
  return new Map([...project.images, ...logo]);
}
