import { readShop } from "../job/read-shop.ts";
import { readTemplate } from "../job/read-template.ts";
import { memoize } from "../util/memoize.ts";

/** Memoised parsers of the files that the jobs of a batch share. */
export type LoadCache = { readonly readShop: typeof readShop; readonly readTemplate: typeof readTemplate };

/** Most cached shops, and most cached templates. */
const MAX_ENTRIES = 16;

export const createLoadCache = (): LoadCache => ({
  readShop: memoize(readShop, { max: MAX_ENTRIES, key: (file, text) => JSON.stringify([file, text]) }),
  readTemplate: memoize(readTemplate, {
    max: MAX_ENTRIES,
    key: (file, text, blockNames) => JSON.stringify([file, text, blockNames]),
  }),
});
