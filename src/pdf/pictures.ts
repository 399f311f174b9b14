import PDFDocument from "pdfkit";
import { colourProfile } from "../images/colour-profile.ts";
import { isJpeg } from "../images/jpeg-segments.ts";
import { isPng, pngHeader, pngParted } from "../images/png-header.ts";
import { picturesDataOnly } from "../images/strip-metadata.ts";
import type { PdfDocument } from "./file/pdf-document.ts";

/** A JPEG as pdfkit holds it until it is drawn; which way up it stands was read when it was opened. */
type OpenJpeg = { data: Uint8Array; colorSpace: unknown };

/** A PNG as pdfkit holds it: what it embeds, and what it unpacks where something is see-through. */
type OpenPng = { imgData: Uint8Array; readonly image: { imgData: Uint8Array } };

const SPACES = { 1: "DeviceGray", 3: "DeviceRGB" } as const;

/** Opens a picture for the file. Of a JPEG no notes go in: its colour profile becomes the file's own. */
export function openPicture(doc: PdfDocument, bytes: Uint8Array): unknown {
  if (isPng(bytes)) return openPng(doc, bytes);
  const image = doc.openImage(bytes);
  if (!isJpeg(bytes)) return image;
  const jpeg = image as OpenJpeg;
  const profile = colourProfile(bytes);
  jpeg.data = picturesDataOnly(bytes);
  if (profile !== undefined && jpeg.colorSpace === SPACES[profile.channels]) {
    const told = doc.ref({ N: profile.channels, Alternate: jpeg.colorSpace });
    told.end(profile.bytes);
    jpeg.colorSpace = ["ICCBased", told];
  }
  return jpeg;
}

/** pdfkit reads a PNG's data into a list, number by number, which takes ten to thirty times their room: it is given them whole. */
function openPng(doc: PdfDocument, bytes: Uint8Array): OpenPng {
  const { said, packed } = pngParted(bytes);
  const png = doc.openImage(said) as OpenPng;
  png.imgData = packed;
  png.image.imgData = packed;
  return png;
}

/** A picture in printer's inks: its colours are not told by our profile, so an archive would not take the file. */
export const isPrinters = (image: unknown): boolean => (image as OpenJpeg).colorSpace === "DeviceCMYK";

/** A page of that size [pt] with nothing on it but one picture, from edge to edge, the right way up. */
export function picturePage(
  bytes: Uint8Array,
  size: { readonly width: number; readonly height: number },
): Promise<Buffer> {
  const { width, height } = size;
  const doc = new PDFDocument({ autoFirstPage: false, compress: false, font: null as unknown as string });
  const own = doc as unknown as PdfDocument;
  own.addPage({ size: [width, height], margin: 0 });
  own.image(openPicture(own, bytes), 0, 0, { width, height });
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.end();
  });
}

export type ImageSize = { readonly width: number; readonly height: number };

/** Pixels of each picture as it will stand on the page: a photo turned by its camera is measured turned. */
export function imageSizes(images: ReadonlyMap<string, Uint8Array>): ReadonlyMap<string, ImageSize> {
  if (images.size === 0) return new Map();
  const document = new PDFDocument({ autoFirstPage: false, font: null as unknown as string }) as unknown as {
    openImage: (bytes: Uint8Array) => ImageSize & { orientation?: number };
  };
  return new Map(
    [...images].map(([name, bytes]) => {
      const png = pngHeader(bytes);
      if (png && "width" in png) return [name, { width: png.width, height: png.height }];
      const { width, height, orientation = 1 } = document.openImage(bytes);
      return [name, orientation > 4 ? { width: height, height: width } : { width, height }];
    }),
  );
}
