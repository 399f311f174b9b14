import { z } from "zod";

type Node = { readonly [key: string]: unknown };

/** For every key of a schema the keys under which it is known, shallowest first: for one typed in the wrong place. */
export function homesOfKeys(schema: z.ZodType): ReadonlyMap<string, readonly string[]> {
  const homes = new Map<string, Map<string, number>>();
  const walk = (node: unknown, owner: string | undefined, depth: number): void => {
    if (typeof node !== "object" || node === null) return;
    if (Array.isArray(node)) {
      for (const inner of node) walk(inner, owner, depth);
      return;
    }
    const { properties = {}, ...rest } = node as { properties?: Readonly<Record<string, Node>> } & Node;
    for (const [key, inner] of Object.entries(properties)) {
      const owners = homes.get(key) ?? new Map<string, number>();
      if (owner !== undefined && !owners.has(owner)) owners.set(owner, depth);
      homes.set(key, owners);
      walk(inner, key, depth + 1);
    }
    for (const inner of Object.values(rest)) walk(inner, owner, depth);
  };
  walk(z.toJSONSchema(schema, { io: "input" }), undefined, 0);
  const byDepth = (owners: ReadonlyMap<string, number>) => [...owners].toSorted(([, a], [, b]) => a - b);
  return new Map([...homes].map(([key, owners]) => [key, byDepth(owners).map(([owner]) => owner)]));
}
