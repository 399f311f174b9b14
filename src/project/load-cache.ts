import { createHash } from "node:crypto";
import { readShop } from "../job/read-shop.ts";
import { readTemplate } from "../job/read-template.ts";
import { memoize } from "../util/memoize.ts";
import { checkPicture } from "./picture-fault.ts";

/** Memoised readers of the files that the jobs of a batch, or the previews of a job, share. */
export type LoadCache = {
  readonly readShop: typeof readShop;
  readonly readTemplate: typeof readTemplate;
  readonly checkPicture: typeof checkPicture;
};

/** Most cached shops, and most cached templates. */
const MAX_ENTRIES = 16;
/** Pictures of a job, and the logos of shops. */
const MAX_PICTURES = 32;

export const createLoadCache = (): LoadCache => ({
  readShop: memoize(readShop, { max: MAX_ENTRIES, key: (file, text) => JSON.stringify([file, text]) }),
  readTemplate: memoize(readTemplate, {
    max: MAX_ENTRIES,
    key: (file, text, blockNames) => JSON.stringify([file, text, blockNames]),
  }),
  checkPicture: memoize(checkPicture, {
    max: MAX_PICTURES,
    key: (bytes, name) => `${createHash("sha256").update(bytes).digest("hex")} ${name}`,
  }),
});
