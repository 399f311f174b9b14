import { UsageError } from "../usage-error.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { keyNamed } from "./where.ts";

/** An order as typed: a key, or a key with `:desc`. Jobs that lack the key come last either way; equals go by their file. */
export function orderBy(typed: string): (a: ShelfEntry, b: ShelfEntry) => number {
  const [name = "", way = "asc", ...more] = typed.split(":");
  if (more.length > 0 || !["asc", "desc"].includes(way))
    throw new UsageError(`--sort takes a key, or a key with :desc, such as intake.peak:desc: \`${typed}\``);
  const key = keyNamed(name, "--sort");
  const sign = way === "desc" ? -1 : 1;
  return (a, b) => {
    const [x, y] = [key.of(a), key.of(b)];
    if (x === undefined || y === undefined) return x === y ? byFile(a, b) : x === undefined ? 1 : -1;
    const order = typeof x === "number" && typeof y === "number" ? x - y : natural(String(x), String(y));
    return sign * order || byFile(a, b);
  };
}

const { compare: natural } = new Intl.Collator("en", { numeric: true });

/** The order of their files, numbers in the names by their size. */
export const byFile = (a: ShelfEntry, b: ShelfEntry): number =>
  natural(a.file, b.file) || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0);
