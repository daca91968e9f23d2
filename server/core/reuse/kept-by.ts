/** Makes something of an object once. It depends on the object alone, and goes with it. */
export function keptBy<K extends object, T>(make: (key: K) => T): (key: K) => T {
  const kept = new WeakMap<K, { readonly made: T }>();
  return (key) => {
    let known = kept.get(key);
    if (!known) {
      known = { made: make(key) };
      kept.set(key, known);
    }
    return known.made;
  };
}
