import { readShop } from "../job/read-shop.ts";
import { readTemplate } from "../job/read-template.ts";
import { memoize } from "../util/memoize.ts";

/** Parsing of the files that the jobs of a batch share: each text is parsed once. */
export type LoadCache = { readonly readShop: typeof readShop; readonly readTemplate: typeof readTemplate };

/** How many shops, and how many templates, are kept. */
const MOST = 16;

export const createLoadCache = (): LoadCache => ({
  readShop: memoize(readShop, { max: MOST, key: (file, text) => JSON.stringify([file, text]) }),
  readTemplate: memoize(readTemplate, {
    max: MOST,
    key: (file, text, blockNames) => JSON.stringify([file, text, blockNames]),
  }),
});
