import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import type { Page } from "../../src/layout/page.ts";
import type { Meta } from "../../src/pdf/file/metadata.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { paintPdf } from "../../src/pdf/paint.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { dummyDraw } from "../layout/dummy-sheet.ts";

export const fonts = openFonts();
export const meta: Meta = {
  title: "Head A & B <c>",
  author: "Harbour & Sons",
  subject: "Flow of one head",
  language: "en",
  issued: "2026-03-14",
  producer: "headsheet 0.0.0",
};

/** A sheet as pages, measured with the fonts that paint it. */
export const pagesOf = (sheet: Sheet): readonly Page[] =>
  layoutSheet(sheet, { measure: fonts.measure, draw: dummyDraw, drawTrueSize: () => undefined, images: new Map() })
    .pages;

export const paintPages = (pages: readonly Page[], images: ReadonlyMap<string, Uint8Array> = new Map()) =>
  paintPdf(pages, { fonts, images, meta });

/** The file's objects with nothing packed: what its own grammar says, object by object, stream by stream. */
export function unpacked(bytes: Buffer, inflate: (data: Buffer) => Buffer): string {
  const text = bytes.toString("latin1");
  return text.replace(
    /<<([^\n]*)\nstream\n([\s\S]*?)\nendstream|stream\n([\s\S]*?)\nendstream/g,
    (whole, head, data, other) => {
      try {
        const plain = inflate(Buffer.from(data ?? other, "latin1")).toString("latin1");
        return head?.includes("/ObjStm") ? objectsOf(plain, head) : `stream\n${plain}\nendstream`;
      } catch {
        return whole;
      }
    },
  );
}

/** ISO 32000-1, 7.5.7: pairs of number and offset, then the objects. */
function objectsOf(plain: string, head: string): string {
  const first = Number(/\/First (\d+)/.exec(head)![1]);
  const index = plain.slice(0, first).trim().split(" ").map(Number);
  const starts = index.filter((_, i) => i % 2 === 1);
  return starts
    .map(
      (at, i) =>
        `\n${index[2 * i]} 0 obj\n${plain.slice(first + at, first + (starts[i + 1] ?? plain.length)).trimEnd()}\nendobj`,
    )
    .join("\n");
}
