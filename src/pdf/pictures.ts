import PDFDocument from "pdfkit";
import { findColourProfile, isJpeg } from "../images/jpeg/segments.ts";
import { isPng, parsePngHeader, splitPng } from "../images/png-header.ts";
import { stripToImageData } from "../images/strip-metadata.ts";
import { isSvg, parseSvg, type VectorPicture } from "../images/svg/parse-svg.ts";
import type { PdfDocument } from "./file/pdf-document.ts";

/** pdfkit's JPEG before it is drawn; pdfkit has read its orientation already. */
type OpenJpeg = { data: Uint8Array; colorSpace: unknown };

/** pdfkit's PNG: the data that it embeds, and the data that it decodes when there is transparency. */
type OpenPng = { imgData: Uint8Array; readonly image: { imgData: Uint8Array } };

const SPACES = { 1: "DeviceGray", 3: "DeviceRGB" } as const;

/** Opens a picture. A JPEG loses its metadata; its colour profile becomes an object of the document. */
export function openPicture(doc: PdfDocument, bytes: Uint8Array): unknown {
  if (isSvg(bytes)) return openSvg(bytes);
  if (isPng(bytes)) return openWholePng(doc, bytes);
  const image = doc.openImage(bytes);
  if (!isJpeg(bytes)) return image;
  const jpeg = image as OpenJpeg;
  const profile = findColourProfile(bytes);
  jpeg.data = stripToImageData(bytes);
  if (profile !== undefined && jpeg.colorSpace === SPACES[profile.channels]) {
    const profileStream = doc.ref({ N: profile.channels, Alternate: jpeg.colorSpace });
    profileStream.end(profile.bytes);
    jpeg.colorSpace = ["ICCBased", profileStream];
  }
  return jpeg;
}

/** Opens a PNG and sets its data directly: pdfkit would copy it into a number array of ten to thirty times its size. */
function openWholePng(doc: PdfDocument, bytes: Uint8Array): OpenPng {
  const { description, compressed } = splitPng(bytes);
  const png = doc.openImage(description) as OpenPng;
  png.imgData = compressed;
  png.image.imgData = compressed;
  return png;
}

/** An SVG picture as its shapes; it was checked when it was loaded. */
function openSvg(bytes: Uint8Array): VectorPicture {
  const parsed = parseSvg(bytes);
  if ("fault" in parsed) throw new Error(`a picture cannot be drawn: ${parsed.fault}`);
  return parsed.picture;
}

/** Whether an opened picture is drawn as shapes. */
export const isVector = (image: unknown): image is VectorPicture =>
  (image as Partial<VectorPicture>).shapes !== undefined;

/** Whether a picture is CMYK, which the sRGB output intent does not cover: PDF/A then cannot be claimed. */
export const isCmyk = (image: unknown): boolean => (image as OpenJpeg).colorSpace === "DeviceCMYK";

/** Renders a PDF of one page, filled by one upright picture of that size [pt] or the part that is seen of it. */
export function renderPicturePage(
  bytes: Uint8Array,
  {
    width,
    height,
    seen = { x: 0, y: 0, width, height },
  }: ImageSize & { readonly seen?: ImageSize & { x: number; y: number } },
): Promise<Buffer> {
  const doc = new PDFDocument({ autoFirstPage: false, compress: false, font: null as unknown as string });
  const own = doc as unknown as PdfDocument;
  own.addPage({ size: [seen.width, seen.height], margin: 0 });
  own.image(openPicture(own, bytes), -seen.x, -seen.y, { width, height });
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.end();
  });
}

export type ImageSize = { readonly width: number; readonly height: number };

/** Upright size of each picture [pixels], after Exif orientation. */
export function imageSizes(images: ReadonlyMap<string, Uint8Array>): ReadonlyMap<string, ImageSize> {
  if (images.size === 0) return new Map();
  const document = new PDFDocument({ autoFirstPage: false, font: null as unknown as string }) as unknown as {
    openImage: (bytes: Uint8Array) => ImageSize & { orientation?: number };
  };
  return new Map(
    [...images].map(([name, bytes]) => {
      if (isSvg(bytes)) return [name, openSvg(bytes)];
      const png = parsePngHeader(bytes);
      if (png && "width" in png) return [name, { width: png.width, height: png.height }];
      const { width, height, orientation = 1 } = document.openImage(bytes);
      return [name, orientation > 4 ? { width: height, height: width } : { width, height }];
    }),
  );
}
