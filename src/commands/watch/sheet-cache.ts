import { createHash } from "node:crypto";

/** Cache of finished sheets by id; evicts the least recently used. */
export type SheetCache = {
  readonly put: (sheet: CachedSheet) => string;
  readonly get: (id: string) => CachedSheet | undefined;
};
export type CachedSheet = { readonly name: string; readonly pdf: Uint8Array; readonly pages: number };

/** Sheets kept whatever their size: more than a few open pages show at once. */
const LEAST_SHEETS = 16;
/** Upper limit of their total size [bytes]: about a hundred sheets without photos. */
const MOST_BYTES = 8 * 1024 * 1024;

export function createSheetCache(mostBytes = MOST_BYTES): SheetCache {
  const sheets = new Map<string, CachedSheet>();
  const touch = (id: string, one: CachedSheet) => {
    sheets.delete(id);
    sheets.set(id, one);
  };
  return {
    put: (sheet) => {
      const id = createHash("sha256").update(sheet.pdf).digest("hex").slice(0, 32);
      touch(id, sheet);
      let size = [...sheets.values()].reduce((sum, one) => sum + one.pdf.length, 0);
      for (const [old, one] of sheets) {
        if (sheets.size <= LEAST_SHEETS || size <= mostBytes) break;
        size -= one.pdf.length;
        sheets.delete(old);
      }
      return id;
    },
    get: (id) => {
      const found = sheets.get(id);
      if (found) touch(id, found);
      return found;
    },
  };
}
