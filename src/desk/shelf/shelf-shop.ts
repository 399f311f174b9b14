import { DEFAULTS } from "../../job/defaults.ts";
import type { ShopFile } from "../../job/schema/shop.ts";
import { displayUnits } from "../../model/display-units.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { findShop } from "../../project/find-shop.ts";
import { readLogo } from "../../project/pictures.ts";
import { notebook, shopAt } from "../../project/read-on-file.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { World } from "../world.ts";

/** Whose shelf it is: units, pressure and looks come from the shop.yaml that the folder stands under, if there is one. */
export type ShelfShop = {
  readonly shop?: ShopFile;
  readonly logo?: Uint8Array;
  readonly units: DisplayUnits;
  readonly testPressure: Pascals;
};

/** Reads the shop of a folder. What is wrong with it, its jobs say. */
export function shelfShop(folder: string, { io, cwd }: World): ShelfShop {
  const path = findShop(folder, io);
  const book = notebook(folder, io, cwd);
  const found = path === undefined ? undefined : shopAt(path, book);
  const logo = readLogo(found, book).bytes;
  return {
    ...(found?.shop && { shop: found.shop }),
    ...(logo && { logo }),
    units: displayUnits(found?.units ?? {}),
    testPressure: found?.shop?.report?.test_pressure ?? DEFAULTS.report.testPressure,
  };
}
