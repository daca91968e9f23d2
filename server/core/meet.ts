/** A set, or a map by its keys. */
interface Keys<T> {
  readonly size: number;
  readonly has: (key: T) => boolean;
  readonly keys: () => Iterable<T>;
}

/** Whether two have a key in common; the smaller one is walked through. */
export function meet<T>(a: Keys<T>, b: Keys<T>): boolean {
  const few = a.size < b.size ? a : b;
  const many = few === a ? b : a;
  for (const key of few.keys()) if (many.has(key)) return true;
  return false;
}
