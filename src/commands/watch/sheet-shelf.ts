import { createHash } from "node:crypto";

/** Finished sheets by their ids, the latest ones. */
export type Shelf = {
  readonly put: (sheet: Kept) => string;
  readonly get: (id: string) => Kept | undefined;
};
export type Kept = { readonly name: string; readonly pdf: Uint8Array; readonly pages: number };

/** The sheets in sight are kept whatever they weigh: a job has no more templates than this, on a few pages of a browser. */
const SURELY = 16;
/** All together [bytes]: some hundred sheets without photos. */
const ROOM = 8 * 1024 * 1024;

/** A shelf with room for the sheets that somebody may still look at. */
export function sheetShelf(room = ROOM): Shelf {
  const kept = new Map<string, Kept>();
  const toEnd = (id: string, one: Kept) => {
    kept.delete(id);
    kept.set(id, one);
  };
  return {
    put: (sheet) => {
      const id = createHash("sha256").update(sheet.pdf).digest("hex").slice(0, 32);
      toEnd(id, sheet);
      let weight = [...kept.values()].reduce((sum, one) => sum + one.pdf.length, 0);
      for (const [old, one] of kept) {
        if (kept.size <= SURELY || weight <= room) break;
        weight -= one.pdf.length;
        kept.delete(old);
      }
      return id;
    },
    get: (id) => {
      const found = kept.get(id);
      if (found) toEnd(id, found);
      return found;
    },
  };
}
