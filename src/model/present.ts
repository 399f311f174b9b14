/** The keys of a map that hold something: what was not said is absent. */
export function present<T extends object>(map: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const held: { [K in keyof T]?: Exclude<T[K], undefined> } = {};
  for (const key in map) if (map[key] !== undefined) held[key] = map[key] as Exclude<T[typeof key], undefined>;
  return held;
}
