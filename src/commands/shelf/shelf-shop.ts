import type { Io } from "../../io/io.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import type { ShopFile } from "../../job/schema/shop.ts";
import { displayUnits } from "../../model/display-units.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { findShop } from "../../project/find-shop.ts";
import { type LoadContext, notebook, shopAt } from "../../project/load-job.ts";
import { readLogo } from "../../project/pictures.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Environment } from "../environment.ts";

/** Whose shelf it is: looks come from the shop.yaml that the folder stands under, if there is one. */
export type ShelfShop = { readonly shop?: ShopFile; readonly logo?: Uint8Array };

export type ShownAs = { readonly units: DisplayUnits; readonly testPressure: Pascals };

/** Units and pressure that the shop of a folder shows its jobs in. What is wrong with it, its jobs say. */
export function shownAs(folder: string, io: Io, cwd: string): ShownAs {
  const found = shopOf(folder, notebook(folder, io, cwd));
  return {
    units: displayUnits(found?.units ?? {}),
    testPressure: found?.shop?.report?.test_pressure ?? DEFAULTS.report.testPressure,
  };
}

/** The looks of a folder's shop. */
export function shelfShop(folder: string, { io, cwd }: Environment): ShelfShop {
  const book = notebook(folder, io, cwd);
  const found = shopOf(folder, book);
  const logo = readLogo(found, book).bytes;
  return { ...(found?.shop && { shop: found.shop }), ...(logo && { logo }) };
}

function shopOf(folder: string, book: LoadContext) {
  const path = findShop(folder, book.io);
  return path === undefined ? undefined : shopAt(path, book);
}
