/** How many texts are kept; a machine writes the same few units, wires and colours many times. */
const MOST_KEPT = 500;
/** Longer texts are no units and no wires, and not worth their room. */
const LONGEST_KEPT = 40;

/** A reader of texts that does not read the same short text twice. It empties itself when somebody types too many. */
export function keepReadings<T>(read: (text: string) => T): (text: string) => T {
  const kept = new Map<string, T>();
  return (text) => {
    const known = kept.get(text);
    if (known !== undefined || text.length > LONGEST_KEPT) return known ?? read(text);
    const reading = read(text);
    if (kept.size >= MOST_KEPT) kept.clear();
    kept.set(text, reading);
    return reading;
  };
}
