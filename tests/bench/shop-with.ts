import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { jobText, type Much, SHOP, TEMPLATE } from "./job-text.ts";

/** Where the bench writes; nothing of it is kept. */
export const FOLDER = "out/bench";

/** An invented shop with that many jobs; the path of the first. */
export function shopWith(name: string, count: number, much?: Much): string {
  const folder = join(FOLDER, name);
  mkdirSync(join(folder, "templates"), { recursive: true });
  writeFileSync(join(folder, "shop.yaml"), SHOP);
  writeFileSync(join(folder, "templates", "page.yaml"), TEMPLATE);
  for (let number = 1; number <= count; number++)
    writeFileSync(join(folder, `b-${number}.yaml`), jobText(number, much));
  return join(folder, "b-1.yaml");
}
