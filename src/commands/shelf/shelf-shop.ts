import type { Io } from "../../io/io.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import type { ShopFile } from "../../job/schema/shop.ts";
import { displayUnits } from "../../model/display-units.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { findShop } from "../../project/find-shop.ts";
import { createLoadContext, type LoadContext, loadShopFile } from "../../project/load-job.ts";
import { loadLogo } from "../../project/pictures.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Environment } from "../environment.ts";

/** Shop file and logo from the shop.yaml above the folder, if there is one. */
export type ShelfShop = { readonly shop?: ShopFile; readonly logo?: Uint8Array };

export type ShelfDisplay = { readonly units: DisplayUnits; readonly testPressure: Pascals };

/** Loads the display units and test pressure of a folder's shop; its errors are reported with the jobs. */
export function loadDisplay(folder: string, io: Io, cwd: string): ShelfDisplay {
  const found = findAndLoadShop(folder, createLoadContext(folder, io, cwd));
  return {
    units: displayUnits(found?.units ?? {}),
    testPressure: found?.shop?.report?.test_pressure ?? DEFAULTS.report.testPressure,
  };
}

/** Loads the shop file and logo for the printed index. */
export function loadShelfShop(folder: string, { io, cwd }: Environment): ShelfShop {
  const context = createLoadContext(folder, io, cwd);
  const found = findAndLoadShop(folder, context);
  const logo = loadLogo(found, context).bytes;
  return { ...(found?.shop && { shop: found.shop }), ...(logo && { logo }) };
}

function findAndLoadShop(folder: string, context: LoadContext) {
  const path = findShop(folder, context.io);
  return path === undefined ? undefined : loadShopFile(path, context);
}
