import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { namesIn } from "../cli/run.ts";
import { jpeg, png } from "../project/pictures.ts";
import { ROOT } from "../whole/demo.ts";

/** Files by path under /shop. */
export type Files = Readonly<Record<string, string | Uint8Array>>;
/** A shop and one of its jobs. */
export type Shop = { readonly job: string; readonly files: Files };

const template = readFileSync(join(ROOT, "templates", "handover.yaml"), "utf8");

/** Files of a folder and its subfolders, by path under /shop. */
function filesIn(folder: string, under = "/shop"): Files {
  return Object.fromEntries(
    namesIn(folder).flatMap((name): [string, string | Uint8Array][] => {
      const path = join(folder, name);
      if (statSync(path).isDirectory()) return Object.entries(filesIn(path, `${under}/${name}`));
      const text = /\.(yaml|csv|tsv)$/.test(name);
      return [[`${under}/${name}`, text ? readFileSync(path, "utf8") : readFileSync(path)]];
    }),
  );
}

/** Every demo job with its shop's files, a template and pictures. */
export const SHOPS: readonly Shop[] = ["alder-lane", "fennick"].flatMap((name) => {
  const files = {
    ...filesIn(join(ROOT, "jobs", name)),
    "/shop/templates/own.yaml": template,
    "/shop/photos/chamber.jpg": jpeg({ width: 64, height: 48 }),
    "/shop/logo.png": png({ width: 4, height: 2 }),
  };
  const jobs = Object.keys(files).filter((path) => /^\/shop\/[^/]+\.yaml$/.test(path) && !path.endsWith("shop.yaml"));
  return jobs.map((job) => ({ job, files }));
});
