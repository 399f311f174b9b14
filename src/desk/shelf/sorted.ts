import { WrongUse } from "../wrong-use.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { keyNamed } from "./where.ts";

/** What an entry is sorted by: of the order's key what it has, and its file. */
export type Sorted = { readonly file: string; readonly key?: string | number | undefined };

/** An order of entries, of which no more has to be at hand than what it says. */
export type Order = {
  readonly of: (entry: ShelfEntry) => Sorted["key"];
  /** How two stand to each other. */
  readonly compare: (a: Sorted, b: Sorted) => number;
};

/** An order as typed: a key, or a key with `:desc`. Jobs that lack the key come last either way; equals go by their file. */
export function orderBy(typed: string): Order {
  const [name = "", way = "asc", ...more] = typed.split(":");
  if (more.length > 0 || !["asc", "desc"].includes(way))
    throw new WrongUse(`--sort takes a key, or a key with :desc, such as intake.peak:desc: \`${typed}\``);
  const key = keyNamed(name, "--sort");
  const sign = way === "desc" ? -1 : 1;
  return {
    of: key.of,
    compare: (a, b) => {
      const [x, y] = [a.key, b.key];
      if (x === undefined || y === undefined) return x === y ? byFile(a, b) : x === undefined ? 1 : -1;
      const order = typeof x === "number" && typeof y === "number" ? x - y : natural(String(x), String(y));
      return sign * order || byFile(a, b);
    },
  };
}

const { compare: natural } = new Intl.Collator("en", { numeric: true });

/** The order of their files, numbers in the names by their size. */
export const byFile = (a: Sorted, b: Sorted): number =>
  natural(a.file, b.file) || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0);
