import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { findMutants, type Mutant } from "./find-mutants.ts";

export type PlacedMutant = Mutant & { readonly id: number; readonly folder: string; readonly file: string };
/** All that a run is about: the mutants, the sources that hold them, and the tests that are to find them. */
export type World = {
  readonly mutants: readonly PlacedMutant[];
  readonly sources: ReadonlyMap<string, string>;
  readonly tests: readonly string[];
  /** For each file of tests what changes with it, with the sources, and with what tests share. */
  readonly digests: ReadonlyMap<string, string>;
  /** Changes with any file of src or of the tests, but these. */
  readonly digest: string;
};

export const FOLDERS = ["figures", "units", "layout"] as const;
/** The stages up to layout. Tests of whole sheets would find a few more, and take twenty times as long. */
const TESTED_BY = ["units", "figures", "model", "layout"];
/** An example stands beside its formula, a schema knows no values, a clock no figures; every sheet of a full job takes five seconds. */
const NO_CATCH = /\.slow\.test\.ts$|\/(docstrings|figures-schema|speed|full-job)\.test\.ts$/;

const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .sort()
    .map((name) => join(folder, name));
const sha = (text: string) => createHash("sha256").update(text).digest("hex");

/** Reads the sources and puts every mutant in. Numbers start at 1 and depend on nothing but the sources. */
export function readWorld(root: string): World {
  const mutants: PlacedMutant[] = [];
  const sources = new Map<string, string>();
  for (const folder of FOLDERS)
    for (const path of filesIn(join(root, "src", folder))) {
      const { mutants: found, source } = findMutants(path, readFileSync(path, "utf8"), mutants.length + 1);
      const file = path.slice(join(root, "src").length + 1);
      for (const one of found) mutants.push({ ...one, id: mutants.length + 1, folder, file });
      sources.set(path, source);
    }
  const tests = TESTED_BY.flatMap((name) => filesIn(join(root, "tests", name))).filter(
    (path) => path.endsWith(".test.ts") && !NO_CATCH.test(path),
  );
  const read = [...filesIn(join(root, "src")), ...filesIn(join(root, "tests"))].filter(
    (path) => !path.includes("/tests/mutation/"),
  );
  const together = (paths: readonly string[]) => sha(paths.map((path) => readFileSync(path, "utf8")).join("\0"));
  const shared = together(read.filter((path) => !path.endsWith(".test.ts")));
  return {
    mutants,
    sources,
    tests,
    digests: new Map(tests.map((path) => [path, sha(shared + readFileSync(path, "utf8"))])),
    digest: together(read),
  };
}
