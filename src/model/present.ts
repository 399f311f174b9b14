/** The same map with optional keys in place of undefined values. */
export type WithoutUndefined<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** Removes the keys whose value is undefined. */
export function omitUndefined<T extends object>(map: T): WithoutUndefined<T> {
  const held = {} as T;
  for (const key in map) if (map[key] !== undefined) held[key] = map[key];
  return held as WithoutUndefined<T>;
}
