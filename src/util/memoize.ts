/** How many results are kept, and which calls are equal: those whose keys are one and the same. */
type MemoOptions<Args extends readonly unknown[]> = {
  readonly max: number;
  readonly key: (...args: Args) => unknown;
};

/** Caches the results of a pure function; the oldest result is evicted first. A call that throws is not cached. */
export function memoize<Args extends readonly unknown[], T>(
  compute: (...args: Args) => T,
  { max, key }: MemoOptions<Args>,
): (...args: Args) => T {
  const results = new Map<unknown, T>();
  return (...args) => {
    const call = key(...args);
    const known = results.get(call);
    if (known !== undefined || results.has(call)) return known as T;
    const result = compute(...args);
    if (results.size >= max) results.delete(results.keys().next().value);
    results.set(call, result);
    return result;
  };
}
