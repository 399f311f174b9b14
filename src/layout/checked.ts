import type { Slab } from "./slab.ts";

/** The same slab, if each of its numbers is one; else an error that names the block. No NaN reaches the page. */
export function checked(slab: Slab, block: string): Slab {
  const heads = slab.run && slab.opens ? [slab.run.head, slab.run.again, slab.run.close] : [];
  for (const { height, items } of [slab, ...heads]) {
    const path = notANumber({ height, gap: slab.gap, items });
    if (path !== undefined) throw new Error(`block "${block}": not a number at ${path.join(".")}`);
  }
  return slab;
}

/** Where in plain data a number is NaN or infinite. */
function notANumber(value: unknown): readonly string[] | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : [];
  if (typeof value !== "object" || value === null) return undefined;
  for (const key in value) {
    const path = notANumber((value as Record<string, unknown>)[key]);
    if (path !== undefined) return [key, ...path];
  }
  return undefined;
}
