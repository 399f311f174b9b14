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

/**
 * The same pure function, which does not work out again what it was asked last, of the very same things: those who read one
 * job ask alike. More than the latest would outlive every small collection.
 */
export function asLast<Of extends readonly unknown[], T>(work: (...of: Of) => T): typeof work {
  let last: { readonly of: Of; readonly answer: T } | undefined;
  return (...of) => {
    if (last === undefined || !same(of, last.of)) last = { of, answer: work(...of) };
    return last.answer;
  };
}

function same(these: readonly unknown[], those: readonly unknown[]): boolean {
  for (let k = 0; k < these.length; k++) if (these[k] !== those[k]) return false;
  return true;
}
