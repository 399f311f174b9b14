import type { Page } from "../../layout/page.ts";
import type { OutlineItem, PdfDocument } from "../file/pdf-document.ts";

type OutlineEntry = { readonly title: string; readonly level: number; readonly page: number };

/** The headings of a document in order, wrapped lines joined. */
export function collectOutline(pages: readonly Page[]): readonly OutlineEntry[] {
  const entries = new Map<string, OutlineEntry>();
  pages.forEach((page, number) => {
    for (const item of page.items) {
      if (item.kind !== "text" || item.tag.kind !== "heading") continue;
      const { id, level } = item.tag;
      const before = entries.get(id);
      const title = before ? `${before.title} ${item.text}` : item.text;
      entries.set(id, { title, level, page: before?.page ?? number });
    }
  });
  return [...entries.values()];
}

/** Writes an outline: each heading under the nearest preceding one of a higher level, all expanded. */
export function writeOutline(doc: PdfDocument, entries: readonly OutlineEntry[]): void {
  const above: { level: number; item: OutlineItem }[] = [];
  for (const { title, level, page } of entries) {
    while (above.length > 0 && above.at(-1)!.level >= level) above.pop();
    const parent = above.at(-1)?.item ?? doc.outline;
    above.push({ level, item: parent.addItem(title, { fit: true, pageNumber: page, expanded: true }) });
  }
  // pdfkit leaves out the Count of the root, which is the number of all open entries.
  if (entries.length > 0) doc.outline.outlineData.Count = entries.length;
}
