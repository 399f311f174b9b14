/** The same map, where what may be undefined is absent instead. */
export type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The keys of a map that hold something: what was not said is absent. */
export function present<T extends object>(map: T): Present<T> {
  const held = {} as T;
  for (const key in map) if (map[key] !== undefined) held[key] = map[key];
  return held as Present<T>;
}
