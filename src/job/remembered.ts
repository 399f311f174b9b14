/** A text's meaning takes far longer to make out than to read: a pure reading of texts that remembers its last few results. */
export function remembered<Texts extends readonly string[], T>(read: (...texts: Texts) => T, most = 16): typeof read {
  const known = new Map<string, T>();
  return (...texts) => {
    const key = texts.join("\0");
    if (!known.has(key)) {
      if (known.size >= most) known.delete(known.keys().next().value as string);
      known.set(key, read(...texts));
    }
    return known.get(key) as T;
  };
}
