import type { Shapes } from "../charts/scenegraph.ts";
import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic, Sources, Span } from "../diagnostics/diagnostic.ts";
import { type Attachment, embeddedFiles } from "../embed/embedded-files.ts";
import { figuresMark } from "../embed/figures-mark.ts";
import type { Io } from "../io/io.ts";
import { drawnSizes } from "../layout/drawn-sizes.ts";
import type { MissingGlyph } from "../layout/missing-glyphs.ts";
import type { Page } from "../layout/page.ts";
import type { Model } from "../model/model.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import type { Fonts } from "../pdf/font/fonts.ts";
import { paint } from "../pdf/paint.ts";
import { type ImageSize, imageSizes } from "../pdf/pictures.ts";
import { findCharacter } from "../project/find-character.ts";
import { findTemplate } from "../project/find-template.ts";
import type { LoadCache } from "../project/load-cache.ts";
import { paperOf } from "../project/load-project.ts";
import type { Project } from "../project/project.ts";
import type { Downscale } from "../raster/cached-downscale.ts";
import { BLOCKS } from "../sheet/blocks.ts";
import { buildSheet } from "../sheet/build-sheet.ts";
import type { Sheet } from "../sheet/content.ts";
import { placeBlocks } from "../sheet/place-blocks.ts";
import { makeTheme } from "../theme/make-theme.ts";
import type { Evaluation, Overrides } from "./evaluate.ts";
import { layOut, metaOf } from "./lay-out.ts";
import { nameOf } from "./sheets-of-job.ts";
/** What is opened once and serves every sheet. */
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

/** A finished sheet, or why there is none. */
export type Made = {
  readonly name: string;
  readonly pdf?: Uint8Array;
  /** The document's title, and each page's size in points. */
  readonly title?: string;
  readonly pages?: readonly { readonly width: number; readonly height: number }[];
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: Sources;
};

/** Sheet content, or why there is none. */
export type Content = {
  readonly sheet?: Sheet;
  /** The template, where somebody typed it. */
  readonly typedIn?: SourceDocument;
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: Sources;
};

/** Figures → sheet content. */
export function sheetContent(
  { project, model, figures }: NonNullable<Evaluation["drawable"]>,
  template: string,
  asked: Overrides,
  kit: Resources,
): Content {
  const read = findTemplate(
    template,
    { root: project.root, builtIn: kit.templates, ...typedAt(template, project) },
    Object.keys(BLOCKS),
    kit.io,
    kit.cache.readTemplate,
  );
  const sources = new Map(read.source ? [read.source] : []);
  if (!read.template) return { diagnostics: read.diagnostics, sources };
  const paper = asked.paper ?? read.template.paper ?? paperOf(project.job, project.shop);
  const { theme, diagnostics: aboutTheme } = makeTheme({ accent: model.shop.accent, paper });
  const { sheet, diagnostics: aboutSheet } = buildSheet({
    model,
    figures,
    mark: figuresMark(model, figures),
    template: placeBlocks(read.template),
    theme,
  });

  const diagnostics = [...read.diagnostics, ...aboutTheme, ...aboutSheet];
  return { sheet, ...(read.located ? { typedIn: read.located } : {}), diagnostics, sources };
}

/** Figures → sheet content → drawings + pages → bytes. */
export async function renderSheet(
  drawable: NonNullable<Evaluation["drawable"]>,
  template: string,
  asked: Overrides,
  kit: Resources,
): Promise<Made> {
  const { project, model, figures } = drawable;
  const name = nameOf(project, model, template);
  const { sheet, typedIn, diagnostics: known, sources } = sheetContent(drawable, template, asked, kit);
  if (!sheet) return { name, diagnostics: known, sources };
  const attachments = embeddedFiles(project, model, figures);
  const printed = await renderDocument(sheet, drawable, kit, { attachments, ...(typedIn ? { typedIn } : {}) });
  const diagnostics = [...known, ...printed.diagnostics];
  return hasError(diagnostics) || !printed.pdf
    ? { name, diagnostics, sources }
    : { ...printed, name, diagnostics, sources };
}

/** Sheet content → drawings + pages → bytes; no bytes with an error among the diagnostics. `typedIn`: the template. */
export async function renderDocument(
  sheet: Sheet,
  { project, model }: Pick<NonNullable<Evaluation["drawable"]>, "project" | "model">,
  kit: Resources,
  {
    attachments = [],
    typedIn,
  }: { readonly attachments?: readonly Attachment[]; readonly typedIn?: SourceDocument } = {},
): Promise<Omit<Made, "name" | "sources">> {
  const images = picturesOf(project, model);
  const sizes = imageSizes(images);
  const laid = layOut(sheet, sizes, kit);
  const known = [
    ...(laid.missing ? whereTyped(laid.missing, project, typedIn) : laid.diagnostics),
    ...tooManyPages(laid.pages.length, sheet.template),
  ];
  if (hasError(known)) return { diagnostics: known };

  const photos = await photosFor(laid.pages, sizes, project.images, kit.downscale, (name) => {
    const index = project.job.photos?.findIndex(({ file }) => file === name) ?? 0;
    return project.located.span(["photos", index, "file"]);
  });
  const pdf = await paint(laid.pages, {
    fonts: kit.fonts,
    images: new Map([...images, ...photos.fitted]),
    attachments,
    meta: metaOf(sheet, kit.version),
  });
  const diagnostics = [...known, ...photos.diagnostics, ...tooLarge(pdf.length, sheet.template)];
  const pages = laid.pages.map(({ width, height }) => ({ width, height }));
  return { pdf, title: sheet.documentTitle, pages, diagnostics };
}

/** Each character that the font lacks, once at every place where somebody typed it: the job, other jobs, shop, template. */
function whereTyped(
  missing: readonly MissingGlyph[],
  project: Project,
  template?: SourceDocument,
): readonly Diagnostic[] {
  const others = [...project.compared, ...project.samples].map(({ from }) => from);
  const documents = [project, ...others].flatMap((one) => [one.located, one.shopLocated]);
  const typed = [...new Set([...documents, template])].filter((one) => one !== undefined);
  const found = missing.flatMap(({ letter, text, about }): Diagnostic[] => {
    const places = findCharacter(letter, text, typed);
    return places.length > 0 ? places.map((at) => ({ ...about, at })) : [about];
  });
  const keyOf = ({ at, message }: Diagnostic) => (at ? `${at.file} ${at.start}` : message);
  return [...new Map(found.map((one) => [keyOf(one), one])).values()];
}

/** The photos that stand on the pages, as fine as print shows and no finer. */
export async function photosFor(
  pages: readonly Page[],
  sizes: ReadonlyMap<string, ImageSize>,
  photos: ReadonlyMap<string, Uint8Array>,
  downscale: Downscale,
  whereNamed: (photo: string) => Span | undefined,
) {
  const fitted = new Map<string, Uint8Array>();
  const diagnostics: Diagnostic[] = [];
  for (const [name, drawn] of drawnSizes(pages)) {
    const [bytes, pixels] = [photos.get(name), sizes.get(name)];
    if (bytes === undefined || pixels === undefined) continue;
    const { fitPhoto } = await import("../raster/fit-photo.ts");
    const photo = await fitPhoto(name, bytes, pixels, drawn, downscale);
    fitted.set(name, photo.bytes);
    const at = whereNamed(name);
    if (photo.remark) diagnostics.push({ severity: "warning", ...(at ? { at } : {}), ...photo.remark });
  }
  return { fitted, diagnostics };
}

/** What a mailbox may send back [bytes]. */
const LARGE = 5_000_000;

function tooLarge(bytes: number, template: string): readonly Diagnostic[] {
  if (bytes < LARGE) return [];
  const message = `the ${template} has ${(bytes / 1e6).toFixed(1)} MB, which some mailboxes refuse`;
  const hint = "leave out photos, or save those that are not made smaller again as JPEG";
  return [{ severity: "warning", code: "sheet/large-file", message, hint }];
}

/** No customer reads more, and no shop prints it. */
const PAGES = 40;

function tooManyPages(pages: number, template: string): readonly Diagnostic[] {
  if (pages <= PAGES) return [];
  const message = `\`${template}\` would have ${pages} pages; at most ${PAGES} are made`;
  const hint = "shorten the remarks and lists, or print another template";
  return [{ severity: "error", code: "sheet/too-many-pages", message, hint }];
}

/** Where a job names the template, so that a wrong name can be pointed at. */
function typedAt(template: string, { job, located }: Project) {
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
