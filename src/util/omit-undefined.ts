/** A map with optional keys instead of undefined values. */
type WithoutUndefined<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** Removes the keys whose value is undefined. */
export function omitUndefined<T extends object>(map: T): WithoutUndefined<T> {
  const result = {} as T;
  for (const key in map) if (map[key] !== undefined) result[key] = map[key];
  return result as WithoutUndefined<T>;
}
