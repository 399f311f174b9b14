import type { Path, YamlValue } from "../../parse/yaml/source-document.ts";
import type { SchemaError } from "./schema-errors.ts";

type Tree = string | Tree[] | { [key: string]: Tree };

/** Values put in place of missing required keys, so that the rest can still be checked. */
const STAND_INS: Readonly<Record<string, string>> = { issued: "2000-01-01", received: "2000-01-01" };

/**
 * Removes what the schema refuses, so that the rules between keys can check the rest and every error is reported in one run.
 * The result is never printed or drawn.
 */
export function recoverValue(value: YamlValue, faults: readonly SchemaError[], standIn: boolean): YamlValue {
  const copy = clone(value);
  // Deepest and last first, so that the paths of the errors still to come stay valid.
  for (const fault of faults.toSorted((a, b) => comparePaths(b.path, a.path))) {
    if (fault.kind === "missing" && standIn) setAt(copy, fault.path, STAND_INS[String(fault.path.at(-1))] ?? "?");
    else remove(copy, fault.kind === "missing" ? fault.path.slice(0, -1) : fault.path);
  }
  return copy;
}

const clone = (value: YamlValue): Tree => {
  if (typeof value === "string") return value;
  if (Array.isArray(value)) return value.map(clone);
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, clone(inner)]));
};

const parentOf = (root: Tree, path: Path): Tree | undefined => {
  let tree: Tree | undefined = root;
  for (const part of path.slice(0, -1)) {
    if (typeof tree !== "object") return undefined;
    tree = (tree as Record<string | number, Tree>)[part];
  }
  return tree;
};

function setAt(root: Tree, path: Path, value: string): void {
  const parent = parentOf(root, path);
  const last = path.at(-1);
  if (last !== undefined && typeof parent === "object" && !Array.isArray(parent)) parent[String(last)] = value;
}

function remove(root: Tree, path: Path): void {
  const parent = parentOf(root, path);
  const last = path.at(-1);
  if (last === undefined || typeof parent !== "object") return;
  if (!Array.isArray(parent)) delete parent[String(last)];
  // An entry of a list becomes empty and keeps its index, so that paths behind it stay valid.
  else if (typeof last === "number" && last < parent.length) parent[last] = {};
}

function comparePaths(a: Path, b: Path): number {
  for (let index = 0; index < Math.min(a.length, b.length); index++) {
    const [one, two] = [a[index] as string | number, b[index] as string | number];
    if (one === two) continue;
    return typeof one === "number" && typeof two === "number" ? one - two : String(one) < String(two) ? -1 : 1;
  }
  return a.length - b.length;
}
