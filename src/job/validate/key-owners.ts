import type { KeyTree } from "../schema/keys.ts";

/** For every key of a schema the keys under which it is known, shallowest first: for one typed in the wrong place. */
export function ownersByKey(tree: KeyTree): ReadonlyMap<string, readonly string[]> {
  const homes = new Map<string, Map<string, number>>();
  const walk = ({ keys, record }: KeyTree, owner: string | undefined, depth: number): void => {
    for (const [key, inner] of keys) {
      const owners = homes.get(key) ?? new Map<string, number>();
      if (owner !== undefined && !owners.has(owner)) owners.set(owner, depth);
      homes.set(key, owners);
      walk(inner, key, depth + 1);
    }
    if (record) walk(record, owner, depth);
  };
  walk(tree, undefined, 0);
  const byDepth = (owners: ReadonlyMap<string, number>) => [...owners].toSorted(([, a], [, b]) => a - b);
  return new Map([...homes].map(([key, owners]) => [key, byDepth(owners).map(([owner]) => owner)]));
}
